import type { Axis, MeshUnit } from '../mesh/mesh-scene.ts';

/** What has to be decided before a mesh file is a body. */
export interface ImportChoices {
  readonly unit: MeshUnit;
  /** The file's axis that points from feet to head. */
  readonly up: Axis;
  /** The file's axis that the chest faces; square to `up`. */
  readonly front: Axis;
  /** Index into the scene's parts, or the largest surface that hangs together, whatever parts it is made of. */
  readonly part: number | 'largest';
  readonly closeHoles: boolean;
  /** Longer edges are halved along a smooth surface, mm; null leaves the mesh as coarse as it is. */
  readonly refineEdgeMm: number | null;
}

/** Edges longer than this are refined unless somebody wishes otherwise: above it, facets show in the pressure, mm. */
export const REFINE_EDGE_MM = 12;

/**
 * How far a guess can be trusted: `stated` by the file and in agreement with the shape, `clear` from the shape,
 * `doubtful` where a person must be asked.
 */
export type Certainty = 'stated' | 'clear' | 'doubtful';

/** One guess, and what speaks for it. */
export interface Guess<Value, Reason> {
  readonly value: Value;
  readonly certainty: Certainty;
  readonly reason: Reason;
}

/** Why a unit was taken: how tall the body is with each, mm. */
export interface UnitReason {
  /** As the file states it; null where it does not. */
  readonly stated: MeshUnit | null;
  readonly heightMm: Readonly<Record<MeshUnit, number>>;
}

/** Why an axis was taken. */
export interface AxisReason {
  readonly stated: Axis | null;
  /**
   * `extent`: the longest way through the body. `stance`: how the sections along it lie (legs below, head above).
   * `toes`: the feet reach farther forward of the ankles than behind. `trunk`: the trunk's hollows and fullness.
   * `custom`: nothing in the shape speaks for any, so what is usual was taken.
   */
  readonly from: 'file' | 'extent' | 'stance' | 'toes' | 'trunk' | 'custom';
  /** How strongly the shape speaks for this one, 0 not at all, 1 fully. */
  readonly strength: number;
}

/** Why a part was taken for the skin. */
export interface PartReason {
  /** Names of the parts that the surface is made of. */
  readonly names: readonly string[];
  /** Its share of the area of all that the file holds. */
  readonly areaShare: number;
  /** The next largest surface over this one, by area; 0 where there is none. */
  readonly nextShare: number;
}

/** A first answer to every question, to be shown and corrected. */
export interface ImportGuess {
  readonly choices: ImportChoices;
  readonly unit: Guess<MeshUnit, UnitReason>;
  readonly up: Guess<Axis, AxisReason>;
  readonly front: Guess<Axis, AxisReason>;
  readonly part: Guess<number | 'largest', PartReason>;
}
