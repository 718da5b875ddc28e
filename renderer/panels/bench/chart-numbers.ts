import { fixed } from '../../../core/sheet/number-format.ts';
import type { CurveTrace, Misses, ModulusMark, StripTrace } from '../../../core/sheet/strip-chart-trace.ts';
import type { StripChartSheet } from '../../../core/sheet/strip-chart.ts';
import {
  CHART_WORDS,
  CURVE_WORDS,
  extensionText,
  forceName,
  lossWords,
  missText,
  NUMBER_HEADS,
} from '../../../core/words/chart-words.ts';

/** A row of numbers: eight a direction, or one sentence a direction. */
export interface NumberRow {
  /** `A pulled out`. */
  readonly name: string;
  /** First of its fabric. */
  readonly isFirst: boolean;
  readonly cells: readonly (readonly string[])[];
}

/** The table under the charts, as text. */
export interface NumberTable {
  /** Over 4, 2 and 2 columns. */
  readonly groups: readonly { readonly text: string; readonly span: number }[];
  readonly heads: readonly string[];
  readonly rows: readonly NumberRow[];
}

/** Shares of a panel that the columns take. */
export const NUMBER_COLUMNS = [0.1, 0.125, 0.128, 0.14, 0.135, 0.105, 0.148, 0.119] as const;

/** The columns from here on say how well the law fits: quieter than what the fabric does. */
export const FIRST_MISS = 4;

const EMPTY = '–';

/** Force at the stated extensions, what the law misses, and the losses: every number beside the charts. */
export function numberTable(sheet: StripChartSheet): NumberTable {
  const stated = statedExtensions(sheet);
  const name = forceName(sheet.unit);
  return {
    groups: [
      { text: NUMBER_HEADS.modulus(sheet.unit), span: 4 },
      { text: NUMBER_HEADS.rms, span: 2 },
      { text: NUMBER_HEADS.worst, span: 2 },
    ],
    heads: [...stated.map(extensionText), name, NUMBER_HEADS.percent, name, NUMBER_HEADS.percent],
    rows: sheet.fabrics.flatMap((_, fabric) => fabricRows(sheet, fabric, stated)),
  };
}

const STATED_COUNT = 4;

/** 20, 40, 60 and 80 %, as the evidence has them. */
const statedExtensions = ({ charts }: StripChartSheet): readonly number[] => {
  const longest = charts
    .flatMap(({ traces }) => traces.map(({ modulus }) => modulus))
    .reduce((most, modulus) => (modulus.length > most.length ? modulus : most), []);
  return longest.slice(0, STATED_COUNT).map(({ extension }) => extension);
};

function fabricRows(sheet: StripChartSheet, fabric: number, stated: readonly number[]): NumberRow[] {
  const traces = sheet.charts.map((chart) => chart.traces[fabric]!);
  const letter = sheet.fabrics.length > 1 ? `${sheet.fabrics[fabric]!.letter} ` : '';
  const row = (name: string, cellsOf: (trace: StripTrace) => readonly string[]): NumberRow => ({
    name: `${letter}${name}`,
    isFirst: false,
    cells: traces.map(cellsOf),
  });
  const forces =
    (valueOf: (mark: ModulusMark) => number | null, curveOf: (trace: StripTrace) => CurveTrace | null) =>
    (trace: StripTrace): readonly string[] => [
      ...stated.map((at) => modulusText(trace, at, valueOf, sheet.decimals.force)),
      ...missCells(curveOf(trace)?.misses ?? null, sheet.decimals.miss),
    ];
  const rows = [
    row(
      CURVE_WORDS.load,
      forces(
        ({ load }) => load,
        ({ load }) => load,
      ),
    ),
  ];
  if (traces.some(({ back }) => back !== null)) {
    rows.push(
      row(
        CURVE_WORDS.back,
        forces(
          ({ back }) => back,
          ({ back }) => back,
        ),
      ),
    );
  }
  if (traces.some(({ held }) => held !== null)) {
    rows.push(
      row(CURVE_WORDS.held, (trace) => [
        ...stated.map((at) => fittedText(trace.held, at, sheet.decimals.force)),
        ...missCells(trace.held?.misses ?? null, sheet.decimals.miss),
      ]),
    );
  }
  rows.push(
    row(CURVE_WORDS.width, ({ width }) => [
      ...stated.map((at) => fittedText(width, at, 2)),
      ...missCells(width.misses, 3),
    ]),
  );
  if (traces.some(({ loss }) => loss !== null)) {
    rows.push(row(CHART_WORDS.loses, ({ loss }) => [lossWords(loss)]));
  }
  return rows.map((each, index) => ({ ...each, isFirst: index === 0 }));
}

/** In brackets beyond the last reading. */
function modulusText(
  { modulus }: StripTrace,
  at: number,
  valueOf: (mark: ModulusMark) => number | null,
  decimals: number,
): string {
  const mark = modulus.find(({ extension }) => Math.abs(extension - at) < 1e-6);
  const value = mark === undefined ? null : valueOf(mark);
  if (mark === undefined || value === null) return EMPTY;
  const text = fixed(value, decimals);
  return mark.beyondReadings ? `(${text})` : text;
}

/** Off the fitted line, by straight line between its points; nothing beyond it. */
function fittedText(curve: CurveTrace | null, at: number, decimals: number): string {
  const points = curve?.fitted ?? [];
  const after = points.findIndex(([extension]) => extension >= at - 1e-6);
  if (after < 0) return EMPTY;
  const [x1, y1] = points[after]!;
  const [x0, y0] = points[Math.max(0, after - 1)]!;
  const share = x1 === x0 ? 1 : (at - x0) / (x1 - x0);
  return fixed(y0 + share * (y1 - y0), decimals);
}

const missCells = (misses: Misses | null, decimals: number): readonly string[] =>
  misses === null
    ? [EMPTY, EMPTY, EMPTY, EMPTY]
    : [
        fixed(misses.rms, decimals),
        fixed(misses.rmsPercent, 2),
        missText(misses.worst, decimals),
        missText(misses.worstPercent, 2),
      ];
