import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import { vertexNormals } from './vertex-normals.ts';

/** Radius over which the cloth's give is averaged onto the skin, m. */
const REACH = 0.026;
/** Weight in reach of a point right under a hem, at the usual spacing of 6 to 8 mm. */
const FULL_COVER = 3;
/** Extra depth under the cloth so that neither mesh's facets come through the other, m. */
const CLEARANCE = 0.0015;

/**
 * The skin moved in where cloth presses, so that the form is drawn as it looks when worn and never pokes through.
 *
 * Each skin vertex near the cloth moves against its normal by the mean give of the cloth within reach, weighted by
 * (1 - r²/R²)³; the clearance fades out over the reach beyond a hem.
 *
 * @param cloth - Worn cloth, 3·V, m.
 * @param distance - Signed distance of the cloth from the undeformed skin, V, m.
 * @returns 3·(vertices of the skin), m.
 */
export function givenSkin(skin: TriangleMesh, cloth: Float64Array, distance: Float64Array): Float64Array {
  const normals = vertexNormals(skin);
  const cells = cellsOf(cloth);
  const given = skin.positions.slice();
  for (let v = 0; v < given.length; v += 3) {
    const { depth, cover } = giveAt(skin.positions, v, { cloth, distance, cells });
    if (cover === 0) continue;
    const move = depth + CLEARANCE * Math.min(1, cover);
    for (let k = 0; k < 3; k++) given[v + k]! -= move * normals[v + k]!;
  }
  return given;
}

interface ClothCells {
  readonly cloth: Float64Array;
  readonly distance: Float64Array;
  readonly cells: ReadonlyMap<string, readonly number[]>;
}

/** Mean give around a point, and how well cloth covers it (1 and more: fully). */
function giveAt(
  positions: Float64Array,
  v: number,
  { cloth, distance, cells }: ClothCells,
): { depth: number; cover: number } {
  const [x, y, z] = [positions[v]!, positions[v + 1]!, positions[v + 2]!];
  let weights = 0;
  let sum = 0;
  for (const key of keysAround(x, y, z)) {
    for (const c of cells.get(key) ?? []) {
      const r2 = (cloth[3 * c]! - x) ** 2 + (cloth[3 * c + 1]! - y) ** 2 + (cloth[3 * c + 2]! - z) ** 2;
      if (r2 >= REACH * REACH) continue;
      const weight = (1 - r2 / (REACH * REACH)) ** 3;
      weights += weight;
      sum += weight * Math.max(0, -distance[c]!);
    }
  }
  return weights === 0 ? { depth: 0, cover: 0 } : fadeOut(sum / weights, weights);
}

/** Where less weight is in reach than at a hem, the point lies beyond it: the give runs out there. */
function fadeOut(depth: number, weights: number): { depth: number; cover: number } {
  const share = Math.min(1, weights / FULL_COVER);
  const cover = share * share * (3 - 2 * share);
  return { depth: depth * cover, cover };
}

const cellOf = (coordinate: number): number => Math.floor(coordinate / REACH);

function cellsOf(points: Float64Array): Map<string, number[]> {
  const cells = new Map<string, number[]>();
  for (let c = 0; c < points.length / 3; c++) {
    const key = `${cellOf(points[3 * c]!)},${cellOf(points[3 * c + 1]!)},${cellOf(points[3 * c + 2]!)}`;
    const cell = cells.get(key);
    if (cell === undefined) cells.set(key, [c]);
    else cell.push(c);
  }
  return cells;
}

function keysAround(x: number, y: number, z: number): readonly string[] {
  const keys: string[] = [];
  for (let i = -1; i <= 1; i++) {
    for (let j = -1; j <= 1; j++) {
      for (let k = -1; k <= 1; k++) keys.push(`${cellOf(x) + i},${cellOf(y) + j},${cellOf(z) + k}`);
    }
  }
  return keys;
}
