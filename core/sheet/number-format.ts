import type { FieldUnit, ValueBand } from '../fields/field.ts';
import { tapeUnits, type DisplayUnit } from './display-unit.ts';

const MINUS = '\u2212';
const NARROW_SPACE = '\u00a0';

/** A number with a fixed count of decimals, a true minus sign, and no "-0". What is no number reads as a dash. */
export function fixed(value: number, decimals: number): string {
  if (Number.isNaN(value)) return '–';
  if (!Number.isFinite(value)) return value > 0 ? '∞' : `${MINUS}∞`;
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? `${MINUS}${text}` : text;
}

/** As `fixed`, with a plus sign before what is above zero. */
export function signed(value: number, decimals: number): string {
  const text = fixed(value, decimals);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
}

/** A number and its unit, kept on one line: `2.31 kPa`. */
export const withUnit = (value: number, unit: DisplayUnit, decimals = unit.decimals): string =>
  `${fixed(unit.fromSi(value), decimals)}${NARROW_SPACE}${unit.name}`;

/**
 * A field's value as a person reads it, in each of its units: `['2.31 kPa', '17.3 mmHg']`.
 *
 * @param value - In the field's SI unit.
 * @param isDifference - True where a plus sign has a meaning.
 */
export function readings(value: number, unit: FieldUnit, isDifference = false): readonly string[] {
  const { first, second } = tapeUnits(unit);
  const write = (shown: DisplayUnit): string => {
    const number = (isDifference ? signed : fixed)(shown.fromSi(value), shown.decimals);
    return `${number}${NARROW_SPACE}${shown.name}`;
  };
  return second === null ? [write(first)] : [write(first), write(second)];
}

/**
 * Both ends of a band without their unit: `0.55 to 0.66`.
 *
 * @param isDifference - True where a plus sign has a meaning.
 */
export function bandText(
  { low, high }: ValueBand,
  { fromSi }: DisplayUnit,
  { decimals, isDifference = false }: { readonly decimals: number; readonly isDifference?: boolean },
): string {
  const write = isDifference ? signed : fixed;
  return `${write(fromSi(low), decimals)} to ${write(fromSi(high), decimals)}`;
}

/** Area in cm², whole from 10 cm² up. */
export function areaText(squareMetres: number): string {
  const squareCentimetres = squareMetres * 1e4;
  return `${fixed(squareCentimetres, squareCentimetres < 9.95 ? 1 : 0)}${NARROW_SPACE}cm²`;
}

/** Length in cm with one decimal: heights and girths as a tape gives them. */
export const centimetreText = (metres: number): string => `${fixed(metres * 100, 1)}${NARROW_SPACE}cm`;

/** A number as typed by a person, with a point or a comma; null where it is none. */
export function typedNumber(text: string): number | null {
  const plain = text.trim().replace(MINUS, '-').replace(',', '.');
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain)) return null;
  return Number(plain);
}
