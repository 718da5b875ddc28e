/** Where a fit body is measured, and what it is asked to measure there. Lengths in mm. */
import { mmFromMetres } from '../units/units.ts';
import { FEMALE_FORM, MALE_FORM, type FitForm } from './fit-forms.ts';
import type { FitMeasures, FurtherGirths } from './fit-measures.ts';

/** Girths that set the size of the figure around them; the bust is met by the breasts instead. */
export const STATIONS = [
  'neck',
  'ribs',
  'waist',
  'topHip',
  'hip',
  'thigh',
  'midThigh',
  'knee',
  'calf',
  'ankle',
  'upperArm',
  'elbow',
  'wrist',
] as const;

export type Station = (typeof STATIONS)[number];

export type PerStation = Readonly<Record<Station, number>>;

/** Heights on the base figure: above the floor, or along the arm from the shoulder joint (negative towards the wrist). */
export const TRUNK_LEVELS = { waist: 1045, topHip: 960, hip: 845, neck: 1455 } as const;
export const LEG_LEVELS = { thigh: 752, midThigh: 625, knee: 468, calf: 340, ankle: 120 } as const;
export const LEG_STATIONS = ['thigh', 'midThigh', 'knee', 'calf', 'ankle'] as const;
export const ARM_LEVELS = { upperArm: -140, elbow: -310, wrist: -540 } as const;

/** The whole order for a figure: what to start from and what to reach. mm. */
export interface FitOrder {
  readonly form: FitForm;
  readonly stature: number;
  readonly bust: number;
  readonly girths: PerStation;
}

const FURTHER = [
  'neck',
  'topHip',
  'thigh',
  'midThigh',
  'knee',
  'calf',
  'ankle',
  'upperArm',
  'elbow',
  'wrist',
] as const satisfies readonly (keyof FurtherGirths)[];

/** Names of the further girths that were not given. */
export function estimatedGirths(measures: FitMeasures): (keyof FurtherGirths)[] {
  return FURTHER.filter((name) => measures[name] === undefined);
}

/** Turns measures in m into an order in mm; girths that are not given are estimated from those that are. */
export function orderOf(measures: FitMeasures): FitOrder {
  const given: Partial<Record<keyof FurtherGirths, number>> = measures;
  const isMale = measures.figure === 'male';
  const bust = mmFromMetres(measures.bust);
  const waist = mmFromMetres(measures.waist);
  const hip = mmFromMetres(measures.hip);
  const estimated = isMale ? maleEstimates({ bust, waist, hip }) : femaleEstimates({ bust, waist, hip });
  const pick = (name: keyof FurtherGirths): number => {
    const metres = given[name];
    return metres === undefined ? estimated[name] : mmFromMetres(metres);
  };
  return {
    form: isMale ? MALE_FORM : FEMALE_FORM,
    stature: mmFromMetres(measures.stature),
    bust,
    girths: {
      neck: pick('neck'),
      ribs: isMale ? bust : mmFromMetres(measures.underbust),
      waist,
      topHip: pick('topHip'),
      hip,
      thigh: pick('thigh'),
      midThigh: measures.midThigh === undefined ? 0.87 * pick('thigh') : mmFromMetres(measures.midThigh),
      knee: pick('knee'),
      calf: pick('calf'),
      ankle: pick('ankle'),
      upperArm: pick('upperArm'),
      elbow: pick('elbow'),
      wrist: pick('wrist'),
    },
  };
}

interface ThreeGirths {
  readonly bust: number;
  readonly waist: number;
  readonly hip: number;
}

/** Estimates of the girths not asked for, mm: set by hand for plausible sizes, from memory. */
function femaleEstimates({ bust, waist, hip }: ThreeGirths): Record<keyof FurtherGirths, number> {
  const thigh = 0.62 * hip - 31;
  return {
    neck: 0.22 * bust + 150,
    topHip: 0.42 * waist + 0.58 * hip,
    thigh,
    midThigh: 0.87 * thigh,
    knee: 0.3 * hip + 75,
    calf: 0.28 * hip + 93,
    ankle: 0.12 * hip + 106,
    upperArm: 0.3 * bust + 16,
    elbow: 0.21 * bust + 63,
    wrist: 0.08 * bust + 88,
  };
}

/** The same for the male figure. */
function maleEstimates({ bust, waist, hip }: ThreeGirths): Record<keyof FurtherGirths, number> {
  const thigh = 0.6 * hip - 25;
  return {
    neck: 0.24 * bust + 148,
    topHip: 0.55 * waist + 0.45 * hip,
    thigh,
    midThigh: 0.87 * thigh,
    knee: 0.3 * hip + 85,
    calf: 0.28 * hip + 97,
    ankle: 0.12 * hip + 112,
    upperArm: 0.3 * bust + 16,
    elbow: 0.2 * bust + 76,
    wrist: 0.08 * bust + 92,
  };
}
