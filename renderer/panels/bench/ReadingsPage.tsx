import type { ReactElement } from 'react';
import { STEP_LINES, STEP_WORDS, type BenchStep } from '../../../core/words/bench-place-words.ts';
import { useBench } from '../../table.ts';
import { BendStep } from './BendStep.tsx';
import { BenchSteps } from './BenchSteps.tsx';
import { ComesOut } from './ComesOut.tsx';
import { FabricLabel } from './FabricLabel.tsx';
import { StretchStep } from './StretchStep.tsx';
import { ThicknessStep } from './ThicknessStep.tsx';
import { WeighStep } from './WeighStep.tsx';

const STEPS: Readonly<Record<BenchStep, () => ReactElement>> = {
  weigh: WeighStep,
  thickness: ThicknessStep,
  stretch: StretchStep,
  bend: BendStep,
};

/** Steps, label, form, and what comes out, side by side on one sheet of paper. */
export function ReadingsPage(): ReactElement {
  const step = useBench((bench) => bench.step);
  const Step = STEPS[step];
  return (
    <div className="readings-page">
      <BenchSteps />
      <FabricLabel />
      <section className={`bench-form ${step}`} aria-label={STEP_WORDS[step]}>
        <h2 className={step === 'stretch' ? 'hidden' : ''}>{STEP_WORDS[step]}</h2>
        {step !== 'stretch' && <p className="soft step-line">{STEP_LINES[step]}</p>}
        <Step />
      </section>
      <ComesOut />
    </div>
  );
}
