import type { StripTrace } from '../../../core/sheet/strip-chart-trace.ts';
import type { StripChartSheet } from '../../../core/sheet/strip-chart.ts';
import { cutAt, penOf } from './chart-curves.ts';
import { writing } from './chart-frame.ts';
import type { ChartPanel } from './chart-layout.ts';
import type { Shape } from './chart-shapes.ts';

/** Two letters nearer than this run into each other, px. */
const APART = 13;

/** The fabrics' letters at the ends of their curves; none where there is one fabric only. */
export function endLetters(
  { fabrics, extension, force }: StripChartSheet,
  panel: ChartPanel,
  traces: readonly StripTrace[],
): readonly Shape[] {
  if (fabrics.length < 2) return [];
  const ends = traces.flatMap(({ load }, fabric) => {
    const end = cutAt(load.beyond, extension, force).at(-1) ?? load.fitted.at(-1);
    if (end === undefined) return [];
    return [{ fabric, x: panel.extensionScale.place(end[0]), y: panel.forceScale.place(end[1]) }];
  });
  const rows = ends.toSorted((a, b) => a.y - b.y);
  let above = -Infinity;
  return rows.map(({ fabric, x, y }) => {
    const near = rows.some((other) => other.fabric !== fabric && Math.abs(other.x - x) < APART);
    const at = near ? Math.max(y, above + APART) : y;
    above = at;
    return writing(fabrics[fabric]!.letter, [x + 8, at + 4], { weight: 600, ink: penOf(fabric).ink });
  });
}
