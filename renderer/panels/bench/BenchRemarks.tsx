import type { ReactElement } from 'react';
import type { Finding } from '../../../core/fault/finding.ts';
import {
  BENCH_HINTS,
  moreRemarks,
  STEP_ORDER,
  STEP_WORDS,
  stillToReadWords,
  type BenchStep,
} from '../../../core/words/bench-place-words.ts';
import { sayFault, sayFinding } from '../../../core/words/say.ts';
import { EMPTY_DRAFT } from '../../store/bench-draft.ts';
import type { BenchState } from '../../store/bench-store.ts';
import { placeOfFault, placeOfFinding, type RemarkPlace } from '../../store/bench-places.ts';
import { useBench, useTable } from '../../table.ts';

/** Whether the remarks have the whole column to themselves, and the way there and back. */
export interface RemarkTurn {
  readonly isTurned: boolean;
  readonly turn: () => void;
}

/** What is still to be read, what the fit stumbled over, or what it leaves in doubt: of this step first. */
export function BenchRemarks({ turn }: { readonly turn: RemarkTurn }): ReactElement | null {
  const state = useBench((bench) => bench);
  const { outcome } = state.reading;
  switch (outcome.kind) {
    case 'unfinished':
      return <StillToRead state={state} />;
    case 'fault': {
      const { what, remedy } = sayFault(outcome.fault);
      const { step } = placeOfFault(outcome.fault, state.draft);
      return (
        <div className="bench-fault" role="alert">
          <strong>{what}</strong>
          <span>{remedy}</span>
          {step !== 'label' && step !== state.step && <GoTo step={step} />}
        </div>
      );
    }
    case 'fabric':
      return <Doubts state={state} findings={outcome.fabric.card.findings} turn={turn} />;
  }
}

function StillToRead({ state }: { readonly state: BenchState }): ReactElement | null {
  const missing = state.read.problems.filter(({ kind }) => kind === 'missing');
  const wrong = state.read.problems.filter(({ kind }) => kind !== 'missing' && kind !== 'asked');
  const here = missing.filter(({ step }) => step === state.step || step === 'label');
  const elsewhere = STEP_ORDER.filter(
    (step) => step !== state.step && [...missing, ...wrong].some((problem) => problem.step === step),
  );
  return (
    <div className="bench-remarks">
      {state.draft === EMPTY_DRAFT && <p>{BENCH_HINTS.empty}</p>}
      {wrong.some(({ step }) => step === state.step || step === 'label') && (
        <p>Some fields cannot be read; they are marked.</p>
      )}
      {here.length > 0 && <p>{stillToReadWords(here.map(({ place }) => place))}</p>}
      {elsewhere.length > 0 && (
        <p className="soft">
          Then{' '}
          {elsewhere.map((step) => (
            <GoTo key={step} step={step} />
          ))}
        </p>
      )}
    </div>
  );
}

interface DoubtsProps {
  readonly state: BenchState;
  readonly findings: readonly Finding[];
  readonly turn: RemarkTurn;
}

/** Remarks of the strip in hand stand here; a click away are those of the other strips and steps. */
function Doubts({ state, findings, turn }: DoubtsProps): ReactElement {
  const placed = findings.map((finding) => ({
    sentence: sayFinding(finding),
    place: placeOfFinding(finding, state.draft),
  }));
  const ofStep = placed.filter(({ place }) => place.step === state.step);
  const here = [
    ...new Set(
      ofStep
        .toSorted((a, b) => Number(isOfOther(a.place, state)) - Number(isOfOther(b.place, state)))
        .map(({ sentence }) => sentence),
    ),
  ];
  const shown = turn.isTurned ? here : here.slice(0, MOST_BESIDE_CURVE);
  const elsewhere = STEP_ORDER.filter(
    (step) => step !== state.step && placed.some(({ place }) => place.step === step),
  );
  return (
    <div className="bench-remarks">
      {shown.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {here.length === 0 && <p className="soft">Nothing to remark here.</p>}
      {(turn.isTurned || here.length > shown.length) && (
        <p>
          <button type="button" className="plain" onClick={turn.turn}>
            {turn.isTurned ? BENCH_HINTS.turnBack : moreRemarks(here.length - shown.length)}
          </button>
        </p>
      )}
      {elsewhere.length > 0 && (
        <p className="soft">
          Remarks also at{' '}
          {elsewhere.map((step) => (
            <GoTo key={step} step={step} />
          ))}
        </p>
      )}
    </div>
  );
}

/** So many fit beside curve and pulls; the others stand on the back. */
const MOST_BESIDE_CURVE = 1;

const isOfOther = ({ strip }: RemarkPlace, state: BenchState): boolean =>
  strip !== null && strip !== state.strip;

function GoTo({ step }: { readonly step: BenchStep }): ReactElement {
  const { benchActions } = useTable();
  return (
    <button type="button" className="plain" onClick={() => benchActions.chooseStep(step)}>
      {STEP_WORDS[step]}
    </button>
  );
}
