import type { ReactElement } from 'react';
import { STEP_LINES, STEP_ORDER, STEP_WORDS, type BenchStep } from '../../../core/words/bench-place-words.ts';
import { useBench, useTable } from '../../table.ts';
import { stepOutcome } from './step-outcome.ts';

/** The steps in the order of work, and beside each what has come of it. */
export function BenchSteps(): ReactElement {
  const { benchActions } = useTable();
  const step = useBench((bench) => bench.step);
  return (
    <nav className="bench-steps" aria-label="Steps">
      {STEP_ORDER.map((name) => (
        <StepWord key={name} name={name} isOpen={name === step} choose={benchActions.chooseStep} />
      ))}
    </nav>
  );
}

interface StepWordProps {
  readonly name: BenchStep;
  readonly isOpen: boolean;
  readonly choose: (step: BenchStep) => void;
}

function StepWord({ name, isOpen, choose }: StepWordProps): ReactElement {
  const state = useBench((bench) => bench);
  const { text, isWrong } = stepOutcome(state, name);
  return (
    <button
      type="button"
      className="step-word"
      aria-current={isOpen ? 'step' : undefined}
      title={STEP_LINES[name]}
      onClick={() => choose(name)}
    >
      <strong>{STEP_WORDS[name]}</strong>
      <span className={isWrong ? 'wrong' : ''}>{text}</span>
    </button>
  );
}
