import { meshEdges, vertexNeighbours } from '../mesh/mesh-edges.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { BODY_PARTS } from './body-regions.ts';
import { partCoordinates, sharedKnots, type MappedBody, type PartCoordinates } from './tissue-coordinates.ts';

/** Cells along one segment between two landmarks, and round half or the whole of a part. */
const ALONG = 8;
const AROUND = 32;
/** Segments that a part has at most, with room beyond both ends. */
const SEGMENTS = 12;
const BELOW = 2;

/** Depths are scaled by the girths' ratio, but by no more than this: beyond it, it is the landmarks that are wrong. */
const SCALE_RANGE = [0.5, 2] as const;
/** As on the fit body: rounds of 0.6 of the way to the neighbours' mean. */
const EVENING = { rounds: 6, share: 0.6 } as const;
/** Thinnest skin over bone that is let stand, m. */
const THINNEST = 0.003;

/**
 * Depth of tissue carried from one body to another: each vertex takes the depth at its own place on the other
 * (between the same landmarks, in the same direction from the middle of the part), times the ratio of the girths
 * there.
 *
 * @param from - Usually the fit body made to the other's measures; its depth per vertex, m.
 * @returns m; one per vertex of `to`.
 */
export function transferredDepth(
  from: MappedBody & { readonly tissueDepth: Float64Array },
  to: MappedBody,
): Float64Array {
  const knots = sharedKnots(from.landmarks, to.landmarks);
  const source = partCoordinates(from, knots);
  const target = partCoordinates(to, knots);
  const depth = gridOf(source, from.tissueDepth);
  const radius = rowsOf(source);
  const ownRadius = rowsOf(target);
  const into = new Float64Array(target.part.length);
  for (let v = 0; v < into.length; v++) {
    const part = target.part[v]!;
    const row = Math.round(rowAt(target.along[v]!));
    const ratio = ownRadius[part]![row]! / radius[part]![row]!;
    const scale = Number.isFinite(ratio) ? Math.min(Math.max(ratio, SCALE_RANGE[0]), SCALE_RANGE[1]) : 1;
    into[v] = Math.max(THINNEST, scale * valueIn(depth[part]!, target.along[v]!, target.angle[v]!));
  }
  return evenedOver(to.skin, into);
}

const ROWS = ALONG * SEGMENTS;

const rowAt = (along: number): number => Math.min(Math.max((along + BELOW) * ALONG - 0.5, 0), ROWS - 1);
const columnAt = (angle: number): number => ((angle / (2 * Math.PI) + 1) % 1) * AROUND;

/** Mean depth per cell and part, empty cells filled from those beside them; rows along, columns round. */
function gridOf({ part, along, angle }: PartCoordinates, values: Float64Array): Float64Array[] {
  return BODY_PARTS.map((_, own) => {
    const sum = new Float64Array(ROWS * AROUND);
    const count = new Float64Array(ROWS * AROUND);
    for (let v = 0; v < part.length; v++) {
      if (part[v] !== own) continue;
      const cell = Math.round(rowAt(along[v]!)) * AROUND + (Math.floor(columnAt(angle[v]!)) % AROUND);
      sum[cell]! += values[v]!;
      count[cell]!++;
    }
    return filled(sum.map((total, cell) => (count[cell]! > 0 ? total / count[cell]! : NaN)));
  });
}

/** Cells without a value take the mean of those beside them, again and again until none is left or nothing is known. */
function filled(cells: Float64Array): Float64Array {
  let here = cells;
  for (let round = 0; round < ROWS + AROUND && here.some(Number.isNaN); round++) {
    const next = here.slice();
    for (let cell = 0; cell < here.length; cell++) {
      if (!Number.isNaN(here[cell]!)) continue;
      const [row, column] = [Math.floor(cell / AROUND), cell % AROUND];
      const beside = [
        here[row * AROUND + ((column + 1) % AROUND)]!,
        here[row * AROUND + ((column + AROUND - 1) % AROUND)]!,
        row > 0 ? here[cell - AROUND]! : NaN,
        row < ROWS - 1 ? here[cell + AROUND]! : NaN,
      ].filter((value) => !Number.isNaN(value));
      if (beside.length > 0) next[cell] = beside.reduce((sum, value) => sum + value, 0) / beside.length;
    }
    here = next;
  }
  return here;
}

/** Between four cells. */
function valueIn(cells: Float64Array, along: number, angle: number): number {
  const row = rowAt(along);
  const column = columnAt(angle) - 0.5 + AROUND;
  const [r, c] = [Math.min(Math.floor(row), ROWS - 2), Math.floor(column)];
  const [u, w] = [row - r, column - c];
  const at = (dr: number, dc: number): number => cells[(r + dr) * AROUND + ((c + dc) % AROUND)]!;
  return (1 - u) * ((1 - w) * at(0, 0) + w * at(0, 1)) + u * ((1 - w) * at(1, 0) + w * at(1, 1));
}

/** Mean distance from the middle per row and part; what stands for the girth there. NaN where there is none. */
function rowsOf({ part, along, radius }: PartCoordinates): Float64Array[] {
  return BODY_PARTS.map((_, own) => {
    const sum = new Float64Array(ROWS);
    const count = new Float64Array(ROWS);
    for (let v = 0; v < part.length; v++) {
      if (part[v] !== own) continue;
      const row = Math.round(rowAt(along[v]!));
      sum[row]! += radius[v]!;
      count[row]!++;
    }
    return sum.map((total, row) => total / count[row]!);
  });
}

function evenedOver(skin: TriangleMesh, values: Float64Array): Float64Array {
  const { start, list } = vertexNeighbours(meshEdges(skin), values.length);
  let here = values;
  for (let round = 0; round < EVENING.rounds; round++) {
    const next = here.slice();
    for (let v = 0; v < here.length; v++) {
      const count = start[v + 1]! - start[v]!;
      if (count === 0) continue;
      let sum = 0;
      for (let i = start[v]!; i < start[v + 1]!; i++) sum += here[list[i]!]!;
      next[v] = here[v]! + EVENING.share * (sum / count - here[v]!);
    }
    here = next;
  }
  return here;
}
