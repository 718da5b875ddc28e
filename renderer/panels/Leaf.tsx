import { useState, type ReactElement, type ReactNode } from 'react';
import { LEAF_WORDS, type LeafName } from '../../core/words/stage-words.ts';
import { useTable } from '../table.ts';
import { BringBody } from './import/BringBody.tsx';

interface LeafProps {
  readonly name: LeafName;
  readonly children: ReactNode;
  /** The other side, and what is written on the corner that turns it. */
  readonly back?: { readonly label: string; readonly content: ReactNode };
}

/** One leaf of paper beside the form. What does not fit on its front stands on its back. */
export function Leaf({ name, children, back }: LeafProps): ReactElement {
  const { actions } = useTable();
  const [isTurned, setTurned] = useState(false);
  return (
    <section className="leaf" aria-label={LEAF_WORDS[name]}>
      <header className="leaf-head">
        <h2>{LEAF_WORDS[name]}</h2>
        <span className="leaf-deeds">
          {name === 'body' && <BringBody />}
          <button className="plain" type="button" onClick={actions.closeLeaf}>
            Close
          </button>
        </span>
      </header>
      <div className="leaf-body">{isTurned && back !== undefined ? back.content : children}</div>
      {back !== undefined && (
        <button className="leaf-corner plain" type="button" onClick={() => setTurned(!isTurned)}>
          {isTurned ? 'Turn back' : back.label}
        </button>
      )}
    </section>
  );
}
