import { evaluate, type ClothSystem } from './cloth-system.ts';
import { dot } from './conjugate-gradient.ts';
import { SAMPLE_SIZE } from './contact-force.ts';

/** No vertex moves farther than this in one step, m. */
const LONGEST_STEP = 0.03;
/** Share of the promised fall in energy that a step must bring. @see Nocedal & Wright (2006), eq. (3.6). */
const ARMIJO = 1e-4;
const MOST_TRIALS = 12;
/** A step is shortened to where a parabola through what is known has its lowest point, within these shares of itself. */
const SHORTEN = { least: 1e-3, most: 0.5 };
/**
 * Damping is raised fast and lowered slowly: cloth about to go slack loses nearly all its stiffness within one step, and
 * damping taken back at once only lets every second step be cut short again.
 */
const DAMPING = { raiseBelow: 0.3, raise: 10, lower: 4 };

/** A step and the room to try it; 3*V each. */
export interface StepRoom {
  /** Where the linear equations lead. */
  readonly step: Float64Array;
  /** Minus the gradient they were solved for. */
  readonly downhill: Float64Array;
  readonly trial: Float64Array;
  readonly bend: Float64Array;
}

/**
 * Goes along the step as far as the energy falls. Where the promised fall drowns in round-off, a smaller residual
 * counts instead. On failure the system is put back and false returned.
 */
export function takeStep(system: ClothSystem, { step, trial, bend, downhill }: StepRoom): boolean {
  const { positions, sum } = system;
  const slope = -dot(downhill, step);
  if (!(slope < 0)) return false;
  const { energy, residual } = sum;
  const roundOff = 1e-11 * Math.abs(energy);
  bendStep(system, step, bend);
  let share = Math.min(1, LONGEST_STEP / longest(step));
  for (let trialCount = 0; trialCount < MOST_TRIALS; trialCount++) {
    for (let i = 0; i < positions.length; i++) {
      trial[i] = positions[i]! + share * (step[i]! + share * bend[i]!);
    }
    evaluate(system, trial);
    const falls = sum.energy <= energy + ARMIJO * share * slope;
    const calms = -share * slope < roundOff && sum.residual < residual;
    if (falls || calms) {
      positions.set(trial);
      adaptDamping(system, share);
      return true;
    }
    const lowest = (-slope * share) / (2 * (sum.energy - energy - slope * share));
    share *= Math.max(SHORTEN.least, Math.min(SHORTEN.most, lowest));
  }
  evaluate(system, positions);
  return false;
}

/**
 * Bends the path of a step round the body: x(s) = x + s p - s^2 (p' Hessian(d) p / 2) n for vertices that touch, or
 * would. Along a straight path cloth that slides on a hard convex body leaves it, or dives into it in a hollow, by
 * (way)^2 / 2R, and the step has to be cut short for that alone. The slope at s = 0 stays the same.
 *
 * @see Nocedal & Wright (2006), section 15.6 (second-order correction), in closed form.
 */
function bendStep({ contact, held }: ClothSystem, step: Float64Array, into: Float64Array): void {
  const { samples } = contact;
  into.fill(0);
  for (let v = 0; 3 * v < step.length; v++) {
    const s = SAMPLE_SIZE * v;
    const px = step[3 * v]!;
    const py = step[3 * v + 1]!;
    const pz = step[3 * v + 2]!;
    const nx = samples[s + 1]!;
    const ny = samples[s + 2]!;
    const nz = samples[s + 3]!;
    const along = nx * px + ny * py + nz * pz;
    if (samples[s]! >= 0 && samples[s]! + along >= 0) continue;
    const curve =
      samples[s + 4]! * px * px +
      samples[s + 7]! * py * py +
      samples[s + 9]! * pz * pz +
      2 * (samples[s + 5]! * px * py + samples[s + 6]! * px * pz + samples[s + 8]! * py * pz);
    const most = Math.sqrt(px * px + py * py + pz * pz);
    const back = Math.max(-most, Math.min(most, -curve / 2));
    into[3 * v] = back * nx;
    into[3 * v + 1] = back * ny;
    into[3 * v + 2] = back * nz;
  }
  if (held) for (let i = 0; i < held.length; i++) if (held[i]) into[i] = 0;
}

/**
 * Loose cloth hardly resists some motions: undamped steps along them are far too long to be true, and shortening the
 * whole step would stop all others too. Damping is raised after a much shortened step, lowered after a whole one.
 *
 * @see Nocedal & Wright (2006), section 10.3 (Levenberg-Marquardt).
 */
function adaptDamping({ proximal }: ClothSystem, share: number): void {
  if (share < DAMPING.raiseBelow) proximal.now *= DAMPING.raise;
  else if (share === 1) proximal.now = Math.max(proximal.least, proximal.now / DAMPING.lower);
}

/** Length of the longest displacement of a vertex, m. */
function longest(step: Float64Array): number {
  let squared = 0;
  for (let i = 0; i < step.length; i += 3) {
    squared = Math.max(squared, step[i]! ** 2 + step[i + 1]! ** 2 + step[i + 2]! ** 2);
  }
  return Math.sqrt(squared);
}
