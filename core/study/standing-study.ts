import type { Body, Box } from '../body/body.ts';
import type { DistanceField } from '../body/distance-field.ts';
import type { PreparedCloth } from '../equilibrium/prepare-cloth.ts';
import type { Garment } from '../garment/garment.ts';
import type { LaidTube } from '../garment/make-tube.ts';
import type { LaidFlesh } from './lay-flesh.ts';
import type { FabricRest, RestBefore } from './settle-fabric.ts';
import type { Study, StudyResult } from './study.ts';

/** The skin as contact sees it, and where it was asked for. */
export interface SkinAround {
  readonly box: Box;
  readonly skin: DistanceField;
}

/** A garment laid on its body, ready to be settled in any fabric. */
export interface LaidCloth {
  readonly garment: Garment;
  readonly skin: DistanceField;
  readonly around: SkinAround;
  readonly laidRings: LaidTube['laidRings'];
  /** Stiffness under each vertex of each level, Pa/m. */
  readonly foundation: readonly Float64Array[];
  readonly prepared: PreparedCloth;
}

/**
 * All that a run leaves standing, so that the next one need not make it again. It is never changed by a later run: one
 * that is stopped or fails loses nothing. Holds functions, so it cannot cross to another thread.
 */
export interface StandingStudy {
  readonly study: Study;
  /** The body before its flesh was corrected by hand. */
  readonly asMade: Body;
  readonly body: Body;
  readonly cloth: LaidCloth;
  /** Null where flesh was never a layer under this cloth. */
  readonly flesh: LaidFlesh | null;
  /** Where each fabric came to rest, by its id. */
  readonly rests: ReadonlyMap<string, FabricRest>;
}

/** A result with what stands behind it. */
export interface StudyRun extends StudyResult {
  readonly standing: StandingStudy;
}

/** Where a fabric rested in an earlier run; nothing where it was not worn. */
export function restBefore(before: StandingStudy | undefined, id: string): RestBefore | undefined {
  const rest = before?.rests.get(id);
  return before && rest && { garment: before.cloth.garment, rest };
}
