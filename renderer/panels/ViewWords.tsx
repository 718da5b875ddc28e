import type { ReactElement } from 'react';
import { VIEW_KEYS, VIEW_ORDER, VIEW_WORDS } from '../../core/words/stage-words.ts';
import { useTable, useView } from '../table.ts';
import { Key } from './Key.tsx';

/** The standard views in words under the form. */
export function ViewWords(): ReactElement {
  const { actions } = useTable();
  const framing = useView((view) => view.wish.framing);
  return (
    <nav className="view-words" aria-label="Views">
      {VIEW_ORDER.map((view) => (
        <button key={view} className="word" type="button" onClick={() => actions.look(view)}>
          <span>{VIEW_WORDS[view]}</span>
          <Key name={VIEW_KEYS[view]} />
        </button>
      ))}
      <button className="word" type="button" onClick={actions.toggleFraming}>
        <span>{framing === 'garment' ? 'Whole form' : 'Garment'}</span>
        <Key name="Z" />
      </button>
    </nav>
  );
}
