import type { BodyTape } from '../body/body-tape.ts';
import type { Landmarks } from '../body/landmarks.ts';
import { chartDifferences, type SizeChart } from '../body/size-chart.ts';
import { mmFromMetres } from '../units/units.ts';
import { fixed, signed } from './number-format.ts';

/** One row of the table of girths: the body, and a size chart beside it. Numbers as they are printed. */
export interface TapeRow {
  readonly name: string;
  readonly side: 'left' | 'middle' | 'right';
  /** Above the floor, mm. */
  readonly heightMm: string;
  /** mm. */
  readonly girthMm: string;
  /** mm; empty without a chart, or where it has no number. */
  readonly chartMm: string;
  /** Body minus chart with its sign, mm; empty likewise. */
  readonly differenceMm: string;
  /** How its level is known; `own` for the wearer's own line. */
  readonly how: 'recipe' | 'found' | 'placed' | 'own';
}

/** One row of the table of heights. */
export interface HeightRow {
  readonly name: string;
  readonly heightMm: string;
  readonly chartMm: string;
  readonly differenceMm: string;
}

/** A size of a chart, to stand beside a body. */
export interface ChosenSize {
  readonly chart: SizeChart;
  readonly size: string;
}

/** The girths of a body as a table, in the order of its readings. */
export function tapeRows(tape: BodyTape, chosen: ChosenSize | null): readonly TapeRow[] {
  const differences = chosen === null ? [] : chartDifferences(tape, chosen.chart, chosen.size);
  const rowNamed = (name: string): string =>
    chosen === null || chosen.chart.rows.some(({ measure }) => measure === name)
      ? name
      : (OTHER[name] ?? name);
  return tape.readings.map(({ line, girth, height }) => {
    const beside = differences.find(
      ({ measure, side }) => measure === rowNamed(line.name) && side === line.side,
    );
    return {
      name: line.name,
      side: line.side,
      heightMm: fixed(mmFromMetres(height), 0),
      girthMm: fixed(mmFromMetres(girth), 1),
      ...besideText(beside),
      how: howKnown(line.name, line.side, tape.landmarks),
    };
  });
}

/** A chart that has only a chest is held beside a bust, and the other way round. */
const OTHER: Readonly<Record<string, string>> = { bust: 'chest', chest: 'bust' };

/** The heights of a body as a table, highest first. */
export function heightRows(tape: BodyTape, chosen: ChosenSize | null): readonly HeightRow[] {
  const differences = chosen === null ? [] : chartDifferences(tape, chosen.chart, chosen.size);
  return tape.heights.map(({ name, height }) => {
    const measure = name === 'crotch' ? 'crotchHeight' : name === 'stature' ? 'stature' : null;
    return {
      name,
      heightMm: fixed(mmFromMetres(height), 0),
      ...besideText(differences.find((difference) => difference.measure === measure)),
    };
  });
}

const besideText = (
  beside: { readonly chart: number | null; readonly differenceMm: number | null } | undefined,
) => ({
  chartMm: beside === undefined || beside.chart === null ? '' : fixed(mmFromMetres(beside.chart), 1),
  differenceMm: beside === undefined || beside.differenceMm === null ? '' : signed(beside.differenceMm, 1),
});

function howKnown(name: string, side: TapeRow['side'], landmarks: Landmarks): TapeRow['how'] {
  const end = side === 'middle' ? 'Front' : side === 'left' ? 'Left' : 'Right';
  const known: Readonly<Partial<Record<string, { readonly how: TapeRow['how'] }>>> = landmarks;
  return known[`${name}${end}`]?.how ?? 'own';
}
