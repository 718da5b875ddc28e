import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import { vertexNormals } from './vertex-normals.ts';

/** Radius over which the cloth's give is averaged onto the skin: so many times the cloth's spacing, but no less than in m. */
const REACH_IN_SPACINGS = 3;
const LEAST_REACH = 0.024;
/** Share of the weight in reach of a point well under the cloth from which it counts as covered; at a hem it is half. */
const COVERED_FROM = 0.4;
/** Extra depth under the cloth so that neither mesh's facets come through the other, m. */
const CLEARANCE = 0.0015;

/** Worn cloth and how far it stands off the undeformed skin, SI. */
export interface PressingCloth {
  /** 3·V. */
  readonly positions: Float64Array;
  /** V. */
  readonly vertexArea: Float64Array;
  /** Signed: negative where the flesh has given way; V. */
  readonly distance: Float64Array;
}

/**
 * The skin moved in where cloth presses, so that the form is drawn as it looks when worn and never pokes through.
 *
 * Each skin vertex near the cloth moves against its normal by the mean give of the cloth within reach, weighted by
 * (1 - r²/R²)³; the clearance fades out over the reach beyond a hem.
 *
 * @returns 3·(vertices of the skin), m.
 */
export function givenSkin(
  skin: TriangleMesh,
  { positions, vertexArea, distance }: PressingCloth,
): Float64Array {
  const normals = vertexNormals(skin);
  const area = vertexArea.reduce((sum, share) => sum + share, 0);
  const spacing = Math.sqrt(area / vertexArea.length);
  const reach = Math.max(LEAST_REACH, REACH_IN_SPACINGS * spacing);
  // The integral of (1 - r²/R²)³ over the disc is pi R²/4.
  const fullWeight = (Math.PI * reach * reach) / (4 * spacing * spacing);
  const cells = { cloth: positions, distance, reach, fullWeight, cells: cellsOf(positions, reach) };
  const given = skin.positions.slice();
  for (let v = 0; v < given.length; v += 3) {
    const { depth, cover } = giveAt(skin.positions, v, cells);
    if (cover === 0) continue;
    const move = depth + CLEARANCE * Math.min(1, cover);
    for (let k = 0; k < 3; k++) given[v + k]! -= move * normals[v + k]!;
  }
  return given;
}

interface ClothCells {
  readonly cloth: Float64Array;
  readonly distance: Float64Array;
  readonly reach: number;
  readonly fullWeight: number;
  readonly cells: ReadonlyMap<string, readonly number[]>;
}

/** Mean give around a point, and how well cloth covers it (1 and more: fully). */
function giveAt(
  positions: Float64Array,
  v: number,
  { cloth, distance, cells, reach, fullWeight }: ClothCells,
): { depth: number; cover: number } {
  const [x, y, z] = [positions[v]!, positions[v + 1]!, positions[v + 2]!];
  let weights = 0;
  let sum = 0;
  for (const key of keysAround([x, y, z], reach)) {
    for (const c of cells.get(key) ?? []) {
      const r2 = (cloth[3 * c]! - x) ** 2 + (cloth[3 * c + 1]! - y) ** 2 + (cloth[3 * c + 2]! - z) ** 2;
      if (r2 >= reach * reach) continue;
      const weight = (1 - r2 / (reach * reach)) ** 3;
      weights += weight;
      sum += weight * Math.max(0, -distance[c]!);
    }
  }
  return weights === 0 ? { depth: 0, cover: 0 } : fadeOut(sum / weights, weights / fullWeight);
}

/** Where less weight is in reach than at a hem, the point lies beyond it: the give runs out there. */
function fadeOut(depth: number, weightShare: number): { depth: number; cover: number } {
  const share = Math.min(1, weightShare / COVERED_FROM);
  const cover = share * share * (3 - 2 * share);
  return { depth: depth * cover, cover };
}

const keyOf = (i: number, j: number, k: number): string => `${i},${j},${k}`;

function cellsOf(points: Float64Array, size: number): Map<string, number[]> {
  const cells = new Map<string, number[]>();
  for (let c = 0; c < points.length / 3; c++) {
    const key = keyOf(
      Math.floor(points[3 * c]! / size),
      Math.floor(points[3 * c + 1]! / size),
      Math.floor(points[3 * c + 2]! / size),
    );
    const cell = cells.get(key);
    if (cell === undefined) cells.set(key, [c]);
    else cell.push(c);
  }
  return cells;
}

function keysAround(point: readonly [number, number, number], size: number): readonly string[] {
  const [x, y, z] = point.map((coordinate) => Math.floor(coordinate / size));
  const keys: string[] = [];
  for (let i = -1; i <= 1; i++) {
    for (let j = -1; j <= 1; j++) {
      for (let k = -1; k <= 1; k++) keys.push(keyOf(x! + i, y! + j, z! + k));
    }
  }
  return keys;
}
