import type { Triple } from '../mesh/triple.ts';
import type { Body } from './body.ts';
import type { BodyRegion } from './body-regions.ts';

/** Where a value of the tissue map is from. */
export const TISSUE_SOURCES = ['recipe', 'transferred', 'even', 'rigid', 'region', 'brush'] as const;
export type TissueSource = (typeof TISSUE_SOURCES)[number];

/** What lies under the skin, per vertex. Estimates, whatever their source. */
export interface TissueMap {
  /** Over bone or a firm layer, m; V. */
  readonly depth: Float64Array;
  /** Effective foundation modulus: the skin gives by pressure * depth / modulus; Pa; V. */
  readonly modulus: Float64Array;
  /** Index into BODY_REGIONS; V. Null where no standing person was seen. */
  readonly region: Uint8Array | null;
  /** Index into TISSUE_SOURCES of the last that set the depth or the modulus; V. */
  readonly source: Uint8Array;
}

/** Another depth or modulus for a whole region, in place of what was there. */
export interface RegionCorrection {
  readonly region: BodyRegion;
  /** Mean depth of the region, m: its pattern stays, scaled. */
  readonly depth?: number;
  /** Pa, evenly. */
  readonly modulus?: number;
}

/** One stroke of the brush: sets depth or modulus round a point of the skin. Strokes are laid in order. */
export interface BrushStroke {
  /** m. */
  readonly center: Readonly<Triple>;
  /** m. */
  readonly radius: number;
  /** m. */
  readonly depth?: number;
  /** Pa. */
  readonly modulus?: number;
  /** Share of the radius over which the stroke fades out, 0 (hard edge) to 1. */
  readonly falloff: number;
}

/** What a designer corrects by hand: the moduli all over, then regions, then strokes. */
export interface TissueCorrections {
  /** `even` leaves the body's own; `byRegion` takes the estimates of tissue-moduli.ts. */
  readonly moduli?: 'even' | 'byRegion';
  readonly regions: readonly RegionCorrection[];
  readonly strokes: readonly BrushStroke[];
}

/** Names of places where bone lies close under the skin. */
export const BONY_PLACES = [
  'collarBone',
  'ribEdge',
  'spine',
  'iliacCrest',
  'elbow',
  'kneecap',
  'shin',
  'ankleBones',
] as const;
export type BonyPlace = (typeof BONY_PLACES)[number];

/** A bony place on a body, to be labelled. */
export interface BonyPoint {
  readonly place: BonyPlace;
  readonly side: 'left' | 'middle' | 'right';
  /** On the skin, m. */
  readonly point: Readonly<Triple>;
  /** Of the map there, m. */
  readonly depth: number;
}

/** One and the same source for every vertex. */
export const sourceFilled = (source: TissueSource, vertexCount: number): Uint8Array =>
  new Uint8Array(vertexCount).fill(TISSUE_SOURCES.indexOf(source));

/** The map of a body: modulus = foundation * depth. */
export const tissueMapOf = (
  body: Pick<Body, 'tissueDepth' | 'foundation' | 'tissueSource' | 'regions'>,
): TissueMap => ({
  depth: body.tissueDepth,
  modulus: body.foundation.map((stiffness, v) => stiffness * body.tissueDepth[v]!),
  region: body.regions?.region ?? null,
  source: body.tissueSource,
});
