/** Numbers 0 to count - 1 in groups that grow together. */
export interface JoinedGroups {
  /** The lowest number of the group that a number is in. */
  readonly leadOf: (number: number) => number;
  readonly join: (one: number, other: number) => void;
}

/**
 * Groups of one number each, to be joined.
 *
 * @see Tarjan & van Leeuwen, Worst-case analysis of set union algorithms, J. ACM 31 (1984) 245 (path halving).
 */
export function joinedGroups(count: number): JoinedGroups {
  const lead = Uint32Array.from({ length: count }, (_, number) => number);
  const leadOf = (number: number): number => {
    let found = number;
    while (lead[found] !== found) {
      lead[found] = lead[lead[found]!]!;
      found = lead[found]!;
    }
    return found;
  };
  const join = (one: number, other: number): void => {
    const [a, b] = [leadOf(one), leadOf(other)];
    lead[Math.max(a, b)] = Math.min(a, b);
  };
  return { leadOf, join };
}
