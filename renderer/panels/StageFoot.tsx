import type { ReactElement } from 'react';
import { CAUTION_SHORT } from '../../core/words/judgement-words.ts';
import { residualText, restWords } from '../../core/words/stage-words.ts';
import { fixed } from '../../core/sheet/number-format.ts';
import { wornAt, type ShownStudy } from '../store/study-store.ts';
import { useView } from '../table.ts';

/** What the numbers rest on, and the caution that is always in sight. */
export function StageFoot({ shown }: { readonly shown: ShownStudy | null }): ReactElement {
  return (
    <footer className="foot">
      {shown !== null && <RestLine shown={shown} />}
      <p className="caution">{CAUTION_SHORT}</p>
    </footer>
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
