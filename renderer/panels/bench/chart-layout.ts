import type { Direction } from '../../../core/fabric/fabric.ts';
import { scaleAlong, type ChartScale } from '../../../core/sheet/strip-chart-axes.ts';
import type { StripChartSheet } from '../../../core/sheet/strip-chart.ts';
import type { Box } from './chart-shapes.ts';

/** Room for one direction: force above, width beneath, one extension for both. */
export interface ChartPanel {
  readonly direction: Direction;
  readonly force: Box;
  readonly width: Box;
  readonly extensionScale: ChartScale;
  readonly forceScale: ChartScale;
  readonly widthScale: ChartScale;
}

export interface ChartLayout {
  readonly width: number;
  readonly height: number;
  readonly panels: readonly ChartPanel[];
}

/** px. The gutter carries the numbers of the axes and, under the charts, the names of the table's rows. */
export const CHART_ROOM = {
  gutter: 96,
  between: 19,
  right: 17,
  /** Over a panel, for its name. */
  heading: 26,
  /** Under the force, for the numbers of the extension. */
  scale: 27,
  /** Under the width, for the last marks. */
  foot: 8,
} as const;

/** Share of a panel's height that the width takes. */
const WIDTH_SHARE = 0.2;
const LEAST = { panel: 80, force: 40, width: 24 } as const;

/**
 * Three panels side by side on one force axis and one extension axis each.
 *
 * @param top - Height that the legend takes above them, px.
 */
export function chartLayout(
  sheet: StripChartSheet,
  { width, height }: Pick<Box, 'width' | 'height'>,
  top: number,
): ChartLayout {
  const { gutter, between, right, heading, scale, foot } = CHART_ROOM;
  const count = sheet.charts.length;
  const panelWidth = Math.max(LEAST.panel, (width - gutter - right - between * (count - 1)) / count);
  const room = height - top - heading - scale - foot;
  const widthHeight = Math.max(LEAST.width, WIDTH_SHARE * room);
  const forceHeight = Math.max(LEAST.force, room - widthHeight);
  const panels = sheet.charts.map(({ direction }, index) => {
    const x = gutter + index * (panelWidth + between);
    const force = { x, y: top + heading, width: panelWidth, height: forceHeight };
    const beneath = { x, y: force.y + forceHeight + scale, width: panelWidth, height: widthHeight };
    return {
      direction,
      force,
      width: beneath,
      extensionScale: scaleAlong(sheet.extension, x, x + panelWidth),
      forceScale: scaleAlong(sheet.force, force.y + forceHeight, force.y),
      widthScale: scaleAlong(sheet.width, beneath.y + widthHeight, beneath.y),
    };
  });
  return { width, height, panels };
}
