import type { ReactElement } from 'react';
import { CAUTION_SHORT } from '../../core/words/judgement-words.ts';
import { residualText, restWords } from '../../core/words/stage-words.ts';
import { TRY_WORDS, tryProgress } from '../../core/words/try-words.ts';
import { fixed } from '../../core/sheet/number-format.ts';
import { wornAt, type ShownStudy } from '../store/study-store.ts';
import { useStudy, useTable, useView } from '../table.ts';
import { Key } from './Key.tsx';

/** What the numbers rest on, and the caution that is always in sight. */
export function StageFoot({ shown }: { readonly shown: ShownStudy | null }): ReactElement {
  const isTrying = useStudy(({ activity }) => activity.kind === 'trying');
  return (
    <footer className="foot">
      {shown !== null && (isTrying ? <TryLine shown={shown} /> : <RestLine shown={shown} />)}
      <p className="caution">{CAUTION_SHORT}</p>
    </footer>
  );
}

/** The study settles again: how far, and the way to leave it as it is. */
function TryLine({ shown }: { readonly shown: ShownStudy }): ReactElement | null {
  const { runner } = useTable();
  const activity = useStudy((state) => state.activity);
  if (activity.kind !== 'trying') return null;
  return (
    <p className="rest-line trying" role="status" aria-label="Progress">
      {tryProgress(activity.progress, shown.sheet.fabrics)}
      <button className="word" type="button" onClick={runner.stop}>
        <span>{TRY_WORDS.stop}</span>
        <Key name="Esc" />
      </button>
    </p>
  );
}

function RestLine({ shown }: { readonly shown: ShownStudy }): ReactElement {
  const index = useView((view) => view.fabric);
  const { atRest, residual } = wornAt(shown.settled, index);
  return (
    <p className="rest-line">
      {restWords(atRest)} ({residualText(residual)} unbalanced) · friction {shown.sheet.friction} ·{' '}
      {shown.sheet.branch} curve · {fixed(shown.seconds, 1)} s
    </p>
  );
}
