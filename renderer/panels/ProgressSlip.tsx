import type { ReactElement } from 'react';
import { progressWords } from '../../core/words/stage-words.ts';
import type { Activity } from '../store/study-store.ts';
import { useStudy, useTable } from '../table.ts';
import { Key } from './Key.tsx';

/** Residuals from 1 down to this fill the line: the tolerance of a settled garment. */
const REST = 1e-4;

/** A run under way: what it does, how far the forces are from balance, and the way to stop it. A try is told in the foot. */
export function ProgressSlip(): ReactElement | null {
  const { runner } = useTable();
  const activity = useStudy((state) => state.activity);
  if (activity.kind === 'idle' || activity.kind === 'trying') return null;
  const { doing, detail } = wordsOf(activity);
  return (
    <div className="slip progress" role="status" aria-label="Progress">
      <div className="slip-words">
        <strong>{doing}</strong>
        <span className="figures">{detail}</span>
      </div>
      <button className="word" type="button" onClick={runner.stop}>
        <span>Stop</span>
        <Key name="Esc" />
      </button>
      <span className="progress-line">
        <span style={{ transform: `scaleX(${shareOf(activity)})` }} />
      </span>
    </div>
  );
}

function wordsOf(activity: Extract<Activity, { kind: 'reading' | 'settling' }>): {
  doing: string;
  detail: string;
} {
  if (activity.kind === 'reading') return { doing: `Reading ${activity.name}`, detail: '' };
  const { progress, sheet } = activity;
  const id = progress.step === 'settle' ? progress.fabricId : '';
  return progressWords(progress, sheet.fabrics.find((fabric) => fabric.id === id)?.name ?? '');
}

/** How far: fabrics done, meshes done, and how many powers of ten this one's residual has come down. */
function shareOf(activity: Activity): number {
  if (activity.kind !== 'settling' || activity.progress.step !== 'settle') return 0.02;
  const { fabricId, settle } = activity.progress;
  const { fabrics } = activity.sheet;
  const fabric = Math.max(
    0,
    fabrics.findIndex(({ id }) => id === fabricId),
  );
  const fallen = Math.min(1, Math.max(0, Math.log10(settle.residual) / Math.log10(REST)));
  const within = (settle.level + (Number.isFinite(fallen) ? fallen : 0)) / settle.levelCount;
  return 0.02 + (0.98 * (fabric + within)) / fabrics.length;
}
