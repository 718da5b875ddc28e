import { prolong, prolongScalar } from '../equilibrium/prolongation.ts';
import type { ClothLevel, Garment } from '../garment/garment.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { vertexAreas } from '../mesh/vertex-areas.ts';

/** Where one level of a garment came to rest, told so that it means something on a garment laid elsewhere too. */
export interface LevelRest {
  /** From where it was laid; 3*V, m. */
  readonly shift: Float64Array;
  /** How hard it pressed; V, Pa. */
  readonly pressure: Float64Array;
}

/** The rest of a level from where its vertices came to lie and how hard each was pressed (N). */
export function levelRest(
  { positions: laid, triangles }: TriangleMesh,
  positions: Float64Array,
  normalForce: Float64Array,
): LevelRest {
  const areas = vertexAreas({ positions, triangles });
  return {
    shift: positions.map((x, i) => x - laid[i]!),
    pressure: normalForce.map((force, v) => force / areas[v]!),
  };
}

/** Positions and normal forces to start a search with. */
export function startOf(
  { positions: laid, triangles }: TriangleMesh,
  { shift, pressure }: LevelRest,
): { start: Float64Array; startNormalForce: Float64Array } {
  const start = shift.map((moved, i) => laid[i]! + moved);
  const areas = vertexAreas({ positions: start, triangles });
  return { start, startNormalForce: pressure.map((pascals, v) => Math.max(0, pascals) * areas[v]!) };
}

/**
 * Where a level may be expected to rest: where it rested before, and as much farther as the next coarser level went.
 * Laid cloth that never rested counts as having rested where it was laid.
 *
 * (Carrying the coarser positions themselves would cut every corner of the body; carrying what they moved does not.)
 */
export function expectedRest(
  level: ClothLevel,
  before: LevelRest | undefined,
  coarser: { readonly now: LevelRest; readonly before: LevelRest | undefined },
): LevelRest {
  const pressure = prolongScalar(level, change(coarser.now.pressure, coarser.before?.pressure));
  const shift = new Float64Array(3 * pressure.length);
  prolong(level, change(coarser.now.shift, coarser.before?.shift), shift);
  if (!before) return { shift, pressure };
  return {
    shift: shift.map((moved, i) => moved + before.shift[i]!),
    pressure: pressure.map((pascals, v) => pascals + before.pressure[v]!),
  };
}

const change = (now: Float64Array, before: Float64Array | undefined): Float64Array =>
  before ? now.map((value, i) => value - before[i]!) : now;

/** Two garments, and a level of both told from the finest (0). */
export interface Carry {
  readonly from: Garment;
  readonly to: Garment;
  readonly coarser: number;
}

/** A rest of one tube's level as a rest of another's. */
export const carriedRest = ({ shift, pressure }: LevelRest, carry: Carry): LevelRest => ({
  shift: carriedOver(shift, 3, carry),
  pressure: carriedOver(pressure, 1, carry),
});

/** Whether the rests of one garment mean something on the other: tubes always; garments of panels where their meshes agree. */
export function canCarry({ from, to, coarser }: Carry): boolean {
  if (from.rings.length > 0 && to.rings.length > 0) return true;
  const countOf = ({ levels }: Garment) => levels[levels.length - 1 - coarser]?.mesh.positions.length;
  return from.rings.length === to.rings.length && countOf(from) === countOf(to);
}

/** How many rings and columns a level of a tube has; the last is the finest. */
const gridOf = ({ levels, rings, columnCount }: Garment, level: number) => {
  const part = 2 ** (levels.length - 1 - level);
  return { rows: (rings.length - 1) / part, columns: columnCount / part };
};

/**
 * A quantity of one tube read at the vertices of another: at the same share of the way round and from hem to hem,
 * interpolated straight between the four vertices about it.
 *
 * @param width - Numbers per vertex.
 */
export function carriedOver(values: Float64Array, width: number, { from, to, coarser }: Carry): Float64Array {
  const old = gridOf(from, from.levels.length - 1 - coarser);
  const now = gridOf(to, to.levels.length - 1 - coarser);
  if (old.rows === now.rows && old.columns === now.columns) return values;
  const columns = shares(now.columns, now.columns, old.columns);
  const into = new Float64Array((now.rows + 1) * now.columns * width);
  let i = 0;
  for (const row of shares(now.rows + 1, now.rows, old.rows)) {
    const lower = row.index * old.columns;
    const upper = Math.min(row.index + 1, old.rows) * old.columns;
    for (const column of columns) {
      const next = (column.index + 1) % old.columns;
      for (let k = 0; k < width; k++) {
        const at = (v: number) => values[v * width + k]!;
        const low = mix(at(lower + column.index), at(lower + next), column.share);
        const high = mix(at(upper + column.index), at(upper + next), column.share);
        into[i++] = mix(low, high, row.share);
      }
    }
  }
  return into;
}

const mix = (one: number, other: number, share: number): number => one + (other - one) * share;

/** Where `count` points, `parts` of which make the whole way, lie among `oldParts` on the same way. */
function shares(count: number, parts: number, oldParts: number): { index: number; share: number }[] {
  return Array.from({ length: count }, (_, i) => {
    const at = (i * oldParts) / parts;
    return { index: Math.floor(at), share: at - Math.floor(at) };
  });
}
