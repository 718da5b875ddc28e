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
  const radius = DISC_DIAMETER / 2;
  const cells = new Map<string, number[]>();
  const cellOf = (v: number, k: number) => Math.floor(positions[3 * v + k]! / radius);
  counted.forEach((counts, v) => {
    if (counts === 0) return;
    const key = `${cellOf(v, 0)},${cellOf(v, 1)},${cellOf(v, 2)}`;
    const cell = cells.get(key);
    if (cell) cell.push(v);
    else cells.set(key, [v]);
  });
  const means = quantities.map(() => new Float64Array(counted.length));
  const inDisc: number[] = [];
  counted.forEach((counts, v) => {
    if (counts === 0) return;
    inDisc.length = 0;
    let area = 0;
    for (let i = -1; i <= 1; i++) {
      for (let j = -1; j <= 1; j++) {
        for (let k = -1; k <= 1; k++) {
          const key = `${cellOf(v, 0) + i},${cellOf(v, 1) + j},${cellOf(v, 2) + k}`;
          for (const other of cells.get(key) ?? []) {
            if (distanceSquared(positions, v, other) > radius * radius) continue;
            area += areas[other]!;
            inDisc.push(other);
          }
        }
      }
    }
    for (let q = 0; q < quantities.length; q++) {
      let sum = 0;
      for (const other of inDisc) sum += quantities[q]![other]! * areas[other]!;
      means[q]![v] = sum / area;
    }
  });
  return means;
}

function distanceSquared(positions: Float64Array, a: number, b: number): number {
  const x = positions[3 * a]! - positions[3 * b]!;
  const y = positions[3 * a + 1]! - positions[3 * b + 1]!;
  const z = positions[3 * a + 2]! - positions[3 * b + 2]!;
  return x * x + y * y + z * z;
}
