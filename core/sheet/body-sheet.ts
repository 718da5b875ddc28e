import type { Body } from '../body/body.ts';
import { fixed } from './number-format.ts';

/** One row of the girth table. */
export interface GirthRow {
  /** The level's own name; `core/words` says it. */
  readonly name: string;
  /** `104.5` cm above the floor. */
  readonly levelCm: string;
  /** `76.0` cm round. */
  readonly girthCm: string;
}

/** The girths of a body, the highest first, as they stand on the form. */
export function girthRows(body: Pick<Body, 'girths'>): readonly GirthRow[] {
  return body.girths
    .toSorted((one, other) => other.level - one.level)
    .map(({ name, level, girth }) => ({
      name,
      levelCm: fixed(100 * level, 1),
      girthCm: fixed(100 * girth, 1),
    }));
}
