import { NEWTON_PER_KGF } from '../units/units.ts';
import type { ColumnMeaning } from './tensile-table.ts';

export const TABLE_EXTENSION_UNITS = ['%', 'ratio', 'stretch ratio', 'mm', 'cm', 'm', 'in'] as const;
export const TABLE_FORCE_UNITS = [
  'N',
  'mN',
  'cN',
  'daN',
  'kN',
  'gf',
  'kgf',
  'lbf',
  'N/m',
  'N/cm',
  'N/mm',
  'N/5 cm',
  'cN/cm',
  'gf/cm',
] as const;
export const TABLE_WIDTH_UNITS = ['mm', 'cm', 'm', 'in', '%', 'ratio'] as const;
export const TABLE_LENGTH_UNITS = ['mm', 'cm', 'm', 'in'] as const;

/** A unit that a column may stand in. */
export type TableUnit =
  | (typeof TABLE_EXTENSION_UNITS)[number]
  | (typeof TABLE_FORCE_UNITS)[number]
  | (typeof TABLE_WIDTH_UNITS)[number];

/** The units that a column of some meaning may have; none where it needs none. */
export function unitsFor(meaning: ColumnMeaning): readonly TableUnit[] {
  switch (meaning) {
    case 'extension':
      return TABLE_EXTENSION_UNITS;
    case 'force':
      return TABLE_FORCE_UNITS;
    case 'width':
      return TABLE_WIDTH_UNITS;
    case 'stripWidth':
      return TABLE_LENGTH_UNITS;
    case 'cycle':
    case 'specimen':
    case 'direction':
    case 'branch':
    case 'time':
    case 'ignored':
      return [];
  }
}

/** Millimetres per unit of length. The inch is 25.4 mm. @see ISO 80000-3, annex (inch, from memory). */
const MM_PER: Partial<Record<TableUnit, number>> = { mm: 1, cm: 10, m: 1000, in: 25.4 };

/**
 * Newtons per unit of force. The pound-force is 0.45359237 kgf.
 *
 * @see ISO 80000-4, annexes (kilogram-force, pound-force; from memory).
 */
const NEWTON_PER: Partial<Record<TableUnit, number>> = {
  N: 1,
  mN: 0.001,
  cN: 0.01,
  daN: 10,
  kN: 1000,
  gf: NEWTON_PER_KGF / 1000,
  kgf: NEWTON_PER_KGF,
  lbf: 0.45359237 * NEWTON_PER_KGF,
};

/** Newtons per unit of force per width, for each millimetre of width. */
const NEWTON_PER_MM_OF: Partial<Record<TableUnit, number>> = {
  'N/m': 1 / 1000,
  'N/cm': 1 / 10,
  'N/mm': 1,
  'N/5 cm': 1 / 50,
  'cN/cm': 0.01 / 10,
  'gf/cm': NEWTON_PER_KGF / 1000 / 10,
};

export const isLength = (unit: TableUnit): boolean => MM_PER[unit] !== undefined;
export const isPerWidth = (unit: TableUnit): boolean => NEWTON_PER_MM_OF[unit] !== undefined;
export const isShare = (unit: TableUnit): boolean => unit === '%' || unit === 'ratio';

/** A length in mm. */
export const mmFrom = (value: number, unit: TableUnit): number => value * (MM_PER[unit] ?? NaN);

/**
 * Extension in per cent; a length counts as the elongation of the gauge, or as the travel of a loop's grips.
 *
 * @param lengthMm - Gauge of a strip, half the circumference of a loop (E = 2 L / C); not used for shares.
 * @see ASTM D4964: L = E C / 200 with E in per cent (from memory).
 */
export function percentFrom(value: number, unit: TableUnit, lengthMm: number): number {
  if (unit === '%') return value;
  if (unit === 'ratio') return value * 100;
  if (unit === 'stretch ratio') return (value - 1) * 100;
  return (mmFrom(value, unit) / lengthMm) * 100;
}

/** Force on the whole width, N. @param widthMm - Of the unstretched strip; not used for plain forces. */
export function newtonsFromTable(value: number, unit: TableUnit, widthMm: number): number {
  const plain = NEWTON_PER[unit];
  return plain !== undefined ? value * plain : value * (NEWTON_PER_MM_OF[unit] ?? NaN) * widthMm;
}

/** Width in mm. @param widthMm - Of the unstretched strip; not used for lengths. */
export function widthMmFrom(value: number, unit: TableUnit, widthMm: number): number {
  if (unit === '%') return (value / 100) * widthMm;
  return unit === 'ratio' ? value * widthMm : mmFrom(value, unit);
}

/** Spellings, without spaces and in small letters. kg and g on a force are kgf and gf: common practice. */
const SPELLINGS: readonly (readonly [TableUnit, readonly string[]])[] = [
  ['%', ['%', 'percent', 'prozent', 'pct', 'pourcent', 'porciento', 'percento', 'porcento']],
  ['ratio', ['ratio', '-', '–', '1', 'mm/mm', 'm/m', 'in/in']],
  ['stretch ratio', ['stretchratio', 'l/l0', 'lambda']],
  ['mm', ['mm', 'millimetre', 'millimeter', 'millimetres', 'millimeters']],
  ['cm', ['cm']],
  ['m', ['m']],
  ['in', ['in', 'inch', 'inches', 'zoll', '"', '″']],
  ['N', ['n', 'newton', 'newtons']],
  ['mN', ['mn']],
  ['cN', ['cn']],
  ['daN', ['dan']],
  ['kN', ['kn']],
  ['gf', ['gf', 'g', 'grf', 'gram', 'grams', 'gramm', 'gramforce']],
  ['kgf', ['kgf', 'kg', 'kp', 'kilopond']],
  ['lbf', ['lbf', 'lb', 'lbs']],
  ['N/m', ['n/m', 'nperm', 'nm-1', 'nm^-1']],
  ['N/cm', ['n/cm', 'npercm']],
  ['N/mm', ['n/mm', 'npermm']],
  ['N/5 cm', ['n/5cm', 'n/50mm', 'nper5cm', 'nper50mm']],
  ['cN/cm', ['cn/cm', 'cnpercm']],
  ['gf/cm', ['gf/cm', 'g/cm', 'gfpercm']],
];

const UNIT_OF: ReadonlyMap<string, TableUnit> = new Map(
  SPELLINGS.flatMap(([unit, spellings]) =>
    spellings.map((spelling): [string, TableUnit] => [spelling, unit]),
  ),
);

/** The unit that a text spells, or null. @param text - In small letters, without accents. */
export function unitOf(text: string): TableUnit | null {
  return UNIT_OF.get(text.replaceAll(/[\s·*]+/g, '')) ?? null;
}
