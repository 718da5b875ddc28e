import type { Finding } from '../fault/finding.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';

/** One mesh of the cloth. Levels nest: each triangle of a coarser level is split in four. */
export interface ClothLevel {
  /** As laid on the skin before it settles; positions in m. */
  readonly mesh: TriangleMesh;
  /**
   * Maps a triangle's edge vectors to its deformation: F = [x1-x0, x2-x0] * restInverse, columns = warp, weft.
   * Row-major 2x2 per triangle, 1/m; 4*T.
   */
  readonly restInverse: Float64Array;
  /** Unstretched area per triangle, m^2; T. */
  readonly restArea: Float64Array;
  /**
   * Two vertices of the next coarser level per vertex, whose mean is this one (the same twice where they coincide);
   * 2*V. Empty on the coarsest level.
   */
  readonly parents: Uint32Array;
  /** 1 where a vertex lies on a free edge (hem); V. */
  readonly edgeVertex: Uint8Array;
}

/** Cloth laid on a body, unstretched shape and grain known. */
export interface Garment {
  /** Coarsest first; the last is the one shown. */
  readonly levels: readonly ClothLevel[];
  /** Which yarn direction runs along the body's length. */
  readonly warp: 'along' | 'around';
  /** Rings of the finest mesh, lower hem first: ring r holds vertices r*columnCount ... (r+1)*columnCount - 1. */
  readonly rings: readonly GarmentRing[];
  readonly columnCount: number;
  readonly findings: readonly Finding[];
}

/** One horizontal ring of a tube. m. */
export interface GarmentRing {
  /** Height on the body as laid. */
  readonly at: number;
  /** Length along the skin as laid. */
  readonly laid: number;
  /** Unstretched length: the girth that a tape would give on the flat garment. */
  readonly relaxed: number;
}
