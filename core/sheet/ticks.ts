/** Marks on a tape: the numbered ones and the fine ones between, in the unit that is printed. */
export interface Ticks {
  /** Distance between numbered marks: 1, 2 or 5 times a power of ten. */
  readonly step: number;
  /** Multiples of `step` inside the range, rising. */
  readonly numbered: readonly number[];
  /** Multiples of the fine step inside the range that are not numbered, rising. */
  readonly fine: readonly number[];
  /** Decimals that write every numbered mark exactly. */
  readonly decimals: number;
}

/** Marks that fall on a range's end but for rounding are kept: this share of a step. */
const END_SLACK = 1e-6;

/** The round step, 1, 2 or 5 times a power of ten, that divides `span` into at most `atMost` parts. */
export function roundStep(span: number, atMost: number): number {
  const rough = span / atMost;
  const power = 10 ** Math.floor(Math.log10(rough));
  const multiple = [1, 2, 5, 10].find((candidate) => candidate * power >= rough * (1 - END_SLACK))!;
  return multiple * power;
}

/**
 * Round marks inside a range, at least two numbered ones wherever the range is wider than nothing.
 *
 * @param low - Lower end in the printed unit.
 * @param high - Upper end; above `low`.
 * @param atMost - Most parts between numbered marks.
 */
export function ticksBetween(low: number, high: number, atMost: number): Ticks {
  const step = roundStep(high - low, atMost);
  const fineStep = step / finePartsOf(step);
  const numbered = multiplesBetween(low, high, step);
  const fine = multiplesBetween(low, high, fineStep).filter(
    (mark) => Math.abs(mark / step - Math.round(mark / step)) > END_SLACK,
  );
  return { step, numbered, fine, decimals: decimalsOf(step) };
}

/** Twos are halved twice, ones and fives cut in five, as on a ruler. */
function finePartsOf(step: number): number {
  const leading = step / 10 ** Math.floor(Math.log10(step) + END_SLACK);
  return Math.round(leading) === 2 ? 4 : 5;
}

function decimalsOf(step: number): number {
  return Math.max(0, -Math.floor(Math.log10(step) + END_SLACK));
}

function multiplesBetween(low: number, high: number, step: number): readonly number[] {
  const first = Math.ceil(low / step - END_SLACK);
  const last = Math.floor(high / step + END_SLACK);
  const marks: number[] = [];
  for (let multiple = first; multiple <= last; multiple++) {
    marks.push(multiple === 0 ? 0 : Number((multiple * step).toPrecision(12)));
  }
  return marks;
}
