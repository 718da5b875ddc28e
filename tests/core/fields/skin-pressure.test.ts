import { describe, expect, it } from 'vitest';
import { discPressure, skinPressure, type Contact } from '../../../core/fields/skin-pressure.ts';

/** A row of patches 5 mm apart, each 25 mm^2, pressed by given forces along +z; friction along x must not count. */
function row(forces: readonly number[]): Contact {
  const count = forces.length;
  const positions = new Float64Array(3 * count);
  const force = new Float64Array(3 * count);
  const normals = new Float64Array(3 * count);
  forces.forEach((newtons, v) => {
    positions[3 * v] = 0.005 * v;
    force[3 * v] = 0.7;
    force[3 * v + 2] = newtons;
    normals[3 * v + 2] = 1;
  });
  return { positions, areas: new Float64Array(count).fill(25e-6), force, normals };
}

describe('pressure on skin', () => {
  it('is the normal force over the area: 0.05 N on 25 mm^2 is 2 kPa', () => {
    expect(skinPressure(row([0.05]))[0]).toBeCloseTo(2000, 9);
  });

  it('is zero where nothing is pressed', () => {
    expect([...skinPressure(row([0, 0.05, 0]))]).toEqual([0, 2000, 0]);
  });

  it('averages over 20 mm and leaves out cloth off the skin', () => {
    const contact = row([0.02, 0.02, 0.07, 0, 0.02, 0.02]);
    const mean = discPressure(skinPressure(contact), contact);
    // Within 10 mm of vertex 2: vertices 0, 1, 2 and 4; vertex 3 is off the skin.
    expect(mean[2]).toBeCloseTo((0.02 + 0.02 + 0.07 + 0.02) / (4 * 25e-6), 6);
    expect(mean[3]).toBe(0);
  });
});
