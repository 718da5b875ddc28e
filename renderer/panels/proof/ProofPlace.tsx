import { useEffect, useRef, type ReactElement } from 'react';
import { PROOF_PLACE_WORDS } from '../../../core/words/proof-page-words.ts';
import { PROOF_WORDS, proofTitle } from '../../../core/words/proof-words.ts';
import { isWhole, subjectRead, type ProofState } from '../../store/proof-store.ts';
import { useProof, useTable } from '../../table.ts';
import { Key } from '../Key.tsx';
import { ProofGroupTable } from './ProofGroupTable.tsx';
import { ProofSubjects } from './ProofSubjects.tsx';

/** The page of outside checks: what the numbers are held against, and how far apart they are. */
export function ProofPlace(): ReactElement {
  const state = useProof((proof) => proof);
  const { proofDeeds } = useTable();
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const read = subjectRead(state);
  const group = state.table.subjects.find(({ subject }) => subject === read);
  return (
    <div className="proof-place">
      <header className="top-bar proof-top">
        <h1 ref={heading} tabIndex={-1}>
          {PROOF_WORDS.title}
        </h1>
        <ProofDeedWords state={state} />
      </header>
      <ProofSubjects state={state} read={read} choose={proofDeeds.choose} />
      <main className="proof-page" aria-label={read === null ? PROOF_PLACE_WORDS.prove : proofTitle(read)}>
        {group === undefined ? <NothingYet read={read} /> : <ProofGroupTable key={read} group={group} />}
      </main>
      <ProofFoot state={state} />
    </div>
  );
}

const NothingYet = ({ read }: { readonly read: string | null }): ReactElement => (
  <div className="proof-nothing">
    {read !== null && <h2>{proofTitle(read)}</h2>}
    <p>{PROOF_PLACE_WORDS.lead}</p>
  </div>
);

function ProofDeedWords({ state }: { readonly state: ProofState }): ReactElement {
  const { proofDeeds, saveProof } = useTable();
  const hasRows = state.table.subjects.length > 0;
  return (
    <div className="deeds">
      {state.checking === null ? (
        <button className="word" type="button" onClick={proofDeeds.run}>
          {PROOF_PLACE_WORDS.run}
        </button>
      ) : (
        <button className="word" type="button" onClick={proofDeeds.stop}>
          <span>{PROOF_PLACE_WORDS.stop}</span>
          <Key name="Esc" />
        </button>
      )}
      <button className="word" type="button" disabled={!hasRows} onClick={() => void saveProof('picture')}>
        <span>{PROOF_PLACE_WORDS.picture}</span>
        <Key name="P" />
      </button>
      <button className="word" type="button" disabled={!hasRows} onClick={() => void saveProof('numbers')}>
        {PROOF_PLACE_WORDS.numbers}
      </button>
      <button className="word" type="button" onClick={proofDeeds.close}>
        <span>{PROOF_PLACE_WORDS.close}</span>
        {state.checking === null && <Key name="Esc" />}
      </button>
    </div>
  );
}

/** How far the run is, and what came of it. */
function ProofFoot({ state }: { readonly state: ProofState }): ReactElement {
  const { subjects, table, checking } = state;
  const done = table.subjects.length;
  const tally = `${PROOF_WORDS.tally(table)}${isWhole(state) || subjects.length === 0 ? '' : `, ${PROOF_PLACE_WORDS.some(done, subjects.length)}`}`;
  return (
    <footer className="proof-foot">
      <p className={table.failed > 0 ? 'wrong' : ''} role="status" aria-label="Progress">
        <strong>{tally}</strong>
        {checking !== null && (
          <span className="soft">
            {checking === ''
              ? PROOF_PLACE_WORDS.beginning
              : PROOF_PLACE_WORDS.progress(proofTitle(checking), done, subjects.length)}
          </span>
        )}
      </p>
      {checking !== null && subjects.length > 0 && (
        <span className="progress-line">
          <span style={{ transform: `scaleX(${done / subjects.length})` }} />
        </span>
      )}
    </footer>
  );
}
