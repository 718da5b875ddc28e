/** Everything that the fit body can be asked for, as data: one record for sliders, files and checks. */
import type { FitMeasures } from './fit-measures.ts';
import type { FitShape } from './fit-shape.ts';

export type FitMeasureName = Exclude<keyof FitMeasures, 'figure'>;
export type FitShapeName = keyof FitShape;
export type FitParameterName = FitMeasureName | FitShapeName;

/** `share` has no unit: 0 to 1 of the way, or a multiple of the usual. */
export type FitUnit = 'mm' | 'deg' | 'share';

/** One thing to ask for. Numbers are in `unit`. */
export interface FitParameter {
  readonly name: FitParameterName;
  readonly kind: 'length' | 'girth' | 'stance' | 'shape';
  readonly unit: FitUnit;
  readonly min: number;
  readonly max: number;
  /** Of a slider. */
  readonly step: number;
  /** null: estimated from the girths that are given, or chosen by the size of the figure. */
  readonly default: number | null;
  /** Its name in a study file. */
  readonly key: string;
}

/** Measures with their limits and what the demonstration figure has; null is estimated. Sixty random figures within them came out sound. */
const MEASURES = [
  ['stature', 1450, 2000, 1680],
  ['neck', 260, 560, null],
  ['bust', 720, 1450, 920],
  ['underbust', 600, 1350, 790],
  ['waist', 520, 1400, 760],
  ['topHip', 620, 1450, null],
  ['hip', 750, 1450, 1010],
  ['thigh', 380, 900, null],
  ['midThigh', 330, 800, null],
  ['knee', 270, 600, null],
  ['calf', 270, 600, null],
  ['ankle', 180, 350, null],
  ['upperArm', 190, 520, null],
  ['elbow', 180, 450, null],
  ['wrist', 120, 250, null],
] as const satisfies readonly (readonly [FitMeasureName, number, number, number | null])[];

// prettier-ignore
const SHAPES = [
  { name: 'legSpread', kind: 'stance', unit: 'deg', min: 0, max: 8, step: 0.5, default: 0, key: 'legSpreadDeg' },
  { name: 'armAbduction', kind: 'stance', unit: 'deg', min: 30, max: 50, step: 1, default: null, key: 'armAbductionDeg' },
  { name: 'thighGap', kind: 'shape', unit: 'mm', min: 0, max: 60, step: 1, default: null, key: 'thighGapMm' },
  { name: 'lumbarFurrow', kind: 'shape', unit: 'mm', min: 0, max: 9, step: 0.5, default: 3, key: 'lumbarFurrowMm' },
  { name: 'seatCleft', kind: 'shape', unit: 'mm', min: 8, max: 24, step: 1, default: 15, key: 'seatCleftMm' },
  { name: 'bustSupport', kind: 'shape', unit: 'share', min: 0, max: 1, step: 0.05, default: 0, key: 'bustSupport' },
  { name: 'relief', kind: 'shape', unit: 'share', min: 0, max: 1.5, step: 0.1, default: 1, key: 'relief' },
] as const satisfies readonly FitParameter[];

/** In the order in which a pattern cutter reads a body: height, girths from the neck down, arms, then stance and shape. */
export const FIT_PARAMETERS: readonly FitParameter[] = [
  ...MEASURES.map(([name, min, max, usual]): FitParameter => ({
    name,
    kind: name === 'stature' ? 'length' : 'girth',
    unit: 'mm',
    min,
    max,
    step: name === 'stature' ? 10 : 5,
    default: usual,
    key: `${name}Mm`,
  })),
  ...SHAPES,
];

/** The record of one parameter. */
export const fitParameter = (name: FitParameterName): FitParameter =>
  FIT_PARAMETERS.find((parameter) => parameter.name === name)!;

/** The usual value of a shape that has one. */
export function usualShape(name: Exclude<FitShapeName, 'armAbduction' | 'thighGap'>): number {
  return SHAPES.find((shape) => shape.name === name)!.default!;
}

/** Whether a parameter is a measure of the body, not a stance or a shape. */
export const isMeasure = (name: FitParameterName): name is FitMeasureName =>
  MEASURES.some(([measure]) => measure === name);
