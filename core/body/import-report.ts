import type { PlaceMm } from '../fault/body-faults.ts';
import type { Axis, MeshScene, MeshUnit } from '../mesh/mesh-scene.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';

/** Why a piece of the file is no part of the skin. */
export type DropReason = 'named' | 'inside' | 'smaller' | 'not chosen';

/** Everything that can be done to a mesh on its way to a body: kind -> the numbers. Places are those of the body. */
export interface ImportStepFacts {
  /** What was in the file. */
  read: {
    format: MeshScene['format'];
    partCount: number;
    vertexCount: number;
    triangleCount: number;
    passedOver: MeshScene['passedOver'];
  };
  /** The file's numbers were taken as this unit. */
  scaled: { unit: MeshUnit; stated: MeshUnit | null; heightMm: number };
  /** Turned so that y is up and z the front. */
  turned: { up: Axis; front: Axis };
  /** Moved, in the body's axes: middle over the origin; with `floor` the lowest point to height 0. */
  moved: { xMm: number; yMm: number; zMm: number; floor: boolean };
  welded: { equalCount: number; nearCount: number; toleranceMm: number };
  /** Triangles with a corner twice or no area, and triangles that were there twice. */
  'faces-removed': { flatCount: number; doubledCount: number };
  /**
   * Edges where more than two faces met: each was sewn to the one that continues it most nearly flat, and the rest cut
   * loose. `twistedCount`: sides cut because their faces could not be made to face the same way.
   */
  'sheets-parted': { edgeCount: number; twistedCount: number };
  'skin-chosen': { names: readonly string[]; triangleCount: number; pieceCount: number; areaShare: number };
  /**
   * `named`: called as what is no skin (eyes, hair, helpers). `inside`: a shell inside the skin. `smaller`: a smaller
   * surface beside it. `not chosen`: another part was asked for. One entry per name and reason.
   */
  'part-dropped': {
    name: string;
    triangleCount: number;
    pieceCount: number;
    why: DropReason;
  };
  /** `whole` where the whole skin faced inwards. */
  'faces-turned': { triangleCount: number; whole: boolean };
  hole: {
    edgeCount: number;
    perimeterMm: number;
    heightMm: number;
    place: PlaceMm;
    done: 'closed' | 'left' | 'too wide';
    addedCount: number;
  };
  refined: {
    wishedMm: number;
    longestBeforeMm: number;
    longestAfterMm: number;
    triangleCount: number;
    addedCount: number;
    /** Stopped at the most triangles that are allowed. */
    cutShort: boolean;
  };
  /**
   * Pairs of triangles that cut through one another; left as they are. `at` is one of them. `complete` is false where
   * the search was broken off, so that there are at least so many.
   */
  'self-intersections': { pairCount: number; at: PlaceMm | null; complete: boolean };
}

export type ImportStepKind = keyof ImportStepFacts;

/** One thing that was done, or looked at, with its numbers. */
export type ImportStep = {
  [K in ImportStepKind]: { readonly kind: K; readonly facts: Readonly<ImportStepFacts[K]> };
}[ImportStepKind];

/** How a point of the file becomes a point of the body: p = turn (scale q) + shift. */
export interface ImportPlacing {
  /** Metres per unit of the file. */
  readonly scale: number;
  /** Rows of a rotation, 9. */
  readonly turn: readonly number[];
  /** m, 3. */
  readonly shift: readonly [number, number, number];
}

/** All that was done, in order. */
export interface ImportReport {
  readonly steps: readonly ImportStep[];
  readonly placing: ImportPlacing;
  /** No hole is left, so that the mesh can be a body. */
  readonly closed: boolean;
}

/** A mesh made ready to be a body. */
export interface ImportedMesh {
  /** In m, y up, z to the front. */
  readonly mesh: TriangleMesh;
  readonly report: ImportReport;
}

/** Where an import stands. `share` of this doing that is done, 0 to 1. */
export interface ImportProgress {
  readonly doing:
    'placing' | 'welding' | 'choosing' | 'turning' | 'closing' | 'refining' | 'looking for cuts';
  readonly share: number;
}
