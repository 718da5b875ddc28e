import type { ReactElement } from 'react';
import { IMPORT_STEP_WORDS } from '../../../core/words/import-step-words.ts';
import { useTable } from '../../table.ts';
import { Key } from '../Key.tsx';

/** The way from the body's leaf to a body of one's own. */
export function BringBody(): ReactElement {
  const { bringBody } = useTable();
  return (
    <button className="plain bring-body" type="button" onClick={bringBody}>
      {IMPORT_STEP_WORDS.entry} <Key name="I" />
    </button>
  );
}
