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
  const inDisc: number[] = [];
  const cells = cellsOf(positions, counted);
  for (let v = 0; v < counted.length; v++) {
    if (counted[v] === 0) continue;
    inDisc.length = 0;
    let area = 0;
    for (const cell of cells.around(v)) {
      for (let i = cells.start[cell]!; i < cells.start[cell + 1]!; i++) {
        const other = cells.list[i]!;
        if (distanceSquared(positions, v, other) > RADIUS * RADIUS) continue;
        area += areas[other]!;
        inDisc.push(other);
      }
    }
    quantities.forEach((quantity, q) => {
      let sum = 0;
      for (const other of inDisc) sum += quantity[other]! * areas[other]!;
      means[q]![v] = sum / area;
    });
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
  /** The cubes in and about that of a vertex; the same array every time. */
  readonly around: (v: number) => Uint32Array;
}

function cellsOf(positions: Float64Array, counted: Uint8Array): Cells {
  const least = [0, 1, 2].map((k) => extreme(positions, k, Math.min));
  const reach = [0, 1, 2].map((k) => extreme(positions, k, Math.max) - least[k]!);
  const width = Math.max(RADIUS, Math.max(...reach) / MOST_CELLS);
  // One empty cube on every side.
  const low = least.map((value) => value - 1.5 * width);
  const counts = reach.map((value) => Math.ceil(value / width) + 4);
  const cellOf = (v: number): number => {
    let cell = 0;
    for (let k = 0; k < 3; k++) {
      cell = cell * counts[k]! + Math.floor((positions[3 * v + k]! - low[k]!) / width);
    }
    return cell;
  };
  const start = new Uint32Array(counts[0]! * counts[1]! * counts[2]! + 1);
  const inCell = Uint32Array.from(counted, (counts, v) => (counts === 0 ? 0 : cellOf(v)));
  counted.forEach((counts, v) => {
    if (counts !== 0) start[inCell[v]! + 1]!++;
  });
  for (let cell = 1; cell < start.length; cell++) start[cell]! += start[cell - 1]!;
  const next = start.slice();
  const list = new Uint32Array(start.at(-1)!);
  counted.forEach((counts, v) => {
    if (counts !== 0) list[next[inCell[v]!]!++] = v;
  });
  const away: number[] = [];
  for (let i = -1; i <= 1; i++) {
    for (let j = -1; j <= 1; j++) {
      for (let k = -1; k <= 1; k++) away.push((i * counts[1]! + j) * counts[2]! + k);
    }
  }
  const cubes = new Uint32Array(away.length);
  return {
    start,
    list,
    around: (v) => {
      for (let i = 0; i < away.length; i++) cubes[i] = inCell[v]! + away[i]!;
      return cubes;
    },
  };
}

/** Least or greatest of one coordinate. */
function extreme(positions: Float64Array, k: number, of: (a: number, b: number) => number): number {
  let found = positions[k]!;
  for (let i = k; i < positions.length; i += 3) found = of(found, positions[i]!);
  return found;
}

function distanceSquared(positions: Float64Array, a: number, b: number): number {
  const x = positions[3 * a]! - positions[3 * b]!;
  const y = positions[3 * a + 1]! - positions[3 * b + 1]!;
  const z = positions[3 * a + 2]! - positions[3 * b + 2]!;
  return x * x + y * y + z * z;
}
