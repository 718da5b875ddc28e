import type { ReactElement } from 'react';
import { IMPORT_STEP_WORDS } from '../../../core/words/import-step-words.ts';
import { sayImportGuess } from '../../../core/words/import-words.ts';
import { tippedForward, tippedSideways, turnedQuarter } from '../../store/axis-turns.ts';
import { useImport, useTable } from '../../table.ts';
import { Question } from './Question.tsx';

/** What is up and what is front; the preview shows it, and one click turns it. */
export function StanceQuestion(): ReactElement | null {
  const { importDeeds } = useTable();
  const guess = useImport(({ opened }) => opened?.guess ?? null);
  const choices = useImport((state) => state.choices);
  if (guess === null || choices === null) return null;
  const { up, front } = choices;
  const isGuess = up === guess.up.value && front === guess.front.value;
  const said = sayImportGuess(guess);
  return (
    <Question title={IMPORT_STEP_WORDS.stand} asks={['up', 'front']}>
      <div className="turns">
        <button className="turn" type="button" onClick={() => importDeeds.stand(turnedQuarter)}>
          {IMPORT_STEP_WORDS.quarter}
        </button>
        <button className="turn" type="button" onClick={() => importDeeds.stand(tippedForward)}>
          {IMPORT_STEP_WORDS.tipForward}
        </button>
        <button className="turn" type="button" onClick={() => importDeeds.stand(tippedSideways)}>
          {IMPORT_STEP_WORDS.tipSideways}
        </button>
      </div>
      <p className="soft">{isGuess ? `${said.up} ${said.front}` : IMPORT_STEP_WORDS.axes(up, front)}</p>
    </Question>
  );
}
