import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { triple } from '../mesh/triple.ts';
import { bodyRow, type BodyRow } from './body-rows.ts';

/** Rows of the trunk from one height to another, and the way up a side seam to each. */
export interface SideRows {
  /** Lowest first, evenly in height. */
  readonly rows: readonly BodyRow[];
  /** Relaxed way along the side seam from the lowest, m. */
  readonly ways: readonly number[];
  /** Relaxed over body length of the side seam. */
  readonly scale: number;
  /** The way up to a height, straight on beyond both ends. */
  readonly wayOf: (height: number) => number;
}

const ROWS = 24;

/**
 * Rows of the trunk between two heights, with a seam of a given relaxed length up their sides.
 *
 * @throws {Fault} `garment/level-off-body`, `garment/region-not-here`.
 */
export function rowsUpSide(skin: TriangleMesh, low: number, high: number, length: number): SideRows {
  const rows = Array.from({ length: ROWS + 1 }, (_, i) =>
    bodyRow(skin, 'trunk', low + ((high - low) * i) / ROWS),
  );
  const along = [0];
  for (let i = 1; i < rows.length; i++) {
    along.push(along[i - 1]! + Math.hypot(...triple((k) => rows[i]!.side[k]! - rows[i - 1]!.side[k]!)));
  }
  const scale = length / along.at(-1)!;
  const ways = along.map((way) => scale * way);
  const wayOf = (height: number): number => {
    const at = (ROWS * (height - low)) / (high - low);
    const i = Math.max(0, Math.min(ROWS - 1, Math.floor(at)));
    return ways[i]! + (at - i) * (ways[i + 1]! - ways[i]!);
  };
  return { rows, ways, scale, wayOf };
}
