import type { ReactElement } from 'react';
import { VIEW_KEYS, VIEW_ORDER, VIEW_WORDS } from '../../../core/words/stage-words.ts';
import { useTable } from '../../table.ts';
import { Key } from '../Key.tsx';

/** The standard views of the preview, in words under it. */
export function ImportViewWords(): ReactElement {
  const { importViewActions } = useTable();
  return (
    <nav className="view-words import-views" aria-label="Views">
      {VIEW_ORDER.map((view) => (
        <button key={view} className="word" type="button" onClick={() => importViewActions.look(view)}>
          <span>{VIEW_WORDS[view]}</span>
          <Key name={VIEW_KEYS[view]} />
        </button>
      ))}
    </nav>
  );
}
