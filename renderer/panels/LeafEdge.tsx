import type { ReactElement } from 'react';
import { LEAF_ORDER, LEAF_WORDS } from '../../core/words/stage-words.ts';
import { Key } from './Key.tsx';
import { useStudy, useTable, useView } from '../table.ts';

/** The order of work down the left edge. */
export function LeafEdge(): ReactElement {
  const { actions, benchActions } = useTable();
  const hasStudy = useStudy(({ shown }) => shown !== null);
  const open = useView((view) => view.leaf);
  return (
    <nav className="leaf-edge" aria-label="Leaves">
      {LEAF_ORDER.map((leaf) => (
        <button
          key={leaf}
          type="button"
          className="leaf-tab"
          disabled={!hasStudy}
          aria-expanded={hasStudy && open === leaf}
          onClick={() => actions.toggleLeaf(leaf)}
        >
          {LEAF_WORDS[leaf]}
        </button>
      ))}
      <button type="button" className="leaf-tab to-bench" onClick={benchActions.open}>
        Bench
      </button>
      <Key name="N" />
    </nav>
  );
}
