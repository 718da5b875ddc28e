/** A surface of triangles on flat arrays. Lengths in m; y points up, z to the front, x to the wearer's left. */
export interface TriangleMesh {
  /** 3 per vertex: x, y, z. */
  readonly positions: Float64Array;
  /** 3 vertex indices per triangle, counter-clockwise seen from outside. */
  readonly triangles: Uint32Array;
}
