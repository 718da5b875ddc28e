import type { Triple } from '../mesh/triple.ts';

/**
 * Numbers on the nodes of a finer lattice, kept only in some cells of the coarse one: each cell keeps the n^3 nodes
 * from its low corner on.
 */
export interface FineNodes {
  /** Nodes along one side of a cell. */
  readonly along: number;
  /** Cells along x, y, z. */
  readonly cells: Readonly<Triple>;
  /** Place of a cell among those kept, -1 where it is not. */
  readonly placeOf: Int32Array;
}

/** One number per kept node, 0 wherever nothing is kept. */
export function valueAtNode(
  { along, cells, placeOf }: FineNodes,
  values: Float64Array,
  node: Readonly<Triple>,
): number {
  const [x, y, z] = node;
  const i = Math.floor(x / along);
  const j = Math.floor(y / along);
  const k = Math.floor(z / along);
  if (i < 0 || j < 0 || k < 0 || i >= cells[0] || j >= cells[1] || k >= cells[2]) return 0;
  const place = placeOf[(i * cells[1] + j) * cells[2] + k]!;
  if (place < 0) return 0;
  return values[((place * along + x - i * along) * along + y - j * along) * along + z - k * along]!;
}

/** Copies the nodes from `first` on, `side` along each axis, into a dense array, z fastest. */
/* oxlint-disable-next-line max-params -- innermost step, called for every cell */
export function nodesAround(
  nodes: FineNodes,
  values: Float64Array,
  first: Readonly<Triple>,
  side: number,
  into: Float64Array,
): void {
  const node: Triple = [0, 0, 0];
  let at = 0;
  for (let i = 0; i < side; i++)
    for (let j = 0; j < side; j++)
      for (let k = 0; k < side; k++) {
        node[0] = first[0] + i;
        node[1] = first[1] + j;
        node[2] = first[2] + k;
        into[at++] = valueAtNode(nodes, values, node);
      }
}
