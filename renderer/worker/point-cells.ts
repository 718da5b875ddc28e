/** Points sorted into cubes, so that those near a place are found without looking at all of them. */
export interface PointCells {
  /** 3·V, m. */
  readonly points: Float64Array;
  /** Edge of a cube, and how far near is, m. */
  readonly reach: number;
  /** Lower corner of all cubes, m, and their counts along the axes. */
  readonly low: readonly [number, number, number];
  readonly counts: readonly [number, number, number];
  /** Where each cube's points begin in `order`, and behind the last where they end. */
  readonly starts: Uint32Array;
  readonly order: Uint32Array;
}

/** Sorts points (3·V, at least one) into cubes of edge `reach`. */
export function cellsOf(points: Float64Array, reach: number): PointCells {
  const [low, high] = [
    [Infinity, Infinity, Infinity],
    [-Infinity, -Infinity, -Infinity],
  ] as [[number, number, number], [number, number, number]];
  points.forEach((x, i) => {
    low[i % 3] = Math.min(low[i % 3]!, x);
    high[i % 3] = Math.max(high[i % 3]!, x);
  });
  const countAlong = (k: 0 | 1 | 2): number => Math.floor((high[k] - low[k]) / reach) + 1;
  const counts = [countAlong(0), countAlong(1), countAlong(2)] as const;
  const cellAt = (p: number): number => {
    const [i, j, k] = [0, 1, 2].map((axis) => Math.floor((points[3 * p + axis]! - low[axis]!) / reach));
    return (i! * counts[1] + j!) * counts[2] + k!;
  };
  const cells = Uint32Array.from({ length: points.length / 3 }, (_, p) => cellAt(p));
  const starts = new Uint32Array(counts[0] * counts[1] * counts[2] + 1);
  for (const cell of cells) starts[cell + 1]!++;
  for (let c = 1; c < starts.length; c++) starts[c]! += starts[c - 1]!;
  const next = starts.slice();
  const order = new Uint32Array(cells.length);
  cells.forEach((cell, p) => {
    order[next[cell]!++] = p;
  });
  return { points, reach, low, counts, starts, order };
}

/**
 * Every point within reach of a place.
 *
 * @param meet - Given the point and (its distance / reach)², below 1.
 */
export function forEachNear(
  { points, reach, low, counts, starts, order }: PointCells,
  place: readonly [number, number, number],
  meet: (point: number, share: number) => void,
): void {
  const [x, y, z] = place;
  const first = (k: 0 | 1 | 2): number => Math.max(0, Math.floor((place[k] - low[k]) / reach) - 1);
  const last = (k: 0 | 1 | 2): number => Math.min(counts[k] - 1, Math.floor((place[k] - low[k]) / reach) + 1);
  const [lastI, firstJ, lastJ, firstK, lastK] = [last(0), first(1), last(1), first(2), last(2)];
  if (lastJ < firstJ || lastK < firstK) return;
  for (let i = first(0); i <= lastI; i++) {
    for (let j = firstJ; j <= lastJ; j++) {
      const row = (i * counts[1] + j) * counts[2];
      // Cubes of one row lie behind each other, and so do their points.
      const end = starts[row + lastK + 1]!;
      for (let at = starts[row + firstK]!; at < end; at++) {
        const p = order[at]!;
        const r2 = (points[3 * p]! - x) ** 2 + (points[3 * p + 1]! - y) ** 2 + (points[3 * p + 2]! - z) ** 2;
        const share = r2 / (reach * reach);
        if (share < 1) meet(p, share);
      }
    }
  }
}
