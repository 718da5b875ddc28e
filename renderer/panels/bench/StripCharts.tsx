import { useMemo, useState, type ReactElement } from 'react';
import { stripTable } from '../../../core/sheet/strip-chart-table.ts';
import type { StripUnit } from '../../../core/sheet/strip-chart-trace.ts';
import type { StripChartSheet } from '../../../core/sheet/strip-chart.ts';
import { CHART_NOTES, CHART_WORDS } from '../../../core/words/chart-words.ts';
import { ChartNumbers } from './ChartNumbers.tsx';
import { ChartShapes } from './ChartShapes.tsx';
import { chartDrawing } from './chart-drawing.ts';
import { markRows, type MarkPlace } from './chart-marks.ts';
import { chartPicture } from './chart-picture.ts';
import { StripChart } from './StripChart.tsx';
import { useBoxSize } from './use-box-size.ts';

export interface StripChartsProps {
  /** From `stripCharts(fabrics, unit)`; keep it while fabrics and unit are the same. */
  readonly charts: StripChartSheet;
  /** The other unit was asked for; without it no choice is shown. */
  readonly onUnit?: (unit: StripUnit) => void;
  /** A picture of the charts, PNG. */
  readonly onSavePicture: (png: Uint8Array) => void;
  /** Every reading and the fitted lines, CSV. */
  readonly onSaveText: (csv: string) => void;
}

const UNITS: readonly StripUnit[] = ['N/50 mm', 'N/m'];
const FIRST_SIZE = { width: 1130, height: 340 };

interface Pointed {
  readonly panel: number;
  readonly mark: MarkPlace;
}

/** Curves of one or two fabrics: warp, weft and bias side by side on one scale, widths beneath, numbers under them. */
export function StripCharts({ charts, onUnit, onSavePicture, onSaveText }: StripChartsProps): ReactElement {
  const [room, size] = useBoxSize(FIRST_SIZE);
  const [pointed, setPointed] = useState<Pointed | null>(null);
  const [explains, setExplains] = useState(false);
  const drawing = useMemo(() => chartDrawing(charts, size), [charts, size]);
  const rows = useMemo(() => drawing.panels.map((panel) => markRows(charts, panel)), [charts, drawing]);
  const mark = pointed && rows[pointed.panel]?.[pointed.mark.row]?.[pointed.mark.mark];
  return (
    <section className="bench-chart" aria-label={CHART_WORDS.title}>
      <div className="chart-room-box" ref={room}>
        <svg width={size.width} height={size.height} viewBox={`0 0 ${size.width} ${size.height}`}>
          <ChartShapes shapes={drawing.shapes} />
          {drawing.panels.map((panel, index) => (
            <StripChart
              key={panel.direction}
              panel={panel}
              rows={rows[index]!}
              pointed={pointed?.panel === index ? pointed.mark : null}
              onPoint={(next) => setPointed(next && { panel: index, mark: next })}
            />
          ))}
        </svg>
      </div>
      <div className="chart-line">
        <p className={mark ? 'figures' : 'soft'} aria-hidden="true">
          {mark?.says() ?? CHART_WORDS.idle}
        </p>
        <div className="chart-deeds">
          <button
            type="button"
            className="plain chart-explain"
            aria-expanded={explains}
            onClick={() => setExplains(!explains)}
          >
            {CHART_WORDS.explain}
          </button>
          {onUnit !== undefined && <UnitChoice unit={charts.unit} onUnit={onUnit} />}
          <button
            type="button"
            className="plain"
            onClick={() => void chartPicture(charts).then(onSavePicture)}
          >
            {CHART_WORDS.savePicture}
          </button>
          <button type="button" className="plain" onClick={() => onSaveText(stripTable(charts.fabrics))}>
            {CHART_WORDS.saveText}
          </button>
        </div>
      </div>
      <div className="chart-foot">
        <ChartNumbers charts={charts} panels={drawing.panels} width={size.width} />
        <div className={explains ? 'chart-notes open' : 'chart-notes soft'}>
          {CHART_NOTES.map((note) => (
            <p key={note}>{note}</p>
          ))}
        </div>
      </div>
    </section>
  );
}

interface UnitChoiceProps {
  readonly unit: StripUnit;
  readonly onUnit: (unit: StripUnit) => void;
}

const UnitChoice = ({ unit, onUnit }: UnitChoiceProps): ReactElement => (
  <span className="chart-units" role="group" aria-label={CHART_WORDS.forcesIn}>
    {UNITS.map((each) => (
      <button
        key={each}
        type="button"
        className="word"
        aria-pressed={each === unit}
        onClick={() => onUnit(each)}
      >
        {each}
      </button>
    ))}
  </span>
);
