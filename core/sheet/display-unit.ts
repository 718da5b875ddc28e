import type { FieldUnit } from '../fields/field.ts';
import {
  kPaFromPascals,
  metresFromMm,
  mmFromMetres,
  mmHgFromPascals,
  pascalsFromKPa,
  PASCAL_PER_MMHG,
  percentFromRatio,
  ratioFromPercent,
} from '../units/units.ts';

/** A unit as a person reads it, and the way there and back from SI. */
export interface DisplayUnit {
  readonly name: string;
  readonly fromSi: (value: number) => number;
  readonly toSi: (value: number) => number;
  /** Decimals of a single reading. */
  readonly decimals: number;
}

/** Width of the bench strip that the trade's "N per 50 mm" speaks of, m. @see ISO 20932-1. */
export const STRIP_WIDTH = 0.05;

const KILOPASCAL: DisplayUnit = { name: 'kPa', fromSi: kPaFromPascals, toSi: pascalsFromKPa, decimals: 2 };
const MMHG: DisplayUnit = {
  name: 'mmHg',
  fromSi: mmHgFromPascals,
  toSi: (value) => value * PASCAL_PER_MMHG,
  decimals: 1,
};
const PERCENT: DisplayUnit = { name: '%', fromSi: percentFromRatio, toSi: ratioFromPercent, decimals: 1 };
const LINE_TENSION: DisplayUnit = {
  name: 'N/m',
  fromSi: (value) => value,
  toSi: (value) => value,
  decimals: 0,
};
const STRIP_FORCE: DisplayUnit = {
  name: 'N/50 mm',
  fromSi: (value) => value * STRIP_WIDTH,
  toSi: (value) => value / STRIP_WIDTH,
  decimals: 2,
};
const MILLIMETRE: DisplayUnit = { name: 'mm', fromSi: mmFromMetres, toSi: metresFromMm, decimals: 1 };

/** The two edges of the tape: the unit that is always printed, and the one on the other side where the trade has two. */
export interface TapeUnits {
  readonly first: DisplayUnit;
  readonly second: DisplayUnit | null;
}

const TAPES: Readonly<Record<FieldUnit, TapeUnits>> = {
  Pa: { first: KILOPASCAL, second: MMHG },
  ratio: { first: PERCENT, second: null },
  'N/m': { first: LINE_TENSION, second: STRIP_FORCE },
  m: { first: MILLIMETRE, second: null },
};

export const tapeUnits = (unit: FieldUnit): TapeUnits => TAPES[unit];
