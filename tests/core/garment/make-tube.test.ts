import { describe, expect, it } from 'vitest';
import { NEAR_RIGID } from '../../../core/body/body.ts';
import { deformationOf } from '../../../core/garment/deformation.ts';
import { makeTube } from '../../../core/garment/make-tube.ts';
import type { TubeSheet } from '../../../core/garment/tube-sheet.ts';
import { cylinder } from '../../help/shapes.ts';
import { cylinderField, smoothBody } from '../../help/smooth-body.ts';
import { faultOf } from '../../help/fault-of.ts';

const RADIUS = 0.1;
const body = smoothBody(cylinder(RADIUS, 0.5, 0.01, { jitter: 0.3 }), cylinderField(RADIUS), NEAR_RIGID);
const sheet: TubeSheet = {
  region: 'whole',
  from: 0.1,
  to: 0.3,
  girths: [
    { at: 0.1, relaxed: 0.5 },
    { at: 0.3, relaxed: 0.45 },
  ],
  relaxedLength: 0.18,
  warp: 'along',
};

describe('a tube laid on a cylinder', () => {
  const { garment } = makeTube(sheet, body, 0.008);

  it('lies on the skin with hems at the exact heights', () => {
    for (const { mesh, edgeVertex } of garment.levels) {
      for (let v = 0; v < edgeVertex.length; v++) {
        const [x, y, z] = mesh.positions.subarray(3 * v, 3 * v + 3) as unknown as [number, number, number];
        expect(Math.hypot(x, z)).toBeCloseTo(RADIUS, 9);
        if (edgeVertex[v]) expect([0.1, 0.3]).toContain(y);
      }
    }
  });

  it('is evenly meshed: edges within 5.5 and 11 mm when 8 mm is asked', () => {
    const { mesh } = garment.levels.at(-1)!;
    const lengths: number[] = [];
    for (let t = 0; t < mesh.triangles.length; t += 3) {
      // First edge of each triangle lies on a ring; the diagonal is longer by nature.
      const [a, b] = [3 * mesh.triangles[t]!, 3 * mesh.triangles[t + 1]!];
      lengths.push(Math.hypot(...[0, 1, 2].map((k) => mesh.positions[a + k]! - mesh.positions[b + k]!)));
    }
    expect(Math.min(...lengths)).toBeGreaterThan(0.0055);
    expect(Math.max(...lengths)).toBeLessThan(0.011);
  });

  it('has the relaxed girths of the sheet within 0.5 mm, measured on the unstretched triangles', () => {
    const { mesh, restInverse } = garment.levels.at(-1)!;
    const { columnCount } = garment;
    const rows = garment.rings.length - 1;
    for (const [row, wanted] of [
      [0, 0.5],
      [rows, 0.45],
    ] as const) {
      let girth = 0;
      for (let t = 0; t < restInverse.length / 4; t++) {
        const corners = [0, 1, 2].map((k) => mesh.triangles[3 * t + k]!);
        const onRow = corners.filter((v) => Math.floor(v / columnCount) === row);
        if (onRow.length === 2) girth += firstRestEdge(restInverse.subarray(4 * t, 4 * t + 4));
      }
      expect(Math.abs(girth - wanted)).toBeLessThan(0.0005);
    }
  });

  it('is stretched along by laid over relaxed length and around by body over relaxed girth', () => {
    const finest = garment.levels.at(-1)!;
    const deformation = new Float64Array(6);
    deformationOf(finest, finest.mesh.positions, 0, deformation);
    const along = Math.hypot(...deformation.subarray(0, 3));
    const around = Math.hypot(...deformation.subarray(3, 6));
    expect(along).toBeCloseTo(0.2 / 0.18, 3);
    expect(around).toBeCloseTo((2 * Math.PI * RADIUS) / 0.5, 2);
  });

  it('covers the same unstretched area whichever way the warp runs', () => {
    const turned = makeTube({ ...sheet, warp: 'around' }, body, 0.008).garment;
    expect(area(turned.levels.at(-1)!.restArea)).toBeCloseTo(area(garment.levels.at(-1)!.restArea), 12);
  });
});

const area = (areas: Float64Array) => areas.reduce((sum, value) => sum + value, 0);
const tryTube = (change: Partial<TubeSheet>) => faultOf(() => makeTube({ ...sheet, ...change }, body, 0.008));

describe('a tube that cannot be laid', () => {
  it.each([
    ['garment/levels-swapped', { from: 0.3, to: 0.1 }],
    ['garment/too-short', { to: 0.11 }],
    ['garment/girth-off-garment', { girths: [{ at: 0.4, relaxed: 0.5 }] }],
    [
      'garment/girths-not-rising',
      {
        girths: [
          { at: 0.2, relaxed: 0.5 },
          { at: 0.2, relaxed: 0.5 },
        ],
      },
    ],
    ['garment/girth-too-small', { girths: [{ at: 0.2, relaxed: 0.05 }] }],
    ['garment/level-off-body', { to: 0.7, girths: [{ at: 0.2, relaxed: 0.5 }] }],
    ['garment/region-not-here', { region: 'leftLeg' }],
  ] as const)('%s', (code, change) => {
    expect(tryTube(change as Partial<TubeSheet>).code).toBe(code);
  });

  it('refuses a mesh that no memory holds, before it is made', () => {
    expect(faultOf(() => makeTube(sheet, body, 0.0002)).code).toBe('garment/too-fine');
  });
});

/** Length of a triangle's first unstretched edge: the first column of Dm = restInverse^-1. */
function firstRestEdge(inverse: Float64Array): number {
  const [a, b, c, d] = inverse as unknown as [number, number, number, number];
  const determinant = a * d - b * c;
  return Math.hypot(d / determinant, -c / determinant);
}
