import { Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { cutEdges, slabGeometry } from '../../renderer/scene/swatch/slab-geometry.ts';

/** A square of side 1 in the plane y = 0, seen from above. */
const square = {
  positions: new Float64Array([0, 0, 0, 0, 0, 1, 1, 0, 1, 1, 0, 0]),
  triangles: new Uint32Array([0, 1, 2, 0, 2, 3]),
};

describe('cloth drawn with its thickness', () => {
  it('encloses area times thickness (divergence theorem: V = sum of a . (b x c) / 6)', () => {
    const geometry = slabGeometry(square, 0.1);
    const p = geometry.getAttribute('position');
    const index = geometry.getIndex()!;
    let volume = 0;
    for (let t = 0; t < index.count; t += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => {
        const v = index.getX(t + k);
        return new Vector3(p.getX(v), p.getY(v), p.getZ(v));
      });
      volume += a!.dot(b!.cross(c!)) / 6;
    }
    expect(volume).toBeCloseTo(0.1, 6);
  });

  it('puts a wall along the cut edge only', () => {
    const edges = cutEdges(square.triangles).map(([from, to]) => `${from} ${to}`);
    expect(edges.toSorted()).toEqual(['0 1', '1 2', '2 3', '3 0']);
  });
});
