import { forceAt } from '../../core/fabric/hysteresis.ts';
import { loopTension } from '../../core/fabric/loop-test.ts';
import { encodingOfTable } from '../../core/io/table-encoding.ts';
import { readTensileTable } from '../../core/io/read-tensile-table.ts';
import type { TableCurve, TableWish, TensileTable } from '../../core/io/tensile-table.ts';
import { fixed } from '../../core/sheet/number-format.ts';
import { metresFromMm } from '../../core/units/units.ts';
import { sayTableQuestion } from '../../core/words/table-words.ts';
import { answeringOption } from './bench-options.ts';
import { findingLines, findingsAsJson } from './say-findings.ts';
import { textTable } from './text-table.ts';

const percents = [20, 40, 60, 80] as const;

/** Whether a file is a tester's table, by its ending. */
export const isTableFile = (file: string): boolean => /\.(csv|tsv|txt)$/i.test(file);

/** Reads the table of a tensile tester from the bytes of its file. */
export const tableFromBytes = (bytes: Uint8Array, wish: TableWish): TensileTable =>
  readTensileTable(new TextDecoder(encodingOfTable(bytes)).decode(bytes), wish);

/** What the file leaves open, for a person; empty where the curves are there. */
export function questionLines({ questions }: TensileTable): readonly string[] {
  if (questions.length === 0) return [];
  return [
    ...questions.map((question) => {
      const { what, remedy } = sayTableQuestion(question);
      return `${what} ${remedy} Answer: ${answeringOption(question)}`;
    }),
    'Or write the answer into the file: a unit in brackets behind a column’s name, or a line above the table such as "Gauge length;100 mm".',
  ];
}

/** Force on the whole width at an extension, N; null beyond the last reading. A loop's is of both legs. */
function forceOf({ points }: TableCurve, percent: number): number | null {
  const last = points.at(-1)?.[0] ?? 0;
  if (percent > Math.max(last, points[0]?.[0] ?? 0)) return null;
  const rising = points
    .map(([extension, force]) => ({ extension, force }))
    .sort((a, b) => a.extension - b.extension);
  return forceAt(rising, percent);
}

/** Force per original width, N/m; null where force or width is not known. */
function tensionOf(curve: TableCurve, test: TensileTable['test'], percent: number): number | null {
  const force = forceOf(curve, percent);
  if (force === null || curve.stripWidthMm === null) return null;
  const width = metresFromMm(curve.stripWidthMm);
  return test === 'loop' ? loopTension(force, width) : force / width;
}

/** What `bench --json` prints of a table. */
export function tableAsJson(table: TensileTable) {
  return {
    test: table.test,
    separator: table.separator,
    decimalMark: table.decimalMark,
    rowCount: table.rowCount,
    columns: table.columns,
    defaultCycle: table.defaultCycle,
    curves: table.curves.map((curve) => ({
      direction: curve.direction,
      specimen: curve.specimen,
      specimenName: curve.specimenName,
      cycle: curve.cycle,
      branch: curve.branch,
      stripWidthMm: curve.stripWidthMm,
      pointCount: curve.points.length,
      widthCount: curve.widths.length,
      toPercent: curve.points.reduce((most, [extension]) => Math.max(most, extension), 0),
      forceNAtPercent: atPercents((percent) => forceOf(curve, percent)),
      tensionNPerMAtPercent: atPercents((percent) => tensionOf(curve, table.test, percent)),
    })),
    findings: findingsAsJson(table.findings),
  };
}

const atPercents = (read: (percent: number) => number | null): Record<string, number | null> =>
  Object.fromEntries(percents.map((percent) => [String(percent), read(percent)]));

/** The curves of a table, one line each. */
export function tableAsText(table: TensileTable): string {
  const rows = table.curves.map((curve) => [
    curve.direction ?? 'direction not said',
    curve.specimenName ?? String(curve.specimen),
    String(curve.cycle),
    curve.branch,
    String(curve.points.length),
    `${fixed(
      curve.points.reduce((most, [extension]) => Math.max(most, extension), 0),
      1,
    )} %`,
    ...percents.map((percent) => {
      const force = forceOf(curve, percent);
      return force === null ? '–' : fixed(force, 2);
    }),
    curve.stripWidthMm === null ? 'not said' : fixed(curve.stripWidthMm, 1),
  ]);
  const heading = [
    'strip',
    'specimen',
    'cycle',
    'branch',
    'readings',
    'to',
    ...percents.map((percent) => `N at ${percent} %`),
    'width, mm',
  ];
  const curveCount = table.curves.length === 1 ? 'One curve' : `${table.curves.length} curves`;
  const test = table.test === 'loop' ? 'loop test, forces of both legs' : 'strip test';
  const findings = findingLines(table.findings);
  return [
    `${curveCount} in ${table.rowCount} rows, ${test}, decimal ${table.decimalMark}`,
    '',
    textTable([heading, ...rows], 2),
    ...(findings === '' ? [] : ['', findings]),
  ].join('\n');
}
