import type { ClothLevel } from '../garment/garment.ts';
import type { BlockPattern } from './block-matrix.ts';

/** How a level's vertices follow three weighted ones each of the next coarser level; see ClothLevel. */
export type WeightedParents = Required<Pick<ClothLevel, 'parents' | 'parentWeights'>>;

/** Where the blocks of a fine matrix A go in the coarse one, P' A P; P without the weights of nothing. */
export interface WeightedProduct {
  /** First parent of each fine vertex; V+1. */
  readonly first: Uint32Array;
  /** Share of each parent. */
  readonly share: Float64Array;
  /** Coarse blocks: by fine row, by its parent, by block of the row, by parent of the block's column. */
  readonly to: Uint32Array;
}

/** Parents that count, end to end. */
interface Followed {
  readonly first: Uint32Array;
  readonly parent: Uint32Array;
  readonly share: Float64Array;
}

function followed({ parents, parentWeights }: WeightedParents): Followed {
  const count = parents.length / 3;
  const first = new Uint32Array(count + 1);
  for (let i = 0; i < parents.length; i++) if (parentWeights[i] !== 0) first[Math.floor(i / 3) + 1]!++;
  for (let v = 0; v < count; v++) first[v + 1]! += first[v]!;
  const parent = new Uint32Array(first[count]!);
  const share = new Float64Array(first[count]!);
  for (let i = 0, at = 0; i < parents.length; i++) {
    if (parentWeights[i] === 0) continue;
    parent[at] = parents[i]!;
    share[at++] = parentWeights[i]!;
  }
  return { first, parent, share };
}

/** The fine vertices that follow each coarse one, as places in `parent` and the fine rows they belong to. */
function followers({ first, parent }: Followed, coarseCount: number) {
  const start = new Uint32Array(coarseCount + 1);
  for (const p of parent) start[p + 1]!++;
  for (let p = 0; p < coarseCount; p++) start[p + 1]! += start[p]!;
  const next = start.slice(0, coarseCount);
  const row = new Uint32Array(parent.length);
  const place = new Uint32Array(parent.length);
  for (let v = 0; v + 1 < first.length; v++) {
    for (let i = first[v]!; i < first[v + 1]!; i++) {
      const at = next[parent[i]!]!++;
      row[at] = v;
      place[at] = i;
    }
  }
  return { start, row, place };
}

/**
 * The blocks of the coarse matrix: all that the product P' A P makes, which may join vertices that are no neighbours on
 * the coarse mesh, and the coarse mesh's own.
 */
export function patternOfProduct(
  fine: BlockPattern,
  parents: WeightedParents,
  own: BlockPattern,
): BlockPattern {
  const coarseCount = own.diagonal.length;
  const { first, parent, share } = followed(parents);
  const { start, row } = followers({ first, parent, share }, coarseCount);
  const rowStart = new Uint32Array(coarseCount + 1);
  const diagonal = new Uint32Array(coarseCount);
  const seen = new Uint32Array(coarseCount);
  let columns = new Uint32Array(2 * own.columns.length);
  let count = 0;
  for (let p = 0; p < coarseCount; p++) {
    const begin = count;
    if (columns.length - begin < coarseCount) columns = grown(columns, 2 * columns.length + coarseCount);
    for (let b = own.rowStart[p]!; b < own.rowStart[p + 1]!; b++) {
      columns[count++] = own.columns[b]!;
      seen[own.columns[b]!] = p + 1;
    }
    for (let i = start[p]!; i < start[p + 1]!; i++) {
      const v = row[i]!;
      for (let b = fine.rowStart[v]!; b < fine.rowStart[v + 1]!; b++) {
        const w = fine.columns[b]!;
        for (let n = first[w]!; n < first[w + 1]!; n++) {
          const column = parent[n]!;
          if (seen[column] === p + 1) continue;
          seen[column] = p + 1;
          columns[count++] = column;
        }
      }
    }
    columns.subarray(begin, count).sort();
    rowStart[p + 1] = count;
    diagonal[p] = begin + columns.subarray(begin, count).indexOf(p);
  }
  return { rowStart, columns: columns.slice(0, count), diagonal };
}

function grown(list: Uint32Array<ArrayBuffer>, length: number): Uint32Array<ArrayBuffer> {
  const longer = new Uint32Array(length);
  longer.set(list);
  return longer;
}

/** Lays out the product, coarse row by coarse row, so that each block is found at once. */
export function weightedProduct(
  fine: BlockPattern,
  parents: WeightedParents,
  coarse: BlockPattern,
): WeightedProduct {
  const coarseCount = coarse.diagonal.length;
  const all = followed(parents);
  const { first, parent, share } = all;
  const { start, row, place } = followers(all, coarseCount);
  const runStart = new Uint32Array(parent.length + 1);
  for (let v = 0; v + 1 < first.length; v++) {
    let length = 0;
    for (let b = fine.rowStart[v]!; b < fine.rowStart[v + 1]!; b++) {
      const w = fine.columns[b]!;
      length += first[w + 1]! - first[w]!;
    }
    for (let i = first[v]!; i < first[v + 1]!; i++) runStart[i + 1] = runStart[i]! + length;
  }
  const to = new Uint32Array(runStart[parent.length]!);
  const blockOf = new Uint32Array(coarseCount);
  for (let p = 0; p < coarseCount; p++) {
    for (let b = coarse.rowStart[p]!; b < coarse.rowStart[p + 1]!; b++) blockOf[coarse.columns[b]!] = b;
    for (let i = start[p]!; i < start[p + 1]!; i++) {
      const v = row[i]!;
      let at = runStart[place[i]!]!;
      for (let b = fine.rowStart[v]!; b < fine.rowStart[v + 1]!; b++) {
        const w = fine.columns[b]!;
        for (let n = first[w]!; n < first[w + 1]!; n++) to[at++] = blockOf[parent[n]!]!;
      }
    }
  }
  return { first, share, to };
}

/**
 * P' A P.
 *
 * @param into - 9 per coarse block, overwritten.
 */
export function coarsenWeighted(
  { rowStart, columns }: BlockPattern,
  values: Float64Array,
  { first, share, to }: WeightedProduct,
  into: Float64Array,
): void {
  into.fill(0);
  let at = 0;
  for (let v = 0; v + 1 < first.length; v++) {
    const end = rowStart[v + 1]!;
    for (let m = first[v]!; m < first[v + 1]!; m++) {
      const rowShare = share[m]!;
      for (let b = rowStart[v]!; b < end; b++) {
        const w = columns[b]!;
        const a = 9 * b;
        const last = first[w + 1]!;
        for (let n = first[w]!; n < last; n++) {
          const part = rowShare * share[n]!;
          const c = 9 * to[at++]!;
          into[c]! += part * values[a]!;
          into[c + 1]! += part * values[a + 1]!;
          into[c + 2]! += part * values[a + 2]!;
          into[c + 3]! += part * values[a + 3]!;
          into[c + 4]! += part * values[a + 4]!;
          into[c + 5]! += part * values[a + 5]!;
          into[c + 6]! += part * values[a + 6]!;
          into[c + 7]! += part * values[a + 7]!;
          into[c + 8]! += part * values[a + 8]!;
        }
      }
    }
  }
}
