/** Signs read off rows of numbers at even levels. */

/** A row of values, rising in level by even steps. */
export interface Profile {
  readonly levels: readonly number[];
  readonly values: readonly number[];
}

/** The values of each item, by its level. */
export const profileOf = <T extends { readonly level: number }>(
  items: readonly T[],
  valueOf: (item: T) => number,
): Profile => ({ levels: items.map(({ level }) => level), values: items.map(valueOf) });

/** The part of a profile between two levels. */
export function between({ levels, values }: Profile, low: number, high: number): Profile {
  const isIn = (_: number, i: number): boolean => levels[i]! >= low && levels[i]! <= high;
  return { levels: levels.filter(isIn), values: values.filter(isIn) };
}

/** Level of the largest value, between samples by the parabola through three; NaN for an empty profile. */
export function highestAt({ levels, values }: Profile): number {
  let best = 0;
  for (const [i, value] of values.entries()) if (value > values[best]!) best = i;
  return vertexAt({ levels, values }, best);
}

export const lowestAt = (profile: Profile): number => highestAt(negated(profile));

const negated = ({ levels, values }: Profile): Profile => ({
  levels,
  values: values.map((value) => -value),
});

/**
 * Indices of the places higher than everything within `reach` on both sides, lowest level first; a profile's ends are no
 * peaks.
 */
export function peaks({ levels, values }: Profile, reach: number): number[] {
  const step = (levels.at(-1)! - levels[0]!) / (levels.length - 1);
  const count = Math.max(1, Math.round(reach / step));
  const isPeak = (i: number): boolean => {
    if (i < 1 || i > values.length - 2) return false;
    const [from, to] = [Math.max(0, i - count), Math.min(values.length - 1, i + count)];
    for (let j = from; j <= to; j++) {
      if (j !== i && (j < i ? values[j]! >= values[i]! : values[j]! > values[i]!)) return false;
    }
    return true;
  };
  return values.map((_, i) => i).filter(isPeak);
}

/** As {@link peaks}, of the hollows. */
export const hollows = (profile: Profile, reach: number): number[] => peaks(negated(profile), reach);

/** Level of the parabola's vertex through a sample and its two neighbours. */
export function vertexAt({ levels, values }: Profile, i: number): number {
  const here = levels[i];
  if (here === undefined) return NaN;
  if (i === 0 || i === levels.length - 1) return here;
  const [below, at, above] = [values[i - 1]!, values[i]!, values[i + 1]!];
  const bend = below - 2 * at + above;
  if (bend === 0) return here;
  const shift = (0.5 * (below - above)) / bend;
  return here + Math.max(-0.5, Math.min(0.5, shift)) * (levels[i + 1]! - here);
}

/** Second differences over `reach` on both sides: below zero where the profile stands out. */
export function bends({ levels, values }: Profile, reach: number): Profile {
  const step = (levels.at(-1)! - levels[0]!) / (levels.length - 1);
  const count = Math.max(1, Math.round(reach / step));
  const inner = levels.map((_, i) => i).slice(count, levels.length - count);
  return {
    levels: inner.map((i) => levels[i]!),
    values: inner.map((i) => values[i - count]! - 2 * values[i]! + values[i + count]!),
  };
}

/** Slopes between samples two apart. */
export function slopes({ levels, values }: Profile): Profile {
  const inner = levels.map((_, i) => i).slice(1, levels.length - 1);
  return {
    levels: inner.map((i) => levels[i]!),
    values: inner.map((i) => (values[i + 1]! - values[i - 1]!) / (levels[i + 1]! - levels[i - 1]!)),
  };
}

/** The profile eased over three samples, `rounds` times. */
export function eased({ levels, values }: Profile, rounds: number): Profile {
  let here = [...values];
  for (let round = 0; round < rounds; round++) {
    here = here.map((value, i) =>
      i === 0 || i === here.length - 1 ? value : 0.25 * here[i - 1]! + 0.5 * value + 0.25 * here[i + 1]!,
    );
  }
  return { levels, values: here };
}

/** The middle one of several numbers; those that are no numbers are left out. */
export function median(values: readonly number[]): number {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort((one, other) => one - other);
  const middle = (sorted.length - 1) / 2;
  return (sorted[Math.floor(middle)]! + sorted[Math.ceil(middle)]!) / 2;
}
