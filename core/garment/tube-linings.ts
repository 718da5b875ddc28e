import type { Lining } from './garment.ts';
import type { RestShape } from './rest-shape.ts';
import { alongAt, type LevelRings, type TubeRows } from './tube-bands.ts';
import type { TubeLining } from './tube-sheet.ts';
import { turnedGrain } from './turned-grain.ts';

/** Less of a cell than this under the lining is round-off. */
const LEAST_COVER = 1e-9;

/**
 * A lining on one level of the tube: the tube's own unstretched shape, its grain turned. A cell that it covers in part
 * counts with that part of its area, so that a lining ends where it should whatever the mesh.
 */
export function tubeLining(
  lining: TubeLining,
  rows: TubeRows,
  rings: Omit<LevelRings, 'positions'>,
  shape: RestShape,
): Lining {
  const { rowCount, columnCount } = rings;
  const stride = (rows.at.length - 1) / rowCount;
  const from = lining.from === undefined ? 0 : alongAt(rows, lining.from);
  const to = lining.to === undefined ? rows.along.at(-1)! : alongAt(rows, lining.to);
  const triangles: number[] = [];
  const cover: number[] = [];
  for (let row = 0; row < rowCount; row++) {
    const low = rows.along[row * stride]!;
    const high = rows.along[(row + 1) * stride]!;
    const covered = (Math.min(high, to) - Math.max(low, from)) / (high - low);
    if (covered <= LEAST_COVER) continue;
    for (let t = 2 * row * columnCount; t < 2 * (row + 1) * columnCount; t++) {
      triangles.push(t);
      cover.push(covered);
    }
  }
  const chosen: RestShape = {
    restInverse: Float64Array.from({ length: 4 * triangles.length }, (_, i) => {
      return shape.restInverse[4 * triangles[i >> 2]! + (i & 3)]!;
    }),
    restArea: Float64Array.from(triangles, (t, i) => shape.restArea[t]! * cover[i]!),
  };
  return {
    fabric: lining.fabric,
    triangles: Uint32Array.from(triangles),
    ...turnedGrain(chosen, lining.grain ?? 0),
  };
}
