import type { ReactElement, ReactNode } from 'react';
import { IMPORT_STEP_WORDS } from '../../../core/words/import-step-words.ts';
import { useImport } from '../../table.ts';
import { ImportDone } from './ImportDone.tsx';
import { ImportQuestions } from './ImportQuestions.tsx';
import { ImportRefused } from './ImportRefused.tsx';
import { ImportTop } from './ImportTop.tsx';
import { ImportViewWords } from './ImportViewWords.tsx';
import { ImportWork } from './ImportWork.tsx';

interface ImportPlaceProps {
  /** The preview, drawn by the scene's side. */
  readonly preview: ReactNode;
}

/** The step that brings a body in: the preview in the middle, what is asked on the left, what was done on the right. */
export function ImportPlace({ preview }: ImportPlaceProps): ReactElement {
  const isOpened = useImport(({ opened }) => opened !== null);
  const isRefused = useImport(({ fault, opened }) => fault !== null && opened === null);
  return (
    <div className={`import-place ${isOpened ? '' : 'bare'}`}>
      <main className="import-stage" aria-label={IMPORT_STEP_WORDS.preview}>
        {preview}
        {isRefused && <ImportRefused />}
      </main>
      <ImportTop />
      {isOpened && (
        <>
          <ImportQuestions />
          <ImportDone />
          <ImportViewWords />
        </>
      )}
      <ImportWork />
    </div>
  );
}
