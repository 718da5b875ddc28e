import { useEffect, useRef, type ReactElement } from 'react';
import { IMPORT_STEP_WORDS } from '../../../core/words/import-step-words.ts';
import { useImport, useTable } from '../../table.ts';
import { Key } from '../Key.tsx';

/** What is being brought in, and the ways out. */
export function ImportTop(): ReactElement {
  const { importDeeds } = useTable();
  const name = useImport(({ file }) => file?.name ?? '');
  const opened = useImport((state) => state.opened);
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const triangleCount = opened?.parts.reduce((sum, part) => sum + part.triangleCount, 0) ?? 0;
  return (
    <header className="top-bar import-top">
      <div className="import-name">
        <h1 ref={heading} tabIndex={-1}>
          {IMPORT_STEP_WORDS.title}
        </h1>
        <p className="soft">
          <span className="import-file" title={name}>
            {name}
          </span>
          {opened !== null && (
            <span className="figures">{IMPORT_STEP_WORDS.summary(opened.parts.length, triangleCount)}</span>
          )}
        </p>
      </div>
      <div className="deeds">
        <button className="word" type="button" onClick={() => void importDeeds.pick()}>
          <span>{IMPORT_STEP_WORDS.other}</span>
          <Key name="O" />
        </button>
        <button className="word" type="button" onClick={importDeeds.leave}>
          <span>{IMPORT_STEP_WORDS.leave}</span>
          <Key name="Esc" />
        </button>
      </div>
    </header>
  );
}
