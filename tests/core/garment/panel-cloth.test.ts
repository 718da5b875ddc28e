import { describe, expect, it } from 'vitest';
import { panelCloth } from '../../../core/garment/panel-cloth.ts';
import { layPattern } from '../../../core/garment/place-pattern.ts';
import { sewPattern } from '../../../core/pattern/sew-pattern.ts';
import { linearLaw, settleTube } from '../../../core/proof/settled-tube.ts';
import { bar, BAR_RADIUS, halfTubePattern } from '../../help/half-tube-pattern.ts';

const STRETCH = 0.2;
const STIFFNESS = 300;
const { pattern, placing, width } = halfTubePattern(STRETCH);
const sewn = sewPattern(pattern, { edge: 0.036, halvings: 2 });
const search = layPattern(pattern, sewn, bar, placing);
let step = search.next();
while (!step.done) step = search.next();
const laid = step.value;
const cloth = panelCloth(pattern, sewn, laid, bar);
const finest = cloth.levels.at(-1)!;

const at = (v: number) => [...finest.mesh.positions.subarray(3 * v, 3 * v + 3)];

describe('a tube sewn of a front and a back', () => {
  it('is laid with no triangle inside out and cut with the area of its panels', () => {
    expect(laid.inward).toBe(0);
    expect(finest.restArea.reduce((sum, area) => sum + area, 0)).toBeCloseTo(4 * width * 0.2, 9);
  });

  it('mirrors itself to the bit', () => {
    const { drawn, mirrored } = cloth.numbers.at(-1)!;
    drawn.forEach((v, i) => {
      const [x, y, z] = at(v);
      const [mx, my, mz] = at(mirrored[i]!);
      expect([mx === 0 ? 0 : -mx!, my, mz]).toEqual([x, y, z]);
    });
  });

  it('presses as Laplace says, P = T / R', () => {
    const tube = settleTube(
      { levels: cloth.levels, laws: [linearLaw(STIFFNESS)], body: bar, foundation: 50e6, friction: 0.5 },
      1,
    );
    expect(tube.equilibrium.atRest).toBe(true);
    const inner = [...tube.pressure].filter((_, v) => {
      const y = tube.equilibrium.positions[3 * v + 1]!;
      return y > 0.04 && y < 0.16;
    });
    const mean = inner.reduce((sum, pressure) => sum + pressure, 0) / inner.length;
    const rms = Math.sqrt(inner.reduce((sum, pressure) => sum + (pressure - mean) ** 2, 0) / inner.length);
    expect(Math.abs(mean / ((STIFFNESS * STRETCH) / BAR_RADIUS) - 1)).toBeLessThan(0.005);
    expect(rms / mean).toBeLessThan(0.04);
  });
});
