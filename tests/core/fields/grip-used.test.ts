import { describe, expect, it } from 'vitest';
import { gripUsed, GRIP_SPENT } from '../../../core/fields/grip-used.ts';

const flat = (rows: number[][]) => Float64Array.from(rows.flat());

/** One vertex a row: the body's force on the cloth (N) and the outward normal. */
function used(friction: number, ...vertices: { force: number[]; normal: number[] }[]): number[] {
  return [
    ...gripUsed(
      {
        positions: new Float64Array(3 * vertices.length),
        areas: new Float64Array(vertices.length).fill(1e-4),
        force: flat(vertices.map(({ force }) => force)),
        normals: flat(vertices.map(({ normal }) => normal)),
      },
      friction,
    ),
  ];
}

/** A slope that carries a weight of 2 N. */
const onSlope = (degrees: number) => {
  const angle = (degrees * Math.PI) / 180;
  return { force: [0, 2, 0], normal: [Math.sin(angle), Math.cos(angle), 0] };
};

describe('gripUsed', () => {
  it('is tan(slope) / mu for a weight on a slope, 1 where it slides (Coulomb)', () => {
    const mu = 0.4;
    const [flat, gentle, steep, sliding] = used(mu, onSlope(0), onSlope(10), onSlope(20), onSlope(40));
    expect(flat).toBeCloseTo(0, 6);
    expect(gentle).toBeCloseTo(Math.tan(Math.PI / 18) / mu, 9);
    expect(steep).toBeCloseTo(Math.tan(Math.PI / 9) / mu, 9);
    expect(sliding).toBe(1);
    // Slip margin 1.2: a tenth of the slope away from sliding is not spent, all of it is.
    expect(gentle! < GRIP_SPENT && steep! > GRIP_SPENT).toBe(true);
  });

  it('is nothing off the skin, and nothing anywhere without friction', () => {
    const pressed = { force: [1, 0.2, 0], normal: [1, 0, 0] };
    expect(used(0.5, pressed, { force: [0, 0, 0], normal: [1, 0, 0] })).toEqual([expect.closeTo(0.4, 12), 0]);
    expect(used(0, pressed)).toEqual([0]);
  });
});
