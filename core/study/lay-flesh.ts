import { prepareFlesh, type PreparedFlesh } from '../equilibrium/prepare-flesh.ts';
import type { Body } from '../body/body.ts';
import type { LaidCloth, StandingStudy } from './standing-study.ts';
import type { Study } from './study.ts';

/** Flesh round a laid garment, ready to be pressed. */
export interface LaidFlesh {
  readonly poisson: number;
  readonly prepared: PreparedFlesh;
}

/**
 * Lays out the flesh round a garment where the study takes it as a layer. What stands from an earlier run is taken over
 * while the garment lies where it lay; on a foundation it is kept for when the layer is wanted again.
 */
export function layFlesh(
  { flesh }: Study,
  body: Body,
  cloth: LaidCloth,
  before?: StandingStudy,
): LaidFlesh | null {
  const kept = before?.cloth.laidRings === cloth.laidRings ? before.flesh : null;
  if (flesh?.kind !== 'layer') return kept;
  const { poisson, skin } = flesh;
  if (kept?.poisson === poisson) return kept;
  return { poisson, prepared: prepareFlesh({ body, poisson, skin }, cloth.garment.levels) };
}
