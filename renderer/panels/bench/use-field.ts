import { PROBLEM_WORDS } from '../../../core/words/bench-place-words.ts';
import { CURVES, STRIPS } from '../../store/bench-draft.ts';
import type { BenchState } from '../../store/bench-store.ts';
import { placeOfFault } from '../../store/bench-places.ts';
import { useBench } from '../../table.ts';

/** What is to be said at one field: that it cannot be read, or that the fit stumbled over it. */
export interface FieldNote {
  /** Empty where the remark beside the readings says it all. */
  readonly text: string;
}

/** The field that the fault of the fit names; null where none is named. */
export function faultyField({ reading, draft }: Pick<BenchState, 'reading' | 'draft'>): string | null {
  const { outcome } = reading;
  return outcome.kind === 'fault' ? placeOfFault(outcome.fault, draft).field : null;
}

/**
 * The note at one field; null where all is well or nothing stands there yet.
 *
 * @param faulty - {@link faultyField} of the state, found once for all cells of a table.
 */
export function noteAt(
  state: BenchState,
  place: string,
  typed: string,
  faulty: string | null,
): FieldNote | null {
  const problem = state.read.problems.find((one) => one.place === place);
  if (problem !== undefined && problem.kind !== 'asked') {
    // What is missing is told as still to read; only half a row that was left behind stands out.
    return problem.kind === 'missing' && !isLeftBehind(state, place)
      ? null
      : { text: PROBLEM_WORDS[problem.kind](typed) };
  }
  return faulty === place ? { text: '' } : null;
}

/** True in a row of a reading table after which others have been typed. */
function isLeftBehind({ draft }: Pick<BenchState, 'draft'>, place: string): boolean {
  const [, strip, specimen, curve, row] = /^stretch\.(\w+)\[(\d+)\]\.(\w+)\[(\d+)\]/.exec(place) ?? [];
  const name = STRIPS.find((one) => one === strip);
  const table = CURVES.find((one) => one === curve);
  if (name === undefined || table === undefined) return false;
  const rows = draft.stretch.strips[name][Number(specimen)]?.[table] ?? [];
  return Number(row) < rows.length - 1;
}

export function useFieldNote(place: string, typed: string): FieldNote | null {
  const state = useBench((bench) => bench);
  return noteAt(state, place, typed, faultyField(state));
}
