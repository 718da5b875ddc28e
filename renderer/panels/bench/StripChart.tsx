import type { KeyboardEvent, PointerEvent, ReactElement } from 'react';
import { chartName } from '../../../core/words/chart-words.ts';
import type { ChartPanel } from './chart-layout.ts';
import { nearestMark, stepMark, type MarkPlace, type MarkRow } from './chart-marks.ts';

/** How far from a mark one may point, px. */
const REACH = 60;

export interface StripChartProps {
  readonly panel: ChartPanel;
  readonly rows: readonly MarkRow[];
  /** The mark that is read out; null where none is. */
  readonly pointed: MarkPlace | null;
  readonly onPoint: (mark: MarkPlace | null) => void;
}

/** One direction's panel as something to point at and to step through: arrow keys go from reading to reading. */
export function StripChart({ panel, rows, pointed, onPoint }: StripChartProps): ReactElement {
  const { force, width } = panel;
  const mark = pointed === null ? undefined : rows[pointed.row]?.[pointed.mark];
  const all = rows.flat();
  const point = (event: PointerEvent<SVGGElement>): void => {
    const corner = event.currentTarget.ownerSVGElement?.getBoundingClientRect();
    if (corner === undefined) return;
    onPoint(nearestMark(rows, [event.clientX - corner.left, event.clientY - corner.top], REACH));
  };
  const step = (event: KeyboardEvent<SVGGElement>): void => {
    const next =
      pointed === null ? stepMark(rows, FIRST, event.key) && FIRST : stepMark(rows, pointed, event.key);
    if (next === null) return;
    // The arrows turn the form elsewhere in the window.
    event.preventDefault();
    event.stopPropagation();
    onPoint(next);
  };
  return (
    <g
      className="chart-panel"
      role="slider"
      tabIndex={0}
      aria-label={chartName(panel.direction)}
      aria-valuemin={Math.min(0, ...all.map(({ extension }) => extension))}
      aria-valuemax={Math.max(0, ...all.map(({ extension }) => extension))}
      aria-valuenow={mark?.extension ?? all[0]?.extension ?? 0}
      aria-valuetext={(mark ?? all[0])?.says() ?? ''}
      onPointerMove={point}
      onPointerLeave={() => onPoint(null)}
      onKeyDown={step}
      onFocus={() => pointed === null && rows.length > 0 && onPoint(FIRST)}
      onBlur={() => onPoint(null)}
    >
      <rect
        className="chart-room"
        x={force.x - 6}
        y={force.y - 22}
        width={force.width + 12}
        height={width.y + width.height - force.y + 26}
        rx={3}
      />
      {mark !== undefined && (
        <>
          <line
            className="pointed-line stroke-soft"
            x1={mark.at[0]}
            x2={mark.at[0]}
            y1={force.y}
            y2={width.y + width.height}
          />
          <circle className="pointed-mark" r={6.5} cx={mark.at[0]} cy={mark.at[1]} />
        </>
      )}
    </g>
  );
}

const FIRST: MarkPlace = { row: 0, mark: 0 };
