import { describe, expect, it } from 'vitest';
import { clothGeometry, paintField } from '../../renderer/scene/form-geometry.ts';
import { givenSkin } from '../../renderer/worker/given-skin.ts';
import { pretendField, pretendTube } from '../help/pretend-result.ts';

const tube = pretendTube();
const { positions, triangles } = tube.mesh;

describe('cloth on the graphics card', () => {
  it('is lifted off the skin by a little over a millimetre, everywhere outwards', () => {
    const drawn = clothGeometry(positions, triangles, tube.edgeVertex).getAttribute('position').array;
    for (let v = 0; v < drawn.length; v += 3) {
      const before = (positions[v]! / 0.16) ** 2 + (positions[v + 2]! / 0.12) ** 2;
      const after = (drawn[v]! / 0.16) ** 2 + (drawn[v + 2]! / 0.12) ** 2;
      expect(after).toBeGreaterThan(before);
      expect(Math.hypot(drawn[v]! - positions[v]!, drawn[v + 2]! - positions[v + 2]!)).toBeLessThan(0.0013);
    }
  });

  it.each([
    ['values and places without', [100, 200, Number.NaN]],
    ['infinities', [Infinity, -Infinity, 5]],
    ['all equal', [7, 7, 7]],
    ['nothing but gaps', [Number.NaN, Number.NaN, Number.NaN]],
  ])('never gets a NaN or an infinity: %s', (_, some) => {
    const geometry = clothGeometry(positions, triangles, tube.edgeVertex);
    const values = Array.from(tube.vertexArea, (_, v) => some[v % some.length]!);
    const bare = { ...pretendField(values), values: Float64Array.from(values) };
    for (const margin of [null, Float64Array.from(values)]) {
      paintField(
        geometry,
        bare,
        margin === null ? null : margin.map((value) => (Number.isFinite(value) ? 1e-3 : 0)),
      );
      const value = geometry.getAttribute('value').array;
      const missing = geometry.getAttribute('missing').array;
      for (let v = 0; v < value.length; v++) {
        expect(Number.isFinite(value[v])).toBe(true);
        // The card hatches where this is above one half.
        expect(missing[v]! > 0.5).toBe(Number.isNaN(values[v]));
      }
    }
  });
});

/** 1 on the ellipse of the tube, less inside it. */
const shape = (p: ArrayLike<number>, v: number): number => Math.hypot(p[v]! / 0.16, p[v + 2]! / 0.12);

describe('the skin given way', () => {
  it('lies under the cloth wherever that has moved in, and is untouched far from it', () => {
    const skin = pretendTube({ columns: 96, rings: 81, from: 0.6, to: 1.4 });
    // The cloth presses the skin in by 5 mm all round.
    const depth = 0.005;
    const cloth = positions.map((value, i) => {
      const axis = i % 3;
      return axis === 1 ? value : value * (axis === 0 ? (0.16 - depth) / 0.16 : (0.12 - depth) / 0.12);
    });
    const given = givenSkin(skin.mesh, {
      positions: cloth,
      vertexArea: tube.vertexArea,
      distance: new Float64Array(tube.vertexArea.length).fill(-depth),
    });
    const clothShape = Math.max(...Array.from(tube.vertexArea, (_, v) => shape(cloth, 3 * v)));
    for (let v = 0; v < given.length; v += 3) {
      const height = given[v + 1]!;
      if (height > 0.92 && height < 1.12) expect(shape(given, v)).toBeLessThan(clothShape);
      if (height < 0.83 || height > 1.21) expect(given[v]).toBe(skin.mesh.positions[v]);
    }
  });
});
