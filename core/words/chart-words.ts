import type { Direction } from '../fabric/fabric.ts';
import { fixed, signed } from '../sheet/number-format.ts';
import type { ChartedFabric } from '../sheet/strip-chart.ts';
import type { ChartReading, LossSheet, ModulusMark, StripUnit } from '../sheet/strip-chart-trace.ts';

const NARROW_SPACE = '\u00a0';

/** The curves of one direction. */
export type ChartedCurve = 'load' | 'back' | 'held' | 'width';

export const DIRECTION_HEADINGS: Readonly<Record<Direction, string>> = {
  warp: 'Warp',
  weft: 'Weft',
  bias: 'Bias, 45°',
};

/** What was done to the strip. */
export const CURVE_WORDS: Readonly<Record<ChartedCurve, string>> = {
  load: 'pulled out',
  back: 'let back',
  held: 'width held',
  width: 'width',
};

/** Standing words of the charts. */
export const CHART_WORDS = {
  title: 'Strip curves',
  extension: 'extension, %',
  width: 'width ratio',
  invented: 'invented',
  inventedLong: 'readings invented for demonstration',
  /** Where nothing is pointed at. */
  idle: 'Point at a reading, or step through the readings with the arrow keys.',
  assumed: 'not read: a usual width',
  widthNotRead: 'not read: as the fitted fabric has it',
  noReturn: 'no way back read',
  savePicture: 'Save picture',
  saveText: 'Save numbers',
  loses: 'loses',
  forcesIn: 'Forces in',
  explain: 'What the numbers mean',
  curve: 'Curve',
} as const;

/** What the legend says of each line and mark. */
export const CHART_LEGEND = {
  read: 'read',
  mean: 'read, mean ± sd',
  specimen: 'each strip',
  fitted: 'fitted, pulled out',
  back: 'fitted, let back',
  held: 'width held',
  beyond: 'beyond the readings',
  modulus: 'modulus',
  loop: 'work kept by the strip',
  assumed: 'width assumed',
} as const;

/** Heads of the table of numbers. */
export const NUMBER_HEADS = {
  modulus: (unit: StripUnit): string => `${unit} at`,
  rms: 'rms miss',
  worst: 'worst miss',
  percent: '%',
} as const;

/** What stands under the numbers: the meaning of each. */
export const CHART_NOTES: readonly string[] = [
  'Fitted: a strip of the fitted fabric, pulled in the computer. Where it meets the readings, the fabric on the form pulls as the strip on the bench did.',
  'Force at a stated extension, per stated width of strip, is what the trade calls modulus. In brackets: beyond the last reading.',
  'Misses: fitted minus read; rms is their root mean square. Forces in % of the largest force read, width in % of the start width.',
  'By energy: the work that the strip does not give back, out and back as read. By force: how much less it pulls on the way back at one extension. The two are different numbers.',
];

/** `Tern 210 (invented), lot T-0417, 3 strips each way`. */
export function chartedFabricText({ name, lot, invented, strips }: ChartedFabric, longest = 48): string {
  const short = name.length > longest ? `${name.slice(0, longest - 1)}…` : name;
  const shown = invented && !/\binvented\b/i.test(short) ? `${short} (${CHART_WORDS.invented})` : short;
  const repeats = Math.max(...Object.values(strips).map(({ load }) => load.specimens.length));
  return [
    shown,
    ...(lot === '' ? [] : [`lot ${lot}`]),
    ...(repeats > 1 ? [`${repeats} strips each way`] : []),
  ].join(', ');
}

/** `30 %`. */
export const percentText = (percent: number, decimals = 0): string =>
  `${fixed(percent, decimals)}${NARROW_SPACE}%`;

/** Extensions as people say them: whole where they are whole. */
export const extensionText = (percent: number): string =>
  percentText(percent, Math.abs(percent - Math.round(percent)) < 0.05 ? 0 : 1);

/** `N` of `N/50 mm` where the strip's width goes without saying. */
export const forceName = (unit: StripUnit): string => (unit === 'N/m' ? 'N/m' : 'N');

/** Where a point of a chart stands. */
export interface PointPlace {
  readonly direction: Direction;
  /** Null where there is only one fabric. */
  readonly letter: string | null;
  readonly curve: ChartedCurve;
}

/** `Warp, A let back, 30 %: read 4.45 N, sd 0.08 of 3, the law gives 4.44`. */
export function readingWords(place: PointPlace, reading: ChartReading, unit: StripUnit): string {
  const isWidth = place.curve === 'width';
  const decimals = isWidth ? 3 : forceDecimals(unit);
  const name = isWidth ? '' : `${NARROW_SPACE}${forceName(unit)}`;
  const spread =
    reading.deviation === null ? '' : `, sd ${fixed(reading.deviation, decimals)} of ${reading.count}`;
  return `${placeWords(place)}, ${extensionText(reading.extension)}: read ${fixed(reading.value, decimals)}${name}${spread}, the law gives ${fixed(reading.fitted, decimals)}.`;
}

/** The same where nothing was read. */
export function modulusWords(place: PointPlace, mark: ModulusMark, unit: StripUnit): string {
  const given = `${fixed(mark.load, forceDecimals(unit))}${NARROW_SPACE}${forceName(unit)}`;
  const how = mark.beyondReadings ? ', beyond the last reading: a guess' : '';
  return `${placeWords(place)}, ${extensionText(mark.extension)}: not read, the law gives ${given}${how}.`;
}

const placeWords = ({ direction, letter, curve }: PointPlace): string =>
  `${DIRECTION_HEADINGS[direction]}, ${letter === null ? '' : `${letter} `}${CURVE_WORDS[curve]}`;

export const forceDecimals = (unit: StripUnit): number => (unit === 'N/m' ? 1 : 2);

/** `loses 22.1 % by energy, 25.3 % by force at 40 %`. */
export function lossWords(loss: LossSheet | null): string {
  if (loss === null) return '–';
  const byEnergy = `${percentText(loss.byEnergy, 1)} by energy from ${extensionText(loss.peak)}`;
  return loss.byForceAt40 === null
    ? byEnergy
    : `${byEnergy}, ${percentText(loss.byForceAt40, 1)} by force at 40${NARROW_SPACE}%`;
}

/** A miss with its sign: which way the law errs. */
export const missText = (miss: number, decimals: number): string => signed(miss, decimals);

/** How a screen reader is told of a chart. */
export const chartName = (direction: Direction): string =>
  `${DIRECTION_HEADINGS[direction]} strip: readings, by arrow keys`;
