import type { ReactElement, ReactNode } from 'react';
import { IMPORT_STEP_WORDS, type ImportQuestion } from '../../../core/words/import-step-words.ts';
import { DOUBTFUL_WORDS } from '../../../core/words/import-words.ts';
import { openQuestions } from '../../store/import-store.ts';
import { useImport, useTable } from '../../table.ts';

interface QuestionProps {
  readonly title: string;
  /** Those of the guesses that are shown here. */
  readonly asks?: readonly ImportQuestion[];
  readonly children: ReactNode;
}

/** One thing that is asked. Where the answer is a guess that nobody can be sure of, it says so until somebody has looked. */
export function Question({ title, asks = [], children }: QuestionProps): ReactElement {
  const { importDeeds } = useTable();
  // As one text, so that it is the same while it says the same.
  const open = useImport((state) =>
    openQuestions(state)
      .filter((question) => asks.includes(question))
      .join(' '),
  );
  return (
    <fieldset className={`ask ${open === '' ? '' : 'doubtful'}`}>
      <legend>{title}</legend>
      {children}
      {open !== '' && (
        <p className="ask-doubt">
          <span>{DOUBTFUL_WORDS}</span>
          <button
            className="word"
            type="button"
            onClick={() => {
              for (const question of asks) if (open.includes(question)) importDeeds.confirm(question);
            }}
          >
            {IMPORT_STEP_WORDS.right}
          </button>
        </p>
      )}
    </fieldset>
  );
}
