import { describe, expect, it } from 'vitest';
import { makeFitBody } from '../../../core/body/fit-body.ts';
import type { Garment } from '../../../core/garment/garment.ts';
import { makeTube } from '../../../core/garment/make-tube.ts';
import type { TubeSheet } from '../../../core/garment/tube-sheet.ts';
import { faultOf } from '../../help/fault-of.ts';

const body = makeFitBody({ stature: 1.68, bust: 0.92, underbust: 0.79, waist: 0.76, hip: 1.01 });
const shaper: TubeSheet = {
  region: 'trunk',
  from: 0.88,
  to: 1.1,
  girths: [
    { at: 0.88, relaxed: 0.77 },
    { at: 0.96, relaxed: 0.675 },
    { at: 1.045, relaxed: 0.57 },
    { at: 1.1, relaxed: 0.6 },
  ],
  relaxedLength: 0.205,
  warp: 'along',
};
const thighBand: TubeSheet = {
  region: 'leftLeg',
  from: 0.56,
  to: 0.68,
  girths: [{ at: 0.62, relaxed: 0.42 }],
  relaxedLength: 0.115,
  warp: 'around',
};

/** Relaxed girth between rings, by straight line. */
function relaxedAt({ rings }: Garment, at: number): number {
  const above = rings.findIndex((ring) => ring.at >= at - 1e-12);
  if (above === 0) return rings[0]!.relaxed;
  const [low, high] = [rings[above - 1]!, rings[above]!];
  const t = (at - low.at) / (high.at - low.at);
  return low.relaxed * (1 - t) + high.relaxed * t;
}

describe('a tube on the fit body', () => {
  it.each([
    ['waist shaper, 8 mm', shaper, 0.008],
    ['waist shaper, 5 mm', shaper, 0.005],
    ['thigh band, 6 mm', thighBand, 0.006],
  ] as const)('%s: relaxed girths equal the sheet within 0.5 mm', (_, sheet, edge) => {
    const { garment } = makeTube(sheet, body, edge);
    for (const { at, relaxed } of sheet.girths) {
      expect(Math.abs(relaxedAt(garment, at) - relaxed)).toBeLessThan(0.0005);
    }
  });

  it('lies on the skin and mirrors itself', () => {
    const { garment, skin } = makeTube(shaper, body, 0.008);
    const { positions } = garment.levels.at(-1)!.mesh;
    const { columnCount } = garment;
    const sample = new Float64Array(10);
    for (let v = 0; 3 * v < positions.length; v++) {
      const [x, y, z] = [positions[3 * v]!, positions[3 * v + 1]!, positions[3 * v + 2]!];
      skin.sample(x, y, z, sample);
      expect(Math.abs(sample[0]!)).toBeLessThan(1e-5);
      const row = Math.floor(v / columnCount);
      const twin = 3 * (row * columnCount + ((columnCount - (v % columnCount)) % columnCount));
      expect(Math.abs(positions[twin]! + x)).toBeLessThan(1e-6);
      expect(Math.abs(positions[twin + 2]! - z)).toBeLessThan(1e-6);
    }
  });

  it('refuses a trunk below the crotch a tube over the head and one that the arms are in the way of', () => {
    const low = faultOf(() =>
      makeTube({ ...shaper, from: 0.6, to: 0.8, girths: [{ at: 0.7, relaxed: 0.8 }] }, body, 0.008),
    );
    expect(low.code).toBe('garment/region-not-here');
    const high = faultOf(() => makeTube({ ...shaper, to: 2 }, body, 0.008));
    expect(high.code).toBe('garment/level-off-body');
    const armpit = faultOf(() => makeTube({ ...shaper, to: 1.3 }, body, 0.008));
    expect(armpit.code).toBe('garment/limbs-joined');
  });
});
