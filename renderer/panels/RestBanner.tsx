import type { ReactElement } from 'react';
import { fabricLetter, notAtRestWords, residualText } from '../../core/words/stage-words.ts';
import { wornAt, type ShownStudy } from '../store/study-store.ts';
import { useView } from '../table.ts';

/** Across the stage wherever numbers are shown that did not come to rest. */
export function RestBanner({ shown }: { readonly shown: ShownStudy }): ReactElement | null {
  const fabric = useView((view) => view.fabric);
  const isDifference = useView((view) => view.showing === 'difference');
  const indices = isDifference ? [0, 1] : [fabric];
  const restless = indices.filter((index) => !wornAt(shown.settled, index).atRest);
  if (restless.length === 0) return null;
  return (
    <div className="rest-banner" role="alert">
      <strong>{notAtRestWords.title}</strong>
      <span>
        {notAtRestWords.line(
          restless.map(fabricLetter),
          restless.map((index) => residualText(wornAt(shown.settled, index).residual)),
        )}
      </span>
    </div>
  );
}
