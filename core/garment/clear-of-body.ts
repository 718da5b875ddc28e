import type { DistanceField } from '../body/distance-field.ts';
import type { Finding } from '../fault/finding.ts';
import { Fault } from '../fault/fault.ts';
import { vertexAreas } from '../mesh/vertex-areas.ts';
import { mmFromMetres } from '../units/units.ts';
import { carryLevel } from './carry-level.ts';
import { evenPatch } from './even-patch.ts';
import type { ClothLevel } from './garment.ts';
import { pushOut } from './push-out.ts';
import { BURIED, skinUnder, type SkinUnder } from './skin-under.ts';
import { inwardTriangles, turnTriangles } from './turn-outward.ts';

/** Cloth that lies outside its body and faces outwards, and what was done to it. */
export interface ClearCloth {
  /** The very levels that were given where nothing was to be done. */
  readonly levels: readonly ClothLevel[];
  readonly findings: readonly Finding[];
}

/** Cloth of which more than this share lies deeper than this (m) was laid somewhere else than on the skin. */
const INSIDE = { share: 0.6, depth: 0.01 };
/** Share that may stay buried after all pushing: single corners in a crease, which the search for rest brings out. */
const LEFT_BURIED = 0.01;

/**
 * Makes cloth as it was laid fit to be settled: pieces that lie inside out are turned, what starts buried in the skin is
 * brought out of it (as a whole where it lies beside its place, by pushing where not), and the triangles round the pushed
 * ones are evened. Clear cloth comes back as it is, for one look at
 * the skin under each vertex.
 *
 * Unstretched shapes stay as they are; so does where each coarse vertex has its twin on the finer levels.
 *
 * @param levels - Coarsest first; not changed.
 * @throws {Fault} `garment/lies-nowhere` at the first vertex that is no place near a body; `garment/inside-body` where most
 *   of the cloth lies inside the body, or no way leads out of it.
 */
export function clearOfBody(levels: readonly ClothLevel[], skin: DistanceField): ClearCloth {
  const finest = levels.at(-1)!;
  const under = skinUnder(finest.mesh.positions, skin);
  const inward = inwardTriangles(finest.mesh, under);
  const isBuried = under.distance.some((distance) => distance < -BURIED);
  if (!inward && !isBuried) return { levels, findings: [] };
  const findings: Finding[] = [];
  let clear = levels;
  if (inward) {
    clear = levels.map((level, l) => {
      const ofLevel =
        l === levels.length - 1 ? inward : inwardTriangles(level.mesh, skinUnder(level.mesh.positions, skin));
      return ofLevel ? turnTriangles(level, ofLevel.turned) : level;
    });
    findings.push({ code: 'garment/turned', facts: { sharePercent: 100 * inward.share } });
  }
  if (!isBuried) return { levels: clear, findings };
  const areas = vertexAreas(finest.mesh);
  const sharePercent = 100 * shareBelow(under, areas, -BURIED);
  const depthMm = mmFromMetres(-least(under.distance));
  const inside = shareBelow(under, areas, -INSIDE.depth);
  if (inside > INSIDE.share) throw new Fault('garment/inside-body', { sharePercent: 100 * inside, depthMm });
  const positions = broughtOut(clear.at(-1)!, areas, skin);
  const left = shareBelow(skinUnder(positions, skin), areas, -BURIED);
  if (!(left <= LEFT_BURIED)) throw new Fault('garment/inside-body', { sharePercent: 100 * left, depthMm });
  findings.push({ code: 'garment/pushed-out', facts: { sharePercent, depthMm } });
  return { levels: movedLevels(clear, positions), findings };
}

/** The finest level's positions outside the body: carried there as a whole if that will do, and pushed out where not. */
function broughtOut(level: ClothLevel, areas: Float64Array, skin: DistanceField): Float64Array {
  const carried = carryLevel(level.mesh, areas, skin);
  const laid = carried ? { ...level, mesh: { ...level.mesh, positions: carried } } : level;
  return evenPatch(laid, pushOut(laid, skin), skin);
}

/** Share of the cloth whose signed distance lies below a value. */
function shareBelow({ distance }: SkinUnder, areas: Float64Array, value: number): number {
  let below = 0;
  let total = 0;
  areas.forEach((area, v) => {
    total += area;
    if (distance[v]! < value) below += area;
  });
  return total > 0 ? below / total : 0;
}

const least = (values: Float64Array): number => values.reduce((low, value) => Math.min(low, value), Infinity);

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
