import { triple } from '../mesh/triple.ts';

/** Width of the disc over which a worn pressure is averaged, m. A common sensor is 20 mm wide (common practice). */
export const DISC_DIAMETER = 0.02;

/** Where and how hard the cloth presses. */
export interface Contact {
  /** Settled positions, 3*V, m. */
  readonly positions: Float64Array;
  /** Cloth area that belongs to each vertex as worn, V, m^2. */
  readonly areas: Float64Array;
  /** Force of the body on the cloth, 3*V, N. */
  readonly force: Float64Array;
  /** Unit normal of the cloth, outward, 3*V. */
  readonly normals: Float64Array;
}

/**
 * Pressure on the skin: p = f_n / A, the normal part of the contact force over the vertex's worn area.
 *
 * @returns Pa; V. Zero off the skin.
 */
export function skinPressure({ areas, force, normals }: Contact): Float64Array {
  return areas.map((area, v) => {
    const normal =
      force[3 * v]! * normals[3 * v]! +
      force[3 * v + 1]! * normals[3 * v + 1]! +
      force[3 * v + 2]! * normals[3 * v + 2]!;
    return normal > 0 && area > 0 ? normal / area : 0;
  });
}

/**
 * Pressure averaged over a disc: the area-weighted mean over the vertices on the skin within half a disc's width.
 * Cloth off the skin is left out, so that a lift-off line is not smeared.
 *
 * @param pressure - Pa; V.
 * @returns Pa; V. Zero off the skin.
 */
export function discPressure(pressure: Float64Array, contact: Contact): Float64Array {
  const onSkin = Uint8Array.from(pressure, (value) => (value > 0 ? 1 : 0));
  return discMeans([pressure], onSkin, contact)[0]!;
}

/**
 * Several quantities averaged over the same discs.
 *
 * @param quantities - V each.
 * @param counted - 1 where a vertex takes part and gets a mean; V.
 * @returns V each. Zero where a vertex does not take part.
 */
export function discMeans(
  quantities: readonly Float64Array[],
  counted: Uint8Array,
  { positions, areas }: Pick<Contact, 'positions' | 'areas'>,
): Float64Array[] {
  const means = quantities.map(() => new Float64Array(counted.length));
  const { list, start, cellOf, rows } = cellsOf(positions, counted);
  const near = new Uint32Array(list.length);
  for (const v of list) {
    const x = positions[3 * v]!;
    const y = positions[3 * v + 1]!;
    const z = positions[3 * v + 2]!;
    const cell = cellOf(v);
    let count = 0;
    let area = 0;
    for (let row = 0; row < rows.length; row++) {
      const from = start[cell + rows[row]! - 1]!;
      const to = start[cell + rows[row]! + 2]!;
      for (let i = from; i < to; i++) {
        const other = list[i]!;
        const dx = positions[3 * other]! - x;
        const dy = positions[3 * other + 1]! - y;
        const dz = positions[3 * other + 2]! - z;
        if (dx * dx + dy * dy + dz * dz > RADIUS * RADIUS) continue;
        area += areas[other]!;
        near[count++] = other;
      }
    }
    for (let q = 0; q < quantities.length; q++) {
      const quantity = quantities[q]!;
      let sum = 0;
      for (let i = 0; i < count; i++) sum += quantity[near[i]!]! * areas[near[i]!]!;
      means[q]![v] = sum / area;
    }
  }
  return means;
}

const RADIUS = DISC_DIAMETER / 2;
/** Cubes along the longest side: cloth that flew apart must not ask for all the memory there is. */
const MOST_CELLS = 128;

/** Vertices sorted into cubes at least as wide as a disc's radius; a disc lies in its own cube and the 26 about it. */
interface Cells {
  /** Where each cube's vertices begin in `list`. */
  readonly start: Uint32Array;
  readonly list: Uint32Array;
  /** The cube that a vertex lies in. */
  readonly cellOf: (v: number) => number;
  /** From a cube to the middle one of each row of three in and about it; the three of a row follow each other. */
  readonly rows: Int32Array;
}

function cellsOf(positions: Float64Array, counted: Uint8Array): Cells {
  const least = [0, 1, 2].map((k) => extreme(positions, k, Math.min));
  const reach = [0, 1, 2].map((k) => extreme(positions, k, Math.max) - least[k]!);
  const width = Math.max(RADIUS, Math.max(...reach) / MOST_CELLS);
  // One empty cube on every side.
  const [lowX, lowY, lowZ] = triple((k) => least[k]! - 1.5 * width);
  const [countX, countY, countZ] = triple((k) => Math.ceil(reach[k]! / width) + 4);
  const cellOf = (v: number): number => {
    const i = Math.floor((positions[3 * v]! - lowX) / width);
    const j = Math.floor((positions[3 * v + 1]! - lowY) / width);
    return (i * countY + j) * countZ + Math.floor((positions[3 * v + 2]! - lowZ) / width);
  };
  const start = new Uint32Array(countX * countY * countZ + 1);
  for (let v = 0; v < counted.length; v++) if (counted[v] !== 0) start[cellOf(v) + 1]!++;
  for (let cell = 1; cell < start.length; cell++) start[cell]! += start[cell - 1]!;
  const next = start.slice();
  const list = new Uint32Array(start.at(-1)!);
  for (let v = 0; v < counted.length; v++) if (counted[v] !== 0) list[next[cellOf(v)]!++] = v;
  const rows = [-1, 0, 1].flatMap((i) => [-1, 0, 1].map((j) => (i * countY + j) * countZ));
  return { start, list, cellOf, rows: Int32Array.from(rows) };
}

/** Least or greatest of one coordinate. */
function extreme(positions: Float64Array, k: number, of: (a: number, b: number) => number): number {
  let found = positions[k]!;
  for (let i = k; i < positions.length; i += 3) found = of(found, positions[i]!);
  return found;
}
