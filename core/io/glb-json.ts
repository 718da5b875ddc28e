import { Fault } from '../fault/fault.ts';

/** An object of a parsed JSON text, nothing about it known yet. */
export type Json = Readonly<Record<string, unknown>>;

export const isObject = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The file contradicts itself at `place` (`nodes[3].children`). */
export const broken = (place: string, problem: string): Fault<'mesh/glb-broken'> =>
  new Fault('mesh/glb-broken', { place, problem });

/**
 * A list that may be left out.
 *
 * @throws {Fault} `mesh/glb-broken`.
 */
export function listIn(holder: Json, name: string, place: string): readonly unknown[] {
  const list: unknown = holder[name] ?? [];
  if (!Array.isArray(list)) throw broken(place, 'it is no list');
  return list;
}

/**
 * A list of objects that may be left out.
 *
 * @throws {Fault} `mesh/glb-broken`.
 */
export function objectsIn(holder: Json, name: string, place = name): readonly Json[] {
  return listIn(holder, name, place).map((entry, i) => {
    if (!isObject(entry)) throw broken(`${place}[${i}]`, 'it is no object');
    return entry;
  });
}

/**
 * A whole number from 0 to below `end`.
 *
 * @throws {Fault} `mesh/glb-broken`.
 */
export function wholeBelow(end: number, value: unknown, place: string): number {
  if (typeof value === 'number' && Number.isInteger(value) && value >= 0 && value < end) return value;
  throw broken(place, `${textOf(value)} is not a whole number below ${end}`);
}

/** A value as found, cut short; what is nested is named only, since it may be nested endlessly. */
export function textOf(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object' && value !== null) return 'an object';
  return (JSON.stringify(typeof value === 'string' ? value.slice(0, 60) : value) ?? 'nothing').slice(0, 60);
}
