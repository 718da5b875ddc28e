import { expect, it } from 'vitest';
import { nearestPointOf } from '../../core/mesh/nearest-point.ts';
import { changedStudy } from '../../core/study/changed-study.ts';
import { runStudy } from '../../core/study/run-study.ts';
import type { Study } from '../../core/study/study.ts';
import { clothGeometry } from '../../renderer/scene/form-geometry.ts';
import { settledStudy } from '../../renderer/worker/settled-study.ts';
import { vertexNormals } from '../../renderer/worker/vertex-normals.ts';
import { demoStudy } from '../help/demo-study.ts';

/** How far each vertex of the drawn cloth stands out from the drawn skin, m, and the skin's farthest way out. */
function drawn(study: Study): { clear: Float64Array; bulge: number } {
  const chain = runStudy(study);
  let step = chain.next();
  while (!step.done) step = chain.next();
  const settled = settledStudy(study, step.value);
  const worn = settled.worn[0]!;
  const { triangles } = settled.skin;
  const skin = { positions: worn.givenSkin, triangles };
  const cloth = clothGeometry(worn.positions, settled.clothTriangles, settled.edgeVertex);
  const places = cloth.getAttribute('position').array;
  const nearest = nearestPointOf(skin);
  const into = new Float64Array(4);
  const clear = Float64Array.from({ length: places.length / 3 }, (_, v) => {
    const [x, y, z] = [places[3 * v]!, places[3 * v + 1]!, places[3 * v + 2]!];
    const corner = 3 * nearest(x, y, z, into);
    // Outwards as the normals of the nearest point's corners have it.
    let out = 0;
    for (let c = 0; c < 3; c++) {
      const own = 3 * triangles[corner + c]!;
      const [dx, dy, dz] = [0, 1, 2].map((k) => [x, y, z][k]! - skin.positions[own + k]!);
      const n = worn.givenNormals.subarray(own, own + 3);
      out += into[c]! * (dx! * n[0]! + dy! * n[1]! + dz! * n[2]!);
    }
    return Math.sign(out) * into[3]!;
  });
  const before = vertexNormals(settled.skin);
  let bulge = 0;
  for (let v = 0; v < before.length; v += 3) {
    const way = [0, 1, 2].map(
      (k) => (worn.givenSkin[v + k]! - settled.skin.positions[v + k]!) * before[v + k]!,
    );
    bulge = Math.max(bulge, way[0]! + way[1]! + way[2]!);
  }
  return { clear, bulge };
}

const coarse = async (): Promise<Study> => {
  const study = await demoStudy();
  return { ...study, edge: 0.01, fabrics: study.fabrics.slice(0, 1) };
};

it.each([
  ['foundation', { kind: 'foundation' }],
  ['layer', { kind: 'layer', poisson: 0.49, skin: 'slides' }],
] as const)('cloth is nowhere swallowed by the drawn skin: %s', async (_, flesh) => {
  const { clear } = drawn(changedStudy(await coarse(), { flesh, girthScale: 0.9 }));
  expect(Math.min(...clear)).toBeGreaterThan(0);
});

it('skin bulges beside the hems where flesh is a layer, and only there', async () => {
  const study = await coarse();
  const flesh = { kind: 'layer', poisson: 0.49, skin: 'slides' } as const;
  expect(drawn(study).bulge).toBeLessThan(1e-12);
  // Nearly incompressible flesh goes somewhere: some tenths of a millimetre for a shaper's pressure.
  expect(drawn(changedStudy(study, { flesh })).bulge).toBeGreaterThan(1e-4);
});
