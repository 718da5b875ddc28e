import type { DistanceField } from '../body/distance-field.ts';
import type { Finding } from '../fault/finding.ts';
import { Fault } from '../fault/fault.ts';
import { vertexNormals } from '../mesh/triangle-areas.ts';
import { vertexAreas } from '../mesh/vertex-areas.ts';
import { mmFromMetres } from '../units/units.ts';
import { BURIED, buriedVertices, clothOverSkin } from './buried-vertices.ts';
import { carryLevel } from './carry-level.ts';
import { isDrawnApart } from './drawn-apart.ts';
import { evenPatch } from './even-patch.ts';
import type { ClothLevel } from './garment.ts';
import { pushOut } from './push-out.ts';
import { skinUnder } from './skin-under.ts';
import { inwardTriangles, turnTriangles } from './turn-outward.ts';

/** Cloth that lies outside its body and faces outwards, and what was done to it. */
export interface ClearCloth {
  /** The very levels that were given where nothing was to be done. */
  readonly levels: readonly ClothLevel[];
  readonly findings: readonly Finding[];
}

/** Cloth of which more than this share lies deeper than this (m) was laid somewhere else than on the skin. */
const INSIDE = { percent: 60, depth: 0.01 };
/** What may stay buried after all pushing: single corners in a crease, which the search for rest brings out. */
const LEFT_PERCENT = 1;

/**
 * Makes cloth as it was laid fit to be settled: pieces that lie inside out are turned, what starts buried in the skin is
 * brought out of it (as a whole where it lies beside its place, by pushing where not), and the triangles round the pushed
 * ones are evened. Clear cloth comes back as it is, for one look at the skin under each vertex.
 *
 * Unstretched shapes stay as they are; so does where each coarse vertex has its twin on the finer levels.
 *
 * @param levels - Coarsest first; not changed.
 * @throws {Fault} `garment/lies-nowhere` at the first vertex that is no place near a body; `garment/inside-body` where most
 *   of the cloth lies inside the body, or no way leads out of it.
 */
export function clearOfBody(levels: readonly ClothLevel[], skin: DistanceField): ClearCloth {
  const laid = levels.at(-1)!.mesh;
  const under = skinUnder(laid.positions, skin);
  const inward = inwardTriangles(laid, under);
  const outward = inward ? levels.map((level) => facingOut(level, skin)) : levels;
  const findings: Finding[] = inward
    ? [{ code: 'garment/turned', facts: { sharePercent: 100 * inward.share } }]
    : [];
  if (!under.distance.some((distance) => distance < -BURIED)) return { levels: outward, findings };
  const finest = outward.at(-1)!;
  const isBuried = buriedVertices(
    { positions: laid.positions, faces: vertexNormals(finest.mesh), under },
    skin,
  );
  if (!isBuried) return { levels: outward, findings };
  const areas = vertexAreas(laid);
  const percentOf = (isCounted: (v: number) => boolean): number => 100 * shareOf(areas, isCounted);
  const depthMm = mmFromMetres(
    -under.distance.reduce((low, d, v) => (isBuried[v] ? Math.min(low, d) : low), 0),
  );
  const sharePercent = percentOf((v) => isBuried[v] === 1);
  const isInside = (v: number): boolean => isBuried[v] === 1 && under.distance[v]! < -INSIDE.depth;
  if (percentOf(isInside) > INSIDE.percent) throw new Fault('garment/inside-body', { sharePercent, depthMm });
  const positions = broughtOut(finest, areas, skin);
  const left = positions && buriedVertices(clothOverSkin({ ...finest.mesh, positions }, skin), skin);
  if (!positions || (left && percentOf((v) => left[v] === 1) > LEFT_PERCENT)) {
    throw new Fault('garment/inside-body', { sharePercent, depthMm });
  }
  findings.push({ code: 'garment/pushed-out', facts: { sharePercent, depthMm } });
  return { levels: movedLevels(outward, positions), findings };
}

function facingOut(level: ClothLevel, skin: DistanceField): ClothLevel {
  const inward = inwardTriangles(level.mesh, skinUnder(level.mesh.positions, skin));
  return inward ? turnTriangles(level, inward.turned) : level;
}

/**
 * The finest level's positions outside the body: carried there as a whole if that will do, and pushed out where not; null
 * where pushing would draw the cloth apart.
 */
function broughtOut(level: ClothLevel, areas: Float64Array, skin: DistanceField): Float64Array | null {
  const carried = carryLevel(level.mesh, areas, skin);
  const laid = carried ? { ...level, mesh: { ...level.mesh, positions: carried } } : level;
  const pushed = evenPatch(laid, pushOut(laid, skin), skin);
  return isDrawnApart(laid.mesh, pushed) ? null : pushed;
}

function shareOf(areas: Float64Array, isCounted: (v: number) => boolean): number {
  const total = areas.reduce((sum, area) => sum + area, 0);
  return total > 0 ? areas.reduce((sum, area, v) => (isCounted(v) ? sum + area : sum), 0) / total : 0;
}

/** All levels with the finest one's vertices moved: each coarse vertex goes where its twin on the finer level went. */
function movedLevels(levels: readonly ClothLevel[], finest: Float64Array): ClothLevel[] {
  const moved: ClothLevel[] = [];
  let positions = finest;
  for (let l = levels.length - 1; l >= 0; l--) {
    const level = levels[l]!;
    moved.unshift({ ...level, mesh: { ...level.mesh, positions } });
    if (l === 0) break;
    const coarse = levels[l - 1]!.mesh.positions.slice();
    for (let v = 0; 3 * v < positions.length; v++) {
      const twin = twinOf(level, v);
      if (twin >= 0) coarse.set(positions.subarray(3 * v, 3 * v + 3), 3 * twin);
    }
    positions = coarse;
  }
  return moved;
}

/** The coarse vertex that a fine one coincides with; -1 for none. */
function twinOf({ parents, parentWeights }: ClothLevel, v: number): number {
  if (!parentWeights) return parents[2 * v] === parents[2 * v + 1] ? parents[2 * v]! : -1;
  for (let k = 0; k < 3; k++) if (parentWeights[3 * v + k]! > 1 - 1e-12) return parents[3 * v + k]!;
  return -1;
}
