import { triple, type Triple } from '../mesh/triple.ts';
import { cutCells } from './cut-cells.ts';
import type { DistanceGrid } from './distance-grid.ts';
import { nodesAround, type FineNodes } from './fine-nodes.ts';
import type { NodeLattice } from './node-lattice.ts';
import { cellsAlong, smoothedAt, subdivided, type SplineBlock } from './spline-block.ts';

/** Cells are cut into 2^3, then 4^3: on 8 mm, a fold of radius 3 mm is as round as it gets. */
const CUTS = [2, 4] as const;

/** Cells this near the border of the lattice stay whole: the distances there do not know the skin beyond. */
const BORDER = 2;

/** The distance that the spline stands for, where it can be asked anew. */
export interface TrueDistance {
  /** How far the spline may be off at a node of the lattice before the cells round it are cut, m; Infinity: as far as it likes. */
  readonly allowedAt: (node: number) => number;
  /** The distance at a point, and how far the spline may be off there, m, into two numbers; `node` is the low corner of its cell. */
  readonly measure: (node: number, at: Readonly<Triple>, into: Float64Array) => void;
}

/**
 * Adds to a twiced spline what it rounds away: where it misses the distance by more than is allowed, cells are cut in two
 * along each axis, and the miss r is added as a spline of the finer nodes, twiced as well, c = w (2 r - S r).
 *
 * w is 1 at marked nodes and falls to 0 over one coarse spacing, and a spline is added to a spline: value, gradient and
 * Hessian stay continuous, and nothing changes farther than two spacings from a marked node. Cells that were cut hold the
 * whole sum on finer cells, so that reading them costs no more.
 *
 * @param nodes - The distances that `grid` was made of; not changed.
 * @returns `grid` itself where nothing is missed.
 * @see Forsey & Bartels, Hierarchical B-spline refinement, Computer Graphics 22 (1988) 205.
 */
export function refineGrid(
  lattice: NodeLattice,
  nodes: Float64Array,
  grid: DistanceGrid,
  truth: TrueDistance,
): DistanceGrid {
  const cells = triple((axis) => lattice.counts[axis]! - 5);
  const blocks = new Map<number, SplineBlock>();
  let marks = marksOnLattice(lattice, nodes, grid, truth);
  for (const along of CUTS) {
    if (marks === null) break;
    marks = addLevel({ lattice, cells, grid, blocks, truth, along }, marks);
  }
  return blocks.size === 0 ? grid : { ...grid, cut: cutCells(grid.counts, blocks) };
}

/** Nodes to be refined round: 1 at a mark. */
interface Marks {
  readonly nodes: FineNodes;
  readonly values: Float64Array;
  readonly cellList: readonly number[];
}

/** Where the spline of the whole lattice misses its own nodes; null where it does nowhere. */
function marksOnLattice(
  { counts }: NodeLattice,
  nodes: Float64Array,
  grid: DistanceGrid,
  truth: TrueDistance,
): Marks | null {
  const cells = triple((axis) => counts[axis]! - 5);
  const [, ny, nz] = counts;
  const cellList: number[] = [];
  const placeOf = new Int32Array(cells[0] * cells[1] * cells[2]).fill(-1);
  for (let i = BORDER; i <= cells[0] - BORDER; i++)
    for (let j = BORDER; j <= cells[1] - BORDER; j++)
      for (let k = BORDER; k <= cells[2] - BORDER; k++) {
        const node = ((i + 2) * ny + j + 2) * nz + k + 2;
        const allowed = truth.allowedAt(node);
        if (allowed === Infinity) continue;
        if (Math.abs(nodes[node]! - valueAtGridNode(grid, i + 1, j + 1, k + 1)) <= allowed) continue;
        const cell = (i * cells[1] + j) * cells[2] + k;
        placeOf[cell] = cellList.length;
        cellList.push(cell);
      }
  if (cellList.length === 0) return null;
  return {
    nodes: { along: 1, cells, placeOf },
    values: new Float64Array(cellList.length).fill(1),
    cellList,
  };
}

/** The spline at the place of one of its own coefficients. */
function valueAtGridNode({ counts, coefficients }: DistanceGrid, i: number, j: number, k: number): number {
  let sum = 0;
  for (let a = -1; a <= 1; a++)
    for (let b = -1; b <= 1; b++) {
      const at = ((i + a) * counts[1] + j + b) * counts[2] + k;
      const line = coefficients[at - 1]! + 4 * coefficients[at]! + coefficients[at + 1]!;
      sum += (a === 0 ? 4 : 1) * (b === 0 ? 4 : 1) * line;
    }
  return sum / 216;
}

/** What all steps of one level share. */
interface Level {
  readonly lattice: NodeLattice;
  readonly cells: Readonly<Triple>;
  readonly grid: DistanceGrid;
  /** By cell; added to. */
  readonly blocks: Map<number, SplineBlock>;
  readonly truth: TrueDistance;
  /** Finer cells along one side of a cell. */
  readonly along: number;
}

/** Numbers on the finer nodes of the touched cells. */
interface LevelNodes {
  readonly nodes: FineNodes;
  readonly cellList: readonly number[];
  /** The spline so far, on the finer cells; one block per cell. */
  readonly before: readonly SplineBlock[];
  readonly weight: Float64Array;
  /** Distance less spline so far, m; 0 where it is not needed. */
  readonly missed: Float64Array;
  readonly allowed: Float64Array;
}

/** Adds the splines of one level; gives the finer nodes that are still missed. */
function addLevel(level: Level, marks: Marks): Marks | null {
  const fine = measureMissed(level, marks);
  const added = addedCoefficients(fine);
  const { nodes, cellList, before, weight, missed, allowed } = fine;
  const { along } = nodes;
  const side = along + 3;
  const around = new Float64Array(side ** 3);
  const values = new Float64Array(weight.length);
  const marked: number[] = [];
  for (const [place, cell] of cellList.entries()) {
    nodesAround(nodes, added, firstNode(level.cells, cell, along), side, around);
    if (around.every((value) => value === 0)) continue;
    level.blocks.set(
      cell,
      before[place]!.map((value, i) => value + around[i]!),
    );
    let isMarked = false;
    forOwnNodes(along, (own, at) => {
      const n = place * along ** 3 + own;
      const left = missed[n]! - smoothedAt(around, at(side), side);
      if (weight[n] !== 1 || Math.abs(left) <= allowed[n]!) return;
      values[n] = 1;
      isMarked = true;
    });
    if (isMarked) marked.push(cell);
  }
  return marked.length === 0 ? null : { nodes, values, cellList: marked };
}

/** Calls for each of a cell's own nodes: its number, and its place in an array of a given side that begins one node before. */
function forOwnNodes(along: number, call: (own: number, at: (side: number) => number) => void): void {
  let own = 0;
  for (let i = 1; i <= along; i++)
    for (let j = 1; j <= along; j++)
      for (let k = 1; k <= along; k++, own++) call(own, (side) => (i * side + j) * side + k);
}

/** The finer node before the first one of a cell. */
const firstNode = ([, ny, nz]: Readonly<Triple>, cell: number, along: number): Triple => [
  along * Math.floor(cell / (ny * nz)) - 1,
  along * (Math.floor(cell / nz) % ny) - 1,
  along * (cell % nz) - 1,
];

/** Weights round the marks, and how far the spline so far misses the distance wherever that is needed. */
function measureMissed(level: Level, marks: Marks): LevelNodes {
  const { lattice, cells, along, truth } = level;
  const { placeOf, cellList } = touchedCells(cells, marks, along);
  const nodes: FineNodes = { along, cells, placeOf };
  const before = cellList.map((cell) => subdivided(blockSoFar(level, cell)));
  const count = cellList.length * along ** 3;
  const fine: LevelNodes = {
    nodes,
    cellList,
    before,
    weight: new Float64Array(count),
    missed: new Float64Array(count),
    allowed: new Float64Array(count),
  };
  const { low, spacing, counts } = lattice;
  const coarseSide = along / 2 + 2;
  const coarse = new Float64Array(coarseSide ** 3);
  const side = along + 2;
  const weights = new Float64Array(side ** 3);
  const answer = new Float64Array(2);
  const point: Triple = [0, 0, 0];
  for (const [place, cell] of cellList.entries()) {
    nodesAround(marks.nodes, marks.values, firstNode(cells, cell, along / 2), coarseSide, coarse);
    spreadMarks(coarse, coarseSide, weights, side);
    const [i, j, k] = firstNode(cells, cell, 1);
    const node = ((i + 3) * counts[1] + j + 3) * counts[2] + k + 3;
    const corner = triple((axis) => low[axis]! + ([i, j, k][axis]! + 1) * spacing);
    forOwnNodes(along, (own, at) => {
      if (smoothedAt(weights, at(side), side) === 0) return;
      const n = place * along ** 3 + own;
      fine.weight[n] = weights[at(side)]!;
      point[0] = corner[0] + (Math.floor(own / along ** 2) * spacing) / along;
      point[1] = corner[1] + ((Math.floor(own / along) % along) * spacing) / along;
      point[2] = corner[2] + ((own % along) * spacing) / along;
      truth.measure(node, point, answer);
      fine.missed[n] = answer[0]! - smoothedAt(before[place]!, at(along + 3), along + 3);
      fine.allowed[n] = answer[1]!;
    });
  }
  return fine;
}

/** Cells that a mark's finer splines, or the misses they are made of, reach into. */
function touchedCells(cells: Readonly<Triple>, marks: Marks, along: number) {
  const [nx, ny, nz] = cells;
  const touched = new Uint8Array(nx * ny * nz);
  const { nodes, values, cellList } = marks;
  const per = nodes.along;
  const reach = 2 / along;
  const range = (place: number, count: number): [number, number] => [
    Math.max(0, Math.ceil(place - 1 - reach)),
    Math.min(count - 1, Math.floor(place + reach)),
  ];
  for (const cell of cellList) {
    const kept = nodes.placeOf[cell]! * per ** 3;
    for (let own = 0; own < per ** 3; own++) {
      if (values[kept + own] !== 1) continue;
      const [i0, i1] = range(Math.floor(cell / (ny * nz)) + Math.floor(own / per ** 2) / per, nx);
      const [j0, j1] = range((Math.floor(cell / nz) % ny) + (Math.floor(own / per) % per) / per, ny);
      const [k0, k1] = range((cell % nz) + (own % per) / per, nz);
      for (let i = i0; i <= i1; i++)
        for (let j = j0; j <= j1; j++) for (let k = k0; k <= k1; k++) touched[(i * ny + j) * nz + k] = 1;
    }
  }
  const placeOf = new Int32Array(touched.length).fill(-1);
  const list: number[] = [];
  for (let cell = 0; cell < touched.length; cell++) {
    if (touched[cell] === 0) continue;
    placeOf[cell] = list.length;
    list.push(cell);
  }
  return { placeOf, cellList: list };
}

/** The spline so far on cells twice as large as those of the level. */
function blockSoFar({ cells, grid, blocks, along }: Level, cell: number): SplineBlock {
  let block = blocks.get(cell) ?? wholeBlock(cells, grid, cell);
  while (cellsAlong(block) < along / 2) block = subdivided(block);
  return block;
}

function wholeBlock(
  [, cy, cz]: Readonly<Triple>,
  { counts, coefficients }: DistanceGrid,
  cell: number,
): SplineBlock {
  const block = new Float64Array(64);
  const i = Math.floor(cell / (cy * cz));
  const j = Math.floor(cell / cz) % cy;
  const k = cell % cz;
  for (let n = 0; n < 64; n++) {
    const at = ((i + (n >> 4)) * counts[1] + j + ((n >> 2) & 3)) * counts[2] + k + (n & 3);
    block[n] = coefficients[at]!;
  }
  return block;
}

/** Marks on coarse nodes spread linearly over the finer ones; both arrays begin one node of their own before the cell. */
function spreadMarks(coarse: Float64Array, coarseSide: number, into: Float64Array, side: number): void {
  let at = 0;
  for (let i = 0; i < side; i++)
    for (let j = 0; j < side; j++)
      for (let k = 0; k < side; k++) {
        let sum = 0;
        for (let corner = 0; corner < 8; corner++) {
          const a = coarseNode(i, corner & 1);
          const b = coarseNode(j, (corner >> 1) & 1);
          const c = coarseNode(k, corner >> 2);
          sum += coarse[(a * coarseSide + b) * coarseSide + c]!;
        }
        into[at++] = sum / 8;
      }
}

/** The coarse node on one side or the other of a finer one; an odd place lies on a coarse node. */
const coarseNode = (fine: number, side: number): number =>
  fine % 2 === 1 ? (fine + 1) / 2 : fine / 2 + side;

/** c = w (2 r - S r) at the finer nodes. */
function addedCoefficients({ nodes, cellList, weight, missed }: LevelNodes): Float64Array {
  const { along, cells } = nodes;
  const side = along + 2;
  const around = new Float64Array(side ** 3);
  const added = new Float64Array(weight.length);
  for (const [place, cell] of cellList.entries()) {
    nodesAround(nodes, missed, firstNode(cells, cell, along), side, around);
    forOwnNodes(along, (own, at) => {
      const n = place * along ** 3 + own;
      if (weight[n] !== 0) added[n] = weight[n]! * (2 * missed[n]! - smoothedAt(around, at(side), side));
    });
  }
  return added;
}
