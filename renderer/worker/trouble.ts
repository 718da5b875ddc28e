import { Fault } from '../../core/fault/fault.ts';
import type { PostedFault } from './messages.ts';

/** What was thrown, as it crosses from a worker: a fault to be said in words, or a bug. */
export type Trouble =
  | { readonly kind: 'fault'; readonly fault: PostedFault }
  | { readonly kind: 'bug'; readonly message: string };

export function troubleOf(error: unknown): Trouble {
  if (error instanceof Fault) return { kind: 'fault', fault: postedFault(error) };
  return { kind: 'bug', message: error instanceof Error ? error.message : String(error) };
}

/** A fault as plain data. */
export const postedFault = ({ code, facts, file }: Fault): PostedFault =>
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion -- the code and its facts were thrown together
  ({ code, facts, file }) as PostedFault;
