import { describe, expect, it } from 'vitest';
import { Fault } from '../../../core/fault/fault.ts';
import { extentOf } from '../../../core/mesh/extent.ts';
import { enclosedVolume } from '../../../core/mesh/triangle-areas.ts';
import type { TriangleMesh } from '../../../core/mesh/triangle-mesh.ts';
import { openBody } from '../../../core/study/open-study.ts';
import { demoStudyText } from '../../help/demo-study.ts';
import { ellipseCylinder, sphere } from '../../help/shapes.ts';

/** Half width 150 mm, half depth 100 mm, 400 mm high, on height 0. */
const torso = ellipseCylinder([0.15, 0.1], 0.4, 0.02);
const INCH = 0.0254;

/** OBJ text in inches, with z up and the front along -y. */
function objText(parts: readonly { name: string; mesh: TriangleMesh }[]): string {
  const lines: string[] = [];
  let first = 1;
  for (const { name, mesh } of parts) {
    lines.push(`o ${name}`);
    const p = mesh.positions;
    for (let i = 0; i < p.length; i += 3) {
      lines.push(`v ${p[i]! / INCH} ${-p[i + 2]! / INCH} ${p[i + 1]! / INCH}`);
    }
    for (let i = 0; i < mesh.triangles.length; i += 3) {
      lines.push(`f ${[0, 1, 2].map((k) => mesh.triangles[i + k]! + first).join(' ')}`);
    }
    first += p.length / 3;
  }
  return lines.join('\n');
}

const file = objText([
  { name: 'Eyes', mesh: sphere(0.01, 0.005) },
  { name: 'Body', mesh: torso },
]);

const open = (answers: object, tissue: unknown = 'rigid') => {
  const text = JSON.stringify({
    ...(JSON.parse(demoStudyText()) as object),
    body: { mesh: 'form.obj', import: { unit: 'inch', up: '+z', front: '-y', ...answers }, tissue },
  });
  return openBody(text, 'a.study.json', {
    text: () => Promise.resolve(file),
    bytes: () => Promise.resolve(new TextEncoder().encode(file)),
  });
};

const faultOf = async (answers: object): Promise<Fault> => {
  try {
    await open(answers);
  } catch (error) {
    if (error instanceof Fault) return error;
    throw error;
  }
  throw new Error('no fault was thrown');
};

describe('a study that brings a mesh in', () => {
  it('places it by the answers that it keeps: in metres, up is y, the front is z', async () => {
    const body = await open({ part: 'Body' }, 'transferred');
    if (body.kind !== 'mesh') throw new Error('it is a mesh');
    const { low, high } = extentOf(body.skin);
    // The mesh's corners miss the ends of the ellipse by less than 0.1 mm.
    [-0.15, 0, -0.1].forEach((value, k) => expect(low[k]).toBeCloseTo(value, 3));
    [0.15, 0.4, 0.1].forEach((value, k) => expect(high[k]).toBeCloseTo(value, 3));
    expect(enclosedVolume(body.skin)).toBeGreaterThan(0);
    expect(body).toMatchObject({ sourceUp: 'y', tissue: 'transferred' });
    expect(body.skin.triangles.length).toBe(torso.triangles.length);
  });

  it('finds the same part by its number, and by itself where none is named', async () => {
    const byName = await open({ part: 'Body' });
    expect(await open({ part: 2 })).toEqual(byName);
    expect(await open({})).toEqual(byName);
  });

  it('refines only where it is asked to', async () => {
    const body = await open({ refineEdgeMm: 12 });
    if (body.kind !== 'mesh') throw new Error('it is a mesh');
    expect(body.skin.triangles.length).toBeGreaterThan(2 * torso.triangles.length);
  });

  it('says which part is not there, and which answer is none', async () => {
    const missing = await faultOf({ part: 'Torso' });
    expect(missing).toMatchObject({
      code: 'body/no-such-part',
      file: 'form.obj',
      facts: { wanted: 'Torso', known: ['Eyes', 'Body'] },
    });
    expect(await faultOf({ front: '+z' })).toMatchObject({ code: 'body/axes-not-square' });
    expect(await faultOf({ up: 'z' })).toMatchObject({
      code: 'file/wrong-shape',
      facts: { path: 'body.import.up' },
    });
  });
});
