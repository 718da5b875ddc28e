import type { ClothLevel } from '../garment/garment.ts';
import { setRestShape, type RestShape } from '../garment/rest-shape.ts';
import { tubeRestShape } from '../garment/tube-rest-shape.ts';
import { tubeParents, tubeTriangles, vertexCountOf, type TubeGrid } from '../garment/tube-grid.ts';

/** A tube for a check, its warp running around. */
export interface ProofTube {
  /** Cells of the coarsest level along and around, and how often they are halved. */
  readonly rowCount: number;
  readonly columnCount: number;
  readonly halvings: number;
  /** Where the point (around, along), each 0..1, is laid; around from +z towards +x. m. */
  readonly place: (around: number, along: number) => readonly [number, number, number];
  /** A straight tube by its relaxed girth and length (m), or the laid shape scaled. */
  readonly relaxed:
    { readonly girth: number; readonly length: number } | { readonly around: number; readonly along: number };
  /** Moves inner vertices of the finest level by up to this share of a cell, so that the mesh has no symmetry left. */
  readonly jitter?: number;
}

/** A point on a ring of the given radius and height, `around` from +z towards +x. */
export const onRing = (radius: number, y: number, around: number): readonly [number, number, number] => [
  radius * Math.sin(2 * Math.PI * around),
  y,
  radius * Math.cos(2 * Math.PI * around),
];

/** All levels of the tube, coarsest first. */
export function proofTube(tube: ProofTube): ClothLevel[] {
  return Array.from({ length: tube.halvings + 1 }, (_, halvings) => {
    const grid: TubeGrid = {
      rowCount: tube.rowCount * 2 ** halvings,
      columnCount: tube.columnCount * 2 ** halvings,
      halvings,
    };
    const at = gridPoints(tube, grid);
    const positions = new Float64Array(3 * vertexCountOf(grid));
    for (let v = 0; 3 * v < positions.length; v++)
      positions.set(tube.place(at[2 * v]!, at[2 * v + 1]!), 3 * v);
    const { relaxed } = tube;
    const shape =
      'girth' in relaxed
        ? straightShape(grid, at, relaxed)
        : tubeRestShape(grid, positions, {
            ratios: new Float64Array(grid.rowCount + 1).fill(relaxed.around),
            along: relaxed.along,
            warp: 'around',
          });
    return {
      mesh: { positions, triangles: tubeTriangles(grid) },
      ...shape,
      parents: tubeParents(grid),
      edgeVertex: Uint8Array.from({ length: vertexCountOf(grid) }, (_, v) => {
        const row = Math.floor(v / grid.columnCount);
        return row === 0 || row === grid.rowCount ? 1 : 0;
      }),
    };
  });
}

/** Where the vertices lie in (around, along); 2*V. A coarse vertex lies where its finest twin does. */
function gridPoints(tube: ProofTube, grid: TubeGrid): Float64Array {
  const { rowCount, columnCount } = grid;
  const stride = 2 ** (tube.halvings - grid.halvings);
  const amount = tube.jitter ?? 0;
  const at = new Float64Array(2 * vertexCountOf(grid));
  for (let row = 0; row <= rowCount; row++) {
    for (let column = 0; column < columnCount; column++) {
      const v = row * columnCount + column;
      const inner = row > 0 && row < rowCount;
      const seed = row * stride * 7919 + column * stride;
      at[2 * v] = (column + (amount * scatter(2 * seed)) / stride) / columnCount;
      at[2 * v + 1] = (row + (inner ? (amount * scatter(2 * seed + 1)) / stride : 0)) / rowCount;
    }
  }
  return at;
}

/** A number in [-1, 1) that looks random, always the same for one seed. */
export function scatter(seed: number): number {
  let h = Math.imul(seed + 1, 0x9e3779b1);
  h = Math.imul(h ^ (h >>> 15), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return ((h ^ (h >>> 16)) >>> 0) / 2 ** 31 - 1;
}

/** Rest shape of a straight tube: its triangles as they lie when it is slit open and laid flat. */
function straightShape(
  grid: TubeGrid,
  at: Float64Array,
  { girth, length }: { girth: number; length: number },
): RestShape {
  const triangles = tubeTriangles(grid);
  const count = triangles.length / 3;
  const shape = { restInverse: new Float64Array(4 * count), restArea: new Float64Array(count) };
  // The way round from one vertex to another is the short one.
  const around = (from: number, to: number) => {
    const way = at[2 * to]! - at[2 * from]!;
    return girth * (way - Math.round(way));
  };
  const along = (from: number, to: number) => length * (at[2 * to + 1]! - at[2 * from + 1]!);
  for (let t = 0; t < count; t++) {
    const a = triangles[3 * t]!;
    const b = triangles[3 * t + 1]!;
    const c = triangles[3 * t + 2]!;
    setRestShape({ ax: around(a, b), ay: along(a, b), bx: around(a, c), by: along(a, c) }, t, shape);
  }
  return shape;
}
