import { fillLoop } from './fill-loop.ts';
import { FREE, type Stitches } from './mend-stitches.ts';
import type { TriangleMesh } from './triangle-mesh.ts';
import type { Triple } from './triple.ts';

/** A closed way along free edges, the surface on its left. */
export interface Hole {
  readonly vertices: readonly number[];
  /** Unit of the mesh. */
  readonly perimeter: number;
  readonly low: Triple;
  readonly high: Triple;
  /** Mean of its vertices. */
  readonly middle: Triple;
}

/**
 * The holes of a mesh whose fans are split, in the order of their first side, as simple loops: where a loop comes by the
 * same place twice, the vertices there are made one again and the loop becomes two, so that faces missing corner to
 * corner are holes of their own.
 *
 * @param stitches - Of the mesh.
 * @returns The mesh with those vertices made one, and its holes.
 */
export function holesOf(
  mesh: TriangleMesh,
  stitches: Stitches,
): { readonly mesh: TriangleMesh; readonly holes: Hole[] } {
  const oneFor = new Map<number, number>();
  const loops = freeLoops(mesh, stitches).flatMap((loop) => simpleLoops(mesh.positions, loop, oneFor));
  const holes = loops.map((loop) => measured(mesh.positions, loop));
  if (oneFor.size === 0) return { mesh, holes };
  const { positions, triangles } = mesh;
  return { mesh: { positions, triangles: triangles.map((v) => oneFor.get(v) ?? v) }, holes };
}

/** Closed ways along free sides. */
function freeLoops({ triangles }: TriangleMesh, { across }: Stitches): number[][] {
  const sideFrom = new Map<number, number>();
  for (let side = 0; side < across.length; side++) {
    if (across[side] === FREE) sideFrom.set(triangles[side]!, side);
  }
  const loops: number[][] = [];
  for (const first of sideFrom.keys()) {
    const loop: number[] = [];
    let at: number | undefined = first;
    while (at !== undefined && sideFrom.has(at)) {
      const side: number = sideFrom.get(at)!;
      sideFrom.delete(at);
      loop.push(at);
      at = triangles[side % 3 === 2 ? side - 2 : side + 1];
    }
    loops.push(loop);
  }
  return loops;
}

/** Parts a loop where it comes by the same place twice; `oneFor` learns which vertex stands for which. */
function simpleLoops(
  positions: Float64Array,
  loop: readonly number[],
  oneFor: Map<number, number>,
): number[][] {
  const loops: number[][] = [];
  const way: number[] = [];
  const placeOf = new Map<string, number>();
  const keyOf = (v: number): string => positions.subarray(3 * v, 3 * v + 3).join();
  for (const v of loop) {
    const before = placeOf.get(keyOf(v));
    if (before === undefined) {
      placeOf.set(keyOf(v), way.push(v) - 1);
      continue;
    }
    oneFor.set(v, way[before]!);
    const closed = way.splice(before + 1);
    for (const passed of closed) placeOf.delete(keyOf(passed));
    loops.push([way[before]!, ...closed]);
  }
  loops.push(way);
  // Two sides that lie on one another are no hole: they are sewn now.
  return loops.filter(({ length }) => length >= 3);
}

function measured(positions: Float64Array, vertices: readonly number[]): Hole {
  const low: Triple = [Infinity, Infinity, Infinity];
  const high: Triple = [-Infinity, -Infinity, -Infinity];
  const middle: Triple = [0, 0, 0];
  let perimeter = 0;
  vertices.forEach((v, i) => {
    const next = vertices[(i + 1) % vertices.length]!;
    let squared = 0;
    for (let k = 0; k < 3; k++) {
      const value = positions[3 * v + k]!;
      low[k] = Math.min(low[k]!, value);
      high[k] = Math.max(high[k]!, value);
      middle[k]! += value / vertices.length;
      squared += (positions[3 * next + k]! - value) ** 2;
    }
    perimeter += Math.sqrt(squared);
  });
  return { vertices, perimeter, low, high, middle };
}

/**
 * The mesh with these holes filled, and how many triangles each took.
 *
 * @yields the share of holes that is filled.
 */
export function* closeHoles(
  mesh: TriangleMesh,
  holes: readonly Hole[],
): Generator<number, { mesh: TriangleMesh; addedCounts: number[] }> {
  let vertexCount = mesh.positions.length / 3;
  const patches: { inner: number[]; placed: number[] }[] = [];
  for (const { vertices } of holes) {
    yield patches.length / holes.length;
    const rim = new Float64Array(3 * vertices.length);
    // The patch lies on the other side of the rim's edges, so it runs along them the other way.
    const turned = vertices.toReversed();
    turned.forEach((v, i) => {
      for (let k = 0; k < 3; k++) rim[3 * i + k] = mesh.positions[3 * v + k]!;
    });
    const { inner, triangles } = fillLoop(rim);
    const first = vertexCount;
    vertexCount += inner.length / 3;
    const placed = triangles.map((v) => (v < turned.length ? turned[v]! : first + v - turned.length));
    patches.push({ inner, placed });
  }
  const addedCorners = patches.reduce((sum, { placed }) => sum + placed.length, 0);
  const positions = new Float64Array(3 * vertexCount);
  const triangles = new Uint32Array(mesh.triangles.length + addedCorners);
  positions.set(mesh.positions);
  triangles.set(mesh.triangles);
  let position = mesh.positions.length;
  let corner = mesh.triangles.length;
  for (const { inner, placed } of patches) {
    positions.set(inner, position);
    triangles.set(placed, corner);
    position += inner.length;
    corner += placed.length;
  }
  return {
    mesh: { positions, triangles },
    addedCounts: patches.map(({ placed }) => placed.length / 3),
  };
}
