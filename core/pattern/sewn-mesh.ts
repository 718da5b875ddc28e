import type { SewnLevel } from './sew-pattern.ts';

/** All panels of one level as one list of triangles that know both the garment's vertices and their own plane. */
export interface SewnMesh {
  readonly vertexCount: number;
  /** 3 per triangle, the garment's vertices. */
  readonly triangles: Uint32Array;
  /** x, y of each corner in its panel's plane, m; 6*T. */
  readonly corners: Float64Array;
  /** Index into the pattern's panels; T. */
  readonly panel: Uint8Array;
}

/** The triangles of every panel, one panel after the other. */
export function sewnMesh({ panels, joined, vertexCount }: SewnLevel): SewnMesh {
  const triangleCount = panels.reduce((sum, { triangles }) => sum + triangles.length / 3, 0);
  const mesh = {
    vertexCount,
    triangles: new Uint32Array(3 * triangleCount),
    corners: new Float64Array(6 * triangleCount),
    panel: new Uint8Array(triangleCount),
  };
  let at = 0;
  panels.forEach(({ triangles, flat }, p) => {
    mesh.panel.fill(p, at / 3, (at + triangles.length) / 3);
    for (const v of triangles) {
      mesh.triangles[at] = joined[p]![v]!;
      mesh.corners[2 * at] = flat[2 * v]!;
      mesh.corners[2 * at + 1] = flat[2 * v + 1]!;
      at++;
    }
  });
  return mesh;
}
