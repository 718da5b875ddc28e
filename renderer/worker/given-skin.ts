import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import { cellsOf, forEachNear, type PointCells } from './point-cells.ts';
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
  /** The skin as it lies under this cloth, bulges included, where that is known; 3·(vertices of the skin), m. */
  readonly movedSkin?: Float64Array | undefined;
}

/**
 * The skin as it is drawn under worn cloth, so that the form looks as it does when worn and never pokes through.
 *
 * Where it is known how the skin lies, it lies so. Else each skin vertex near the cloth moves against its normal by the
 * mean give of the cloth within reach, weighted by (1 - r²/R²)³. Either way it keeps a little clear of the cloth; the
 * clearance fades out over the reach beyond a hem.
 *
 * @returns 3·(vertices of the skin), m.
 */
export function givenSkin(skin: TriangleMesh, cloth: PressingCloth): Float64Array {
  const { positions, vertexArea, distance, movedSkin } = cloth;
  const normals = vertexNormals(skin);
  const area = vertexArea.reduce((sum, share) => sum + share, 0);
  const spacing = Math.sqrt(area / vertexArea.length);
  const reach = Math.max(LEAST_REACH, REACH_IN_SPACINGS * spacing);
  // The integral of (1 - r²/R²)³ over the disc is pi R²/4.
  const fullWeight = (Math.PI * reach * reach) / (4 * spacing * spacing);
  const near = { distance, fullWeight, cells: cellsOf(positions, reach) };
  const given = (movedSkin ?? skin.positions).slice();
  for (let v = 0; v < given.length; v += 3) {
    const { depth, cover } = giveAt(movedSkin ?? skin.positions, v, near);
    if (cover === 0) continue;
    const move = (movedSkin ? 0 : depth) + CLEARANCE * Math.min(1, cover);
    for (let k = 0; k < 3; k++) given[v + k]! -= move * normals[v + k]!;
  }
  return given;
}

interface NearCloth {
  readonly distance: Float64Array;
  readonly fullWeight: number;
  readonly cells: PointCells;
}

const NOWHERE = { depth: 0, cover: 0 } as const;

/** Mean give around a point, and how well cloth covers it (1 and more: fully). */
function giveAt(
  positions: Float64Array,
  v: number,
  { distance, cells, fullWeight }: NearCloth,
): { depth: number; cover: number } {
  let weights = 0;
  let sum = 0;
  forEachNear(cells, [positions[v]!, positions[v + 1]!, positions[v + 2]!], (c, share) => {
    const weight = (1 - share) ** 3;
    weights += weight;
    sum += weight * Math.max(0, -distance[c]!);
  });
  return weights === 0 ? NOWHERE : fadeOut(sum / weights, weights / fullWeight);
}

/** Where less weight is in reach than at a hem, the point lies beyond it: the give runs out there. */
function fadeOut(depth: number, weightShare: number): { depth: number; cover: number } {
  const share = Math.min(1, weightShare / COVERED_FROM);
  const cover = share * share * (3 - 2 * share);
  return { depth: depth * cover, cover };
}
