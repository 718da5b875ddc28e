/** One place on two bodies: its height on the one and on the other, mm. */
export type LevelPair = readonly [from: number, to: number];

/** A named height on a body, mm. */
interface NamedLevel {
  readonly name: string;
  readonly levelMm: number;
}

/** Places that both bodies have, the lowest first; those out of their order are left out. */
export function levelPairs(from: readonly NamedLevel[], to: readonly NamedLevel[]): readonly LevelPair[] {
  const pairs: LevelPair[] = [];
  for (const { name, levelMm } of from.toSorted((one, other) => one.levelMm - other.levelMm)) {
    const other = to.find((level) => level.name === name);
    const last = pairs.at(-1);
    if (other === undefined || (last && (levelMm <= last[0] || other.levelMm <= last[1]))) continue;
    pairs.push([levelMm, other.levelMm]);
  }
  return pairs;
}

/** A height of one body at the same place of the other: in proportion between two places, beyond them as far away. */
export function carriedLevel(heightMm: number, pairs: readonly LevelPair[]): number {
  const [first, last] = [pairs[0], pairs.at(-1)];
  if (first === undefined || last === undefined) return heightMm;
  if (heightMm <= first[0]) return heightMm + first[1] - first[0];
  if (heightMm >= last[0]) return heightMm + last[1] - last[0];
  const at = pairs.findIndex(([from]) => from >= heightMm);
  const [[low, lowTo], [high, highTo]] = [pairs[at - 1]!, pairs[at]!];
  return lowTo + ((heightMm - low) / (high - low)) * (highTo - lowTo);
}
