import type { Placing } from '../garment/place-pattern.ts';
import type { Pattern } from '../pattern/pattern.ts';

/** A block drafted for a body, and where it is worn. */
export interface DraftedBlock {
  readonly pattern: Pattern;
  readonly placing: Placing;
}
