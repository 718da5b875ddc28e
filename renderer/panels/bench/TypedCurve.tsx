import type { ReactElement } from 'react';
import { fixed } from '../../../core/sheet/number-format.ts';
import { ticksBetween } from '../../../core/sheet/ticks.ts';
import { typedCurveLabel } from '../../../core/words/bench-place-words.ts';
import { numberIn, type PairRow } from '../../store/bench-draft.ts';
import { useBench } from '../../table.ts';

const SIZE = { width: 316, height: 160 } as const;
const ROOM = { left: 36, right: 14, top: 10, bottom: 34 } as const;

type Point = readonly [extension: number, force: number];

/** The strip that is being typed, point by point as the numbers stand there: a slip of the finger leaps to the eye. */
export function TypedCurve(): ReactElement | null {
  const { strip, specimen, draft } = useBench((bench) => bench);
  const { strips, units } = draft.stretch;
  const all = strips[strip].map(({ load, return: back }) => ({ load: pointsOf(load), back: pointsOf(back) }));
  const points = all.flatMap(({ load, back }) => [...load, ...back]);
  if (points.length === 0) return null;
  const reach = axis(points.map(([extension]) => extension));
  const pull = axis(points.map(([, force]) => force));
  const x = (extension: number): number =>
    ROOM.left + (extension / reach.most) * (SIZE.width - ROOM.left - ROOM.right);
  const y = (force: number): number =>
    SIZE.height - ROOM.bottom - (force / pull.most) * (SIZE.height - ROOM.top - ROOM.bottom);
  const line = (list: readonly Point[]): string =>
    list
      .toSorted((a, b) => a[0] - b[0])
      .map(([extension, force]) => `${x(extension).toFixed(1)},${y(force).toFixed(1)}`)
      .join(' ');
  return (
    <svg
      className="typed-curve"
      viewBox={`0 0 ${SIZE.width} ${SIZE.height}`}
      role="img"
      aria-label={typedCurveLabel(strip, all.length)}
    >
      {pull.ticks.map((tick) => (
        <g key={tick}>
          <line className="rule" x1={ROOM.left} x2={SIZE.width - ROOM.right} y1={y(tick)} y2={y(tick)} />
          <text x={ROOM.left - 6} y={y(tick) + 4} textAnchor="end">
            {fixed(tick, pull.decimals)}
          </text>
        </g>
      ))}
      {reach.ticks.map((tick) => (
        <text key={tick} x={x(tick)} y={SIZE.height - ROOM.bottom + 15} textAnchor="middle">
          {fixed(tick, reach.decimals)}
        </text>
      ))}
      <text x={SIZE.width - ROOM.right} y={SIZE.height - 3} textAnchor="end">
        extension, {units.extension}; force, {units.force}
      </text>
      {all.map(({ load, back }, index) => (
        <g key={index} className={index === specimen ? 'open' : 'other'}>
          <polyline points={line(load)} />
          <polyline className="back" points={line(back)} />
          {index === specimen &&
            [...load, ...back].map(([extension, force], at) => (
              <circle key={at} cx={x(extension)} cy={y(force)} r={load.length + back.length > 60 ? 1 : 2.2} />
            ))}
        </g>
      ))}
    </svg>
  );
}

function pointsOf(rows: readonly PairRow[]): Point[] {
  return rows.flatMap(([first, second]) => {
    const [extension, force] = [numberIn(first), numberIn(second)];
    return extension === null || force === null || extension < 0 ? [] : [[extension, force] as const];
  });
}

/** From nothing to the largest value, with a few round marks. */
function axis(values: readonly number[]): { most: number; ticks: readonly number[]; decimals: number } {
  const largest = values.reduce((most, value) => Math.max(most, value), 0);
  const most = largest > 0 ? largest : 1;
  const { numbered, decimals } = ticksBetween(0, most, 4);
  return { most, ticks: numbered, decimals };
}
