/** What is used of @kninnug/constrainautor 4.1.0, which brings its source in place of types; see tsconfig.json. */
interface Triangulation {
  readonly coords: ArrayLike<number>;
  readonly triangles: Uint32Array;
  readonly halfedges: Int32Array;
}

/** Makes a triangulation keep to edges between its points; changes it in place. */
declare class Constrainautor {
  constructor(triangulation: Triangulation);
  constrainAll(edges: readonly (readonly [number, number])[]): this;
  /** Flips all other edges until they are Delaunay again. */
  delaunify(deep?: boolean): this;
}

// oxlint-disable-next-line import/no-default-export -- the package's own
export { Constrainautor as default };
