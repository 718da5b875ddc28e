import type { ReactElement } from 'react';
import { DROP_WORDS } from '../../core/words/stage-words.ts';
import { refusedNow } from '../store/study-store.ts';
import { useStudy, useTable, useView } from '../table.ts';

/** What went wrong, where, and what to do; or a quiet remark. The table underneath is as it was. */
export function NoticeSlip(): ReactElement | null {
  const { study } = useTable();
  const notice = useStudy((state) => state.notice);
  const hasStudy = useStudy((state) => state.shown !== null);
  const refused = useStudy(refusedNow);
  const isInLeaf = useView(({ leaf }) => leaf === 'garment') && refused?.wanted.block !== undefined;
  if (notice === null || (isInLeaf && notice === refused?.notice)) return null;
  const { what, remedy, file, tone } = notice;
  const putAway = (): void => study.setState({ notice: null });
  return (
    <div className={`slip ${tone}`} role={tone === 'fault' ? 'alert' : 'status'}>
      <div className="slip-words">
        {file !== null && <span className="slip-file">{file}</span>}
        <strong>{what}</strong>
        {remedy !== '' && <span>{remedy}</span>}
        {tone === 'fault' && hasStudy && <span className="soft">{DROP_WORDS.nothingLost}</span>}
      </div>
      <button className="word" type="button" onClick={putAway}>
        Put away
      </button>
    </div>
  );
}
