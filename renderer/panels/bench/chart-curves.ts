import type { ChartAxis } from '../../../core/sheet/strip-chart-axes.ts';
import type { ChartPoint, CurveTrace, StripTrace } from '../../../core/sheet/strip-chart-trace.ts';
import type { StripChartSheet } from '../../../core/sheet/strip-chart.ts';
import type { ChartPanel } from './chart-layout.ts';
import { thinned, type DotForm, type Ink, type Place, type Shape } from './chart-shapes.ts';

/** How the first and the second fabric are told apart: line before tone, no colour. */
export interface FabricPen {
  readonly ink: Ink;
  readonly dash?: readonly number[];
  readonly form: DotForm;
  readonly heldForm: DotForm;
  readonly fill: 'tint' | 'hatch';
}

export const FABRIC_PENS: readonly FabricPen[] = [
  { ink: 'ink', form: 'dot', heldForm: 'square', fill: 'tint' },
  { ink: 'soft', dash: [7, 4], form: 'ring', heldForm: 'frame', fill: 'hatch' },
];

export const penOf = (fabric: number): FabricPen => FABRIC_PENS[fabric % FABRIC_PENS.length]!;

/** Line widths and radii, px: the way back is thinner, its marks smaller. */
export const WEIGHTS = { load: 1.9, back: 1.1, held: 1.4, width: 1.4, specimen: 0.8, whisker: 1 } as const;
export const RADII = { load: 2.9, back: 2.1, held: 2.6, width: 2.3 } as const;
export const DASH = { beyond: [1.5, 3.5], assumed: [9, 3, 1.5, 3], stem: [1, 3] } as const;
export const SPECIMEN_OPACITY = 0.38;

/** Marks closer than this run into each other, px; every reading is in the table and under the arrow keys. */
const MARK_GAP = 11;
const LINE_GAP = 0.8;

type Placer = (point: ChartPoint) => Place;

/** The loops of every fabric first, so that lines and marks lie on top. */
export function curveShapes(
  sheet: StripChartSheet,
  panel: ChartPanel,
  traces: readonly StripTrace[],
): Shape[] {
  const { extensionScale, forceScale, widthScale } = panel;
  const force: Placer = ([extension, value]) => [extensionScale.place(extension), forceScale.place(value)];
  const width: Placer = ([extension, value]) => [extensionScale.place(extension), widthScale.place(value)];
  const loops = traces.flatMap(({ loop }, fabric) => loopShape(loop.map(force), penOf(fabric)));
  const stems = stemShapes(sheet, panel, traces);
  const curves = traces.flatMap((trace, fabric) => {
    const pen = penOf(fabric);
    const { load, back, held } = trace;
    return [
      ...(back === null ? [] : traceShapes(back, force, { pen, curve: 'back' })),
      ...(held === null ? [] : traceShapes(held, force, { pen, curve: 'held' })),
      ...beyondShape(load, sheet, force, pen),
      ...traceShapes(load, force, { pen, curve: 'load' }),
      ...traceShapes(trace.width, width, { pen, curve: 'width', assumed: trace.width.assumed }),
    ];
  });
  return [...loops, ...stems, ...curves];
}

const loopShape = (outline: readonly Place[], { fill }: FabricPen): Shape[] =>
  outline.length < 3 ? [] : [{ kind: 'area', outline: thinned(outline, (at) => at, LINE_GAP), fill }];

interface TraceLook {
  readonly pen: FabricPen;
  readonly curve: 'load' | 'back' | 'held' | 'width';
  readonly assumed?: boolean;
}

const isSound = ([extension, value]: ChartPoint): boolean =>
  Number.isFinite(extension) && Number.isFinite(value);

function traceShapes(trace: CurveTrace, place: Placer, { pen, curve, assumed }: TraceLook): Shape[] {
  const lineOf = (points: readonly ChartPoint[]): readonly Place[] =>
    thinned(points.filter(isSound).map(place), (at) => at, LINE_GAP);
  const readings = thinned(
    trace.readings.filter(({ extension, value }) => isSound([extension, value])),
    ({ extension, value }) => place([extension, value]),
    MARK_GAP,
  );
  const whiskers = readings.flatMap(({ extension, value, deviation }) =>
    deviation === null || deviation === 0
      ? []
      : whiskerAt(place([extension, value - deviation]), place([extension, value + deviation])),
  );
  const form = curve === 'held' ? pen.heldForm : pen.form;
  const dash = assumed === true ? DASH.assumed : pen.dash;
  const shapes: Shape[] = [
    {
      kind: 'lines',
      lines: trace.specimens.map(lineOf),
      ink: pen.ink,
      width: WEIGHTS.specimen,
      opacity: SPECIMEN_OPACITY,
    },
    {
      kind: 'lines',
      lines: [lineOf(trace.fitted)],
      ink: pen.ink,
      width: WEIGHTS[curve],
      ...(dash && { dash }),
    },
    { kind: 'lines', lines: whiskers, ink: pen.ink, width: WEIGHTS.whisker },
    {
      kind: 'dots',
      at: readings.map(({ extension, value }) => place([extension, value])),
      radius: RADII[curve],
      form,
      ink: pen.ink,
    },
  ];
  return shapes.filter((shape) => !isEmpty(shape));
}

const isEmpty = (shape: Shape): boolean =>
  (shape.kind === 'lines' && shape.lines.every((line) => line.length < 2)) ||
  (shape.kind === 'dots' && shape.at.length === 0);

/** Mean less and mean plus one standard deviation, with short bars at both ends. */
const whiskerAt = (low: Place, high: Place): readonly (readonly Place[])[] => [
  [low, high],
  ...[low, high].map(([x, y]): readonly Place[] => [
    [x - 2.5, y],
    [x + 2.5, y],
  ]),
];

function beyondShape(
  { beyond }: CurveTrace,
  { extension, force }: StripChartSheet,
  place: Placer,
  { ink }: FabricPen,
): Shape[] {
  const inside = cutAt(beyond, extension, force);
  if (inside.length < 2) return [];
  return [{ kind: 'lines', lines: [inside.map(place)], ink, width: WEIGHTS.load, dash: DASH.beyond }];
}

/** The run of points up to where they leave the axes, the last one on the border. */
export function cutAt(
  points: readonly ChartPoint[],
  extension: ChartAxis,
  force: ChartAxis,
): readonly ChartPoint[] {
  const inside: ChartPoint[] = [];
  for (const point of points) {
    const before = inside.at(-1);
    const over = Math.max(
      shareOver(before?.[0], point[0], extension),
      shareOver(before?.[1], point[1], force),
    );
    if (over === 0) {
      inside.push(point);
      continue;
    }
    if (before !== undefined) {
      const share = 1 - over;
      inside.push([before[0] + share * (point[0] - before[0]), before[1] + share * (point[1] - before[1])]);
    }
    break;
  }
  return inside;
}

/** Share of the step from `before` to `after` that lies above the axis; 0 inside. */
function shareOver(before: number | undefined, after: number, axis: ChartAxis): number {
  if (after <= axis.high + 1e-9) return 0;
  return before === undefined ? 1 : Math.min(1, (after - axis.high) / (after - before));
}

/** A stem up to the stated extensions' forces, with a bar at each fabric's: the trade's modulus. */
function stemShapes(sheet: StripChartSheet, panel: ChartPanel, traces: readonly StripTrace[]): Shape[] {
  const foot = panel.forceScale.place(sheet.force.low);
  const isShown = (extension: number, load: number): boolean =>
    extension <= sheet.extension.high + 1e-9 && load <= sheet.force.high + 1e-9 && Number.isFinite(load);
  const heads = traces.flatMap(({ modulus }, fabric) =>
    modulus
      .filter(({ extension, load }) => isShown(extension, load))
      .map(({ extension, load }) => ({
        fabric,
        x: panel.extensionScale.place(extension),
        y: panel.forceScale.place(load),
      })),
  );
  const stems = heads.map(({ x, y }): readonly Place[] => [
    [x, foot],
    [x, y],
  ]);
  const bars = traces.map((_, fabric): Shape => ({
    kind: 'lines',
    lines: heads
      .filter((head) => head.fabric === fabric)
      .map(({ x, y }): readonly Place[] => [
        [x - 6.5, y],
        [x + 6.5, y],
      ]),
    ink: penOf(fabric).ink,
    width: 1,
  }));
  const all: Shape[] = [{ kind: 'lines', lines: stems, ink: 'soft', width: 1, dash: DASH.stem }, ...bars];
  return all.filter((shape) => !isEmpty(shape));
}
