import { fixed } from '../../../core/sheet/number-format.ts';
import type { BenchStep } from '../../../core/words/bench-place-words.ts';
import { DIRECTIONS, isBlankRow } from '../../store/bench-draft.ts';
import type { BenchState } from '../../store/bench-store.ts';
import { placeOfFault } from '../../store/bench-places.ts';

/** What has come of one step, in a few words. */
export interface StepOutcome {
  readonly text: string;
  readonly isWrong: boolean;
}

type Shown = Pick<BenchState, 'draft' | 'read' | 'reading'>;

export function stepOutcome(state: Shown, step: BenchStep): StepOutcome {
  const problems = state.read.problems.filter((problem) => problem.step === step && problem.kind !== 'asked');
  const { outcome } = state.reading;
  const isRefused = outcome.kind === 'fault' && placeOfFault(outcome.fault, state.draft).step === step;
  const wrong = problems.filter(({ kind }) => kind !== 'missing').length + (isRefused ? 1 : 0);
  if (wrong > 0) return { text: 'look again', isWrong: true };
  return { text: problems.length > 0 ? 'to be read' : doneText(state, step), isWrong: false };
}

function doneText({ draft, reading }: Shown, step: BenchStep): string {
  const { arealDensity, thickness, bendingRigidity } = reading.numbers;
  switch (step) {
    case 'weigh':
      return arealDensity === null ? 'read' : `${fixed(1000 * arealDensity, 0)}\u00a0g/m²`;
    case 'thickness':
      return thickness === null ? 'read' : `${fixed(1000 * thickness, 2)}\u00a0mm`;
    case 'stretch': {
      const counts = DIRECTIONS.map((direction) =>
        draft.stretch.strips[direction].reduce(
          (sum, { load }) => sum + load.filter((row) => !isBlankRow(row)).length,
          0,
        ),
      );
      return `${counts.join(' · ')} readings`;
    }
    case 'bend':
      return bendingRigidity === null
        ? 'read'
        : `${DIRECTIONS.map((direction) => fixed(1e6 * bendingRigidity[direction], 1)).join(' · ')}\u00a0µN·m`;
  }
}
