import type { Finding } from '../fault/finding.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import type { EdgeOf, Pattern } from '../pattern/pattern.ts';

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
   * Vertices of the next coarser level that each vertex follows: two, whose mean it is (the same twice where they
   * coincide), or three where `parentWeights` is given. 2*V or 3*V; empty on the coarsest level.
   */
  readonly parents: Uint32Array;
  /** Share of each of the three parents, summing to 1 per vertex; 3*V. Levels that do not nest have it. */
  readonly parentWeights?: Float64Array;
  /** 1 where a vertex lies on a free edge (hem); V. */
  readonly edgeVertex: Uint8Array;
  /** Which of the garment's fabrics each triangle is cut from; T. All the first if left out. */
  readonly panel?: Uint8Array;
  /** Second layers sewn to this one. */
  readonly linings?: readonly Lining[];
  /** Elastic sewn along lines of the cloth. */
  readonly elastics?: readonly SewnElastic[];
}

/** A second cloth that shares the vertices of the first, with an unstretched shape and a grain of its own. */
export interface Lining {
  /** Which of the garment's fabrics. */
  readonly fabric: number;
  /** The triangles it covers; N. */
  readonly triangles: Uint32Array;
  /** As in {@link ClothLevel}; 4*N. */
  readonly restInverse: Float64Array;
  /** As in {@link ClothLevel}; N. */
  readonly restArea: Float64Array;
}

/** Elastic tape, seam or drawcord along mesh edges, pulling only along itself. */
export interface SewnElastic {
  /** Pairs of neighbouring vertices; 2*S. */
  readonly segments: Uint32Array;
  /** Unstretched length of each segment, m; S. */
  readonly restLength: Float64Array;
  /** Share of the elastic's force that each segment carries: a wide one runs over several rows of edges; S. */
  readonly share: Float64Array;
  /** Width over which it presses, m. */
  readonly width: number;
  /** Force of the whole elastic by its extension, rising from (0, 0); straight on beyond the last: ratio, N. */
  readonly curve: readonly (readonly [number, number])[];
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
  /** Free edges of a garment cut from panels, whose rings are none. */
  readonly lines?: readonly GarmentLine[];
  /** What it is cut from, and where each of the pattern's edges lies. */
  readonly pattern?: Pattern;
  readonly edges?: readonly GarmentEdge[];
  readonly findings: readonly Finding[];
}

/** One line round a cut garment: waist, hem. m. */
export interface GarmentLine {
  /** As the block calls the edge. */
  readonly name: string;
  /** Mean height on the body as laid. */
  readonly at: number;
  /** Length as laid on the skin. */
  readonly laid: number;
  /** Length in the flat panels. */
  readonly relaxed: number;
  /** Pairs of the finest mesh's vertices. */
  readonly segments: Uint32Array;
}

/** One edge of the pattern on the cloth, of both halves where the pattern is drawn as one. */
export interface GarmentEdge extends EdgeOf {
  /** Pairs of the finest mesh's vertices. */
  readonly segments: Uint32Array;
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
