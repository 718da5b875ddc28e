import type { KeyboardEvent, ReactElement } from 'react';
import { PROOF_PLACE_WORDS } from '../../../core/words/proof-page-words.ts';
import { PROOF_WORDS, proofTitle } from '../../../core/words/proof-words.ts';
import type { ProofState } from '../../store/proof-store.ts';

interface ProofSubjectsProps {
  readonly state: ProofState;
  readonly read: string | null;
  readonly choose: (subject: string) => void;
}

/** Every subject with what came of it; the arrows walk through them. */
export function ProofSubjects({ state, read, choose }: ProofSubjectsProps): ReactElement {
  return (
    <nav className="proof-subjects" aria-label={PROOF_PLACE_WORDS.subjects} onKeyDown={walk}>
      {state.subjects.map((subject) => (
        <button
          key={subject}
          type="button"
          title={proofTitle(subject)}
          className="proof-subject"
          aria-current={subject === read}
          onClick={() => choose(subject)}
          onFocus={(event) => {
            if (event.target.matches(':focus-visible')) choose(subject);
          }}
        >
          <span>{proofTitle(subject)}</span>
          <Outcome state={state} subject={subject} />
        </button>
      ))}
    </nav>
  );
}

function Outcome({ state, subject }: { readonly state: ProofState; readonly subject: string }): ReactElement {
  const group = state.table.subjects.find((one) => one.subject === subject);
  if (group === undefined) return <span className="proof-outcome">{waitsFor(state, subject)}</span>;
  const { failed, rows } = group;
  return (
    <span className={`proof-outcome ${failed > 0 ? 'wrong' : ''}`}>
      {failed > 0 ? `${failed} ${PROOF_WORDS.fail}` : rows.length}
    </span>
  );
}

function waitsFor({ checking }: ProofState, subject: string): string {
  if (checking === null) return PROOF_PLACE_WORDS.notChecked;
  return checking === subject ? PROOF_PLACE_WORDS.checking : PROOF_PLACE_WORDS.waits;
}

/** To the next or the last subject with the arrows. */
function walk(event: KeyboardEvent<HTMLElement>): void {
  const way = { ArrowDown: 'nextElementSibling', ArrowUp: 'previousElementSibling' } as const;
  if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return;
  const next = document.activeElement?.[way[event.key]];
  if (!(next instanceof HTMLElement)) return;
  event.preventDefault();
  next.focus();
}
