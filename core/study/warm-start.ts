import type { Equilibrium, EquilibriumProblem } from '../equilibrium/equilibrium.ts';
import type { Garment } from '../garment/garment.ts';
import { vertexAreas } from '../mesh/vertex-areas.ts';
import { isKnitAlike } from './lay-cloth.ts';
import type { LaidCloth } from './standing-study.ts';

/** Where a garment rested before something was changed. */
export interface Rest {
  readonly cloth: LaidCloth;
  readonly equilibrium: Equilibrium;
}

/** Where to start the search from, and with which normal forces. */
export type WarmStart = Required<Pick<EquilibriumProblem, 'start' | 'startNormalForce'>>;

/**
 * Starts the search from where the cloth rested before: as it is laid now, moved by what it had moved before at the same
 * place of the garment, and pressed as hard.
 */
export function warmStart({ garment }: LaidCloth, { cloth, equilibrium }: Rest): WarmStart {
  const { positions, normalForce } = equilibrium;
  const before = cloth.garment;
  if (garment === before) return { start: positions, startNormalForce: normalForce };
  const { mesh } = garment.levels.at(-1)!;
  const old = before.levels.at(-1)!.mesh;
  const read = placeReader(garment, before);
  const shift = read(
    positions.map((x, i) => x - old.positions[i]!),
    3,
  );
  const areas = vertexAreas(old);
  const pressure = read(
    normalForce.map((force, v) => force / areas[v]!),
    1,
  );
  const areasNow = vertexAreas(mesh);
  return {
    start: shift.map((moved, i) => moved + mesh.positions[i]!),
    startNormalForce: pressure.map((pascals, v) => pascals * areasNow[v]!),
  };
}

/**
 * Reads quantities of one tube at the vertices of another: at the same share of the way round and of the way from hem
 * to hem, interpolated straight between the four vertices about it.
 */
function placeReader(to: Garment, from: Garment): (values: Float64Array, width: number) => Float64Array {
  if (isKnitAlike(to, from)) return (values) => values;
  const columns = shares(to.columnCount, to.columnCount, from.columnCount);
  const rows = shares(to.rings.length, to.rings.length - 1, from.rings.length - 1);
  return (values, width) => {
    const into = new Float64Array(to.rings.length * to.columnCount * width);
    let i = 0;
    for (const row of rows) {
      const above = Math.min(row.index + 1, from.rings.length - 1);
      for (const column of columns) {
        const next = (column.index + 1) % from.columnCount;
        const at = (r: number, c: number, k: number) => values[(r * from.columnCount + c) * width + k]!;
        for (let k = 0; k < width; k++) {
          const low = mix(at(row.index, column.index, k), at(row.index, next, k), column.share);
          const high = mix(at(above, column.index, k), at(above, next, k), column.share);
          into[i++] = mix(low, high, row.share);
        }
      }
    }
    return into;
  };
}

const mix = (one: number, other: number, share: number): number => one + (other - one) * share;

/** Where `count` points, `parts` of which make the whole way, lie among `oldParts` on the same way. */
function shares(count: number, parts: number, oldParts: number): { index: number; share: number }[] {
  return Array.from({ length: count }, (_, i) => {
    const at = (i * oldParts) / parts;
    return { index: Math.floor(at), share: at - Math.floor(at) };
  });
}
