import type { ReactElement } from 'react';
import { IMPORT_STEP_WORDS } from '../../../core/words/import-step-words.ts';
import { FleshChoice } from './FleshChoice.tsx';
import { GarmentChoice } from './GarmentChoice.tsx';
import { MendChoices } from './MendChoices.tsx';
import { Question } from './Question.tsx';
import { SizeQuestion } from './SizeQuestion.tsx';
import { SkinQuestion } from './SkinQuestion.tsx';
import { StanceQuestion } from './StanceQuestion.tsx';

/** What has to be known before the mesh is a body, each with a first answer. */
export function ImportQuestions(): ReactElement {
  return (
    <section className="leaf import-leaf asks" aria-label={IMPORT_STEP_WORDS.asks}>
      <SizeQuestion />
      <StanceQuestion />
      <SkinQuestion />
      <Question title={IMPORT_STEP_WORDS.ready}>
        <MendChoices />
        <FleshChoice />
        <GarmentChoice />
      </Question>
    </section>
  );
}
