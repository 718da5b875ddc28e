import { normalForceAt, SAMPLE_SIZE, type Contact } from './contact-force.ts';

/** Slip over which friction builds up from nothing to its full size, m; a tenth of a millimetre is felt by nobody. */
export const SLIP_FOR_FULL_FRICTION = 1e-4;

/** Coulomb friction of one level, with the normal forces of an earlier moment (lagged). */
export interface Friction {
  readonly coefficient: number;
  /** Where each vertex was laid and would stay if it could; 3*V, m. */
  readonly anchor: Float64Array;
  /** N; V. */
  readonly normalForce: Float64Array;
  /** Skin normal, 3*V. */
  readonly normal: Float64Array;
}

/**
 * Takes normal forces and normals from the latest contact.
 *
 * @returns How much the normal forces changed: sum |dN| / sum N.
 */
export function lagFriction(friction: Friction, contact: Contact): number {
  const { normalForce } = friction;
  let change = 0;
  let total = 0;
  for (let v = 0; v < normalForce.length; v++) {
    lagNormal(friction, contact, v);
    const now = normalForceAt(contact, v);
    change += Math.abs(now - normalForce[v]!);
    total += now;
    normalForce[v] = now;
  }
  return total > 0 ? change / total : 0;
}

/** Takes the normal of one vertex from the latest contact. */
export function lagNormal({ normal }: Friction, { samples }: Contact, v: number): void {
  const s = SAMPLE_SIZE * v;
  const nx = samples[s + 1]!;
  const ny = samples[s + 2]!;
  const nz = samples[s + 3]!;
  const slope = Math.sqrt(nx * nx + ny * ny + nz * nz);
  const scale = slope > 0 ? 1 / slope : 0;
  normal[3 * v] = nx * scale;
  normal[3 * v + 1] = ny * scale;
  normal[3 * v + 2] = nz * scale;
}

/**
 * Smoothed Coulomb friction as an energy: E = sum of mu N f(y), y = |u_t|, u_t the way from the anchor along the skin;
 * f = y^2/e - y^3/(3 e^2) + e/3 for y < e, else y. Its slope f' = 2 y/e - y^2/e^2 never passes 1, so that the friction
 * never passes mu N.
 *
 * @param into - `gradient` (3*V, N) is added to.
 * @returns The energy, J.
 * @see Li et al., Incremental potential contact, ACM TOG 39 (2020), eq. (14)-(16).
 */
export function addFrictionGradient(
  friction: Friction,
  positions: Float64Array,
  into: { gradient: Float64Array },
): number {
  const { coefficient, anchor, normalForce, normal } = friction;
  const e = SLIP_FOR_FULL_FRICTION;
  const { gradient } = into;
  let energy = 0;
  for (let v = 0; v < normalForce.length; v++) {
    const limit = coefficient * normalForce[v]!;
    if (limit === 0) continue;
    const i = 3 * v;
    const nx = normal[i]!;
    const ny = normal[i + 1]!;
    const nz = normal[i + 2]!;
    let ux = positions[i]! - anchor[i]!;
    let uy = positions[i + 1]! - anchor[i + 1]!;
    let uz = positions[i + 2]! - anchor[i + 2]!;
    const along = ux * nx + uy * ny + uz * nz;
    ux -= along * nx;
    uy -= along * ny;
    uz -= along * nz;
    const y = Math.sqrt(ux * ux + uy * uy + uz * uz);
    const held = y < e;
    energy += limit * (held ? (y * y) / e - (y * y * y) / (3 * e * e) + e / 3 : y);
    // f'(y) / y, finite at y = 0.
    const pull = limit * (held ? (2 - y / e) / e : 1 / y);
    gradient[i]! += pull * ux;
    gradient[i + 1]! += pull * uy;
    gradient[i + 2]! += pull * uz;
  }
  return energy;
}

/**
 * Adds d2E/dx2 = mu N (f'' t t' + (f'/y) (I - n n' - t t')), t = u_t / y; never negative.
 *
 * @param values - 9*B, added to.
 */
export function addFrictionStiffness(
  { coefficient, anchor, normalForce, normal }: Friction,
  positions: Float64Array,
  diagonal: Uint32Array,
  values: Float64Array,
): void {
  const e = SLIP_FOR_FULL_FRICTION;
  const n = new Float64Array(3);
  const u = new Float64Array(3);
  for (let v = 0; v < normalForce.length; v++) {
    const limit = coefficient * normalForce[v]!;
    if (limit === 0) continue;
    let along = 0;
    for (let k = 0; k < 3; k++) {
      n[k] = normal[3 * v + k]!;
      u[k] = positions[3 * v + k]! - anchor[3 * v + k]!;
      along += u[k]! * n[k]!;
    }
    for (let k = 0; k < 3; k++) u[k]! -= along * n[k]!;
    const y = Math.sqrt(u[0]! ** 2 + u[1]! ** 2 + u[2]! ** 2);
    const held = y < e;
    const across = limit * (held ? (2 - y / e) / e : 1 / y);
    const onward = limit * (held ? (2 - (2 * y) / e) / e : 0);
    const bend = y > 0 ? (onward - across) / (y * y) : 0;
    const at = 9 * diagonal[v]!;
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        values[at + 3 * i + j]! += across * ((i === j ? 1 : 0) - n[i]! * n[j]!) + bend * u[i]! * u[j]!;
      }
    }
  }
}
