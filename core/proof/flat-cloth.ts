import type { FlatSheet } from '../equilibrium/curvature-patches.ts';
import type { ClothLevel } from '../garment/garment.ts';
import { setRestShape } from '../garment/rest-shape.ts';

/** A flat sheet as the only level of a cloth, its flat shape the unstretched one, laid wherever `place` says; m. */
export function flatCloth(
  { flat, triangles }: FlatSheet,
  place: (u: number, v: number) => readonly [number, number, number],
): ClothLevel {
  const triangleCount = triangles.length / 3;
  const shape = {
    restInverse: new Float64Array(4 * triangleCount),
    restArea: new Float64Array(triangleCount),
  };
  for (let t = 0; t < triangleCount; t++) {
    const a = 2 * triangles[3 * t]!;
    const b = 2 * triangles[3 * t + 1]!;
    const c = 2 * triangles[3 * t + 2]!;
    setRestShape(
      {
        ax: flat[b]! - flat[a]!,
        ay: flat[b + 1]! - flat[a + 1]!,
        bx: flat[c]! - flat[a]!,
        by: flat[c + 1]! - flat[a + 1]!,
      },
      t,
      shape,
    );
  }
  const positions = new Float64Array((3 * flat.length) / 2);
  for (let v = 0; 2 * v < flat.length; v++) positions.set(place(flat[2 * v]!, flat[2 * v + 1]!), 3 * v);
  return {
    mesh: { positions, triangles },
    ...shape,
    parents: new Uint32Array(0),
    edgeVertex: new Uint8Array(flat.length / 2),
  };
}
