import type { ReactElement } from 'react';
import { IMPORT_STEP_WORDS } from '../../../core/words/import-step-words.ts';
import { DROP_WORDS } from '../../../core/words/stage-words.ts';
import { useImport, useTable } from '../../table.ts';

/** A file that is no body: what is wrong with it, where, and what to do. */
export function ImportRefused(): ReactElement | null {
  const { importDeeds } = useTable();
  const fault = useImport((state) => state.fault);
  const name = useImport(({ file }) => file?.name);
  if (fault === null) return null;
  return (
    <div className="import-refused" role="alert">
      <p className="soft">{name}</p>
      <p>
        <strong>{fault.what}</strong>
      </p>
      <p>{fault.remedy}</p>
      <p className="soft">{DROP_WORDS.nothingLost}</p>
      <div className="deeds">
        <button className="word" type="button" onClick={() => void importDeeds.pick()}>
          {IMPORT_STEP_WORDS.other}
        </button>
        <button className="word" type="button" onClick={importDeeds.leave}>
          {IMPORT_STEP_WORDS.leave}
        </button>
      </div>
    </div>
  );
}
