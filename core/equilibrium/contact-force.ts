import type { DistanceField } from '../body/distance-field.ts';

/** Numbers the body gives per vertex: distance, gradient (3), Hessian xx, xy, xz, yy, yz, zz. */
export const SAMPLE_SIZE = 10;

/** The skin under the vertices of one level. */
export interface Contact {
  readonly body: DistanceField;
  /** Foundation stiffness, Pa/m; V. */
  readonly foundation: Float64Array;
  /** Cloth area each vertex stands for, m^2; V. Lagged: a fresh area within a step would make energy and force disagree. */
  readonly area: Float64Array;
  /** How far the skin has moved in under each vertex without its own press, m; V. */
  readonly offset: Float64Array;
  /** How far the middle of the cloth rides above the skin, m. */
  readonly lift: number;
  /** Body samples at the latest positions; 10*V. The distance is that to the moved skin. */
  readonly samples: Float64Array;
}

/** Samples the body at every vertex, and tells the distance of the cloth from the skin as it has moved. */
export function sampleSkin({ body, samples, offset, lift }: Contact, positions: Float64Array): void {
  const one = new Float64Array(SAMPLE_SIZE);
  for (let v = 0; 3 * v < positions.length; v++) {
    body.sample(positions[3 * v]!, positions[3 * v + 1]!, positions[3 * v + 2]!, one);
    for (let k = 0; k < SAMPLE_SIZE; k++) samples[SAMPLE_SIZE * v + k] = one[k]!;
    samples[SAMPLE_SIZE * v]! += offset[v]! - lift;
  }
}

/** How hard the body pushes at one vertex, N, by the latest samples: k A |d| |gradient of d|. */
export function normalForceAt({ foundation, area, samples }: Contact, v: number): number {
  const s = SAMPLE_SIZE * v;
  const d = samples[s]!;
  if (d >= 0) return 0;
  return -d * foundation[v]! * area[v]! * Math.hypot(samples[s + 1]!, samples[s + 2]!, samples[s + 3]!);
}

/** Energy of the pressed-in flesh and how hard it pushes back. */
export interface ContactPush {
  /** J. */
  energy: number;
  /** Sum of squared normal forces, N^2. */
  forceSquared: number;
}

/**
 * Flesh as an elastic foundation, only ever pushing: E = sum over vertices with d < 0 of k A d^2 / 2, dE/dx = k A d n,
 * with d the signed distance to the skin (moved by the contact's offset) and n its gradient.
 *
 * @param into - `gradient` (3*V, N) is added to, `push` overwritten.
 * @see Winkler foundation; e.g. Johnson, Contact Mechanics (1985), section 4.3.
 */
export function addContactGradient(
  { foundation, area, samples }: Contact,
  into: { gradient: Float64Array; push: ContactPush },
): void {
  const { gradient } = into;
  let energy = 0;
  let squared = 0;
  for (let v = 0; v < area.length; v++) {
    const s = SAMPLE_SIZE * v;
    const d = samples[s]!;
    if (d >= 0) continue;
    const pull = foundation[v]! * area[v]! * d;
    const nx = samples[s + 1]!;
    const ny = samples[s + 2]!;
    const nz = samples[s + 3]!;
    energy += 0.5 * pull * d;
    squared += pull * pull * (nx * nx + ny * ny + nz * nz);
    gradient[3 * v]! += pull * nx;
    gradient[3 * v + 1]! += pull * ny;
    gradient[3 * v + 2]! += pull * nz;
  }
  into.push.energy = energy;
  into.push.forceSquared = squared;
}

/**
 * Adds d2E/dx2 = k A (n n' + d Hessian(d)) to the diagonal blocks.
 *
 * @param exact - False leaves out the second term, which is negative on a convex body.
 * @param values - 9*B, added to.
 */
export function addContactStiffness(
  { foundation, area, samples }: Contact,
  exact: boolean,
  diagonal: Uint32Array,
  values: Float64Array,
): void {
  for (let v = 0; v < area.length; v++) {
    const s = SAMPLE_SIZE * v;
    const d = samples[s]!;
    if (d >= 0) continue;
    const k = foundation[v]! * area[v]!;
    const bend = exact ? k * d : 0;
    const nx = samples[s + 1]!;
    const ny = samples[s + 2]!;
    const nz = samples[s + 3]!;
    const xy = k * nx * ny + bend * samples[s + 5]!;
    const xz = k * nx * nz + bend * samples[s + 6]!;
    const yz = k * ny * nz + bend * samples[s + 8]!;
    const at = 9 * diagonal[v]!;
    values[at]! += k * nx * nx + bend * samples[s + 4]!;
    values[at + 1]! += xy;
    values[at + 2]! += xz;
    values[at + 3]! += xy;
    values[at + 4]! += k * ny * ny + bend * samples[s + 7]!;
    values[at + 5]! += yz;
    values[at + 6]! += xz;
    values[at + 7]! += yz;
    values[at + 8]! += k * nz * nz + bend * samples[s + 9]!;
  }
}
