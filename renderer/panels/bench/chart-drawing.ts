import type { StripChartSheet } from '../../../core/sheet/strip-chart.ts';
import { curveShapes } from './chart-curves.ts';
import { frameShapes, gutterShapes } from './chart-frame.ts';
import { chartLayout, type ChartLayout, type ChartPanel } from './chart-layout.ts';
import { legendDrawing } from './chart-legend.ts';
import type { Box, Shape } from './chart-shapes.ts';
import { endLetters } from './end-letters.ts';

/** The charts as shapes on a sheet, and where each panel lies. */
export interface ChartDrawing extends ChartLayout {
  readonly shapes: readonly Shape[];
}

/** Air between the legend and the panels, px. */
const UNDER_LEGEND = 6;

/** Legend, axes and curves of every direction: the one layout, for the window and for pictures. */
export function chartDrawing(sheet: StripChartSheet, size: Pick<Box, 'width' | 'height'>): ChartDrawing {
  const legend = legendDrawing(sheet, size.width);
  const layout = chartLayout(sheet, size, legend.height + UNDER_LEGEND);
  const panelShapes = (panel: ChartPanel, index: number): readonly Shape[] => {
    const { traces } = sheet.charts[index]!;
    return [
      ...(index === 0 ? gutterShapes(sheet, panel) : []),
      ...frameShapes(sheet, panel, traces),
      ...curveShapes(sheet, panel, traces),
      ...endLetters(sheet, panel, traces),
    ];
  };
  return { ...layout, shapes: [...legend.shapes, ...layout.panels.flatMap(panelShapes)] };
}
