import type { BlockMatrix } from './block-matrix.ts';
import { dot } from './conjugate-gradient.ts';
import { assembleSheet, evaluateSheet, type SheetSystem } from './sheet-system.ts';

/** Solves with one matrix after another of the same pattern. */
export interface SheetSolver {
  /** False where the matrix is not positive definite. */
  readonly factorise: (matrix: BlockMatrix) => boolean;
  readonly solve: (b: Float64Array, into: Float64Array) => void;
}

export interface SheetGoal {
  readonly tolerance: number;
  readonly mostSteps: number;
  /** No vertex moves farther in one step, m. */
  readonly longestStep: number;
}

/** Damping per area relative to the pressure of the weight over the longest step. */
const DAMPING = { least: 1e-6, first: 0.1, most: 1e6, raise: 4, lower: 4 };
const ARMIJO = 1e-4;
const MOST_TRIALS = 10;
const MOST_BENDS = 3;

/**
 * Moves a sheet to where its forces balance: Newton steps on exact second derivatives, damped until they are positive
 * definite and until the energy falls. Yields the residual before every step.
 *
 * @see Nocedal & Wright, Numerical Optimization, 2nd ed. (2006), section 10.3 (Levenberg-Marquardt damping).
 */
export function* sheetNewton(
  system: SheetSystem,
  solver: SheetSolver,
  goal: SheetGoal,
): Generator<number, void> {
  const { positions, gradient, weights, area, sum } = system;
  const step = new Float64Array(positions.length);
  const downhill = new Float64Array(positions.length);
  const trial = new Float64Array(positions.length);
  const start = new Float64Array(positions.length);
  const bent = new Float64Array(positions.length);
  const pressure = weights.reduce((s, w) => s + w, 0) / area.reduce((s, a) => s + a, 0);
  const unit = pressure / goal.longestStep;
  let damping = DAMPING.first;
  evaluateSheet(system, positions);
  for (let count = 0; count < goal.mostSteps; count++) {
    yield sum.residual;
    if (sum.residual <= goal.tolerance) return;
    for (;;) {
      assembleSheet(system, true, damping * unit);
      if (solver.factorise(system.matrix)) break;
      damping *= DAMPING.raise;
      if (damping > DAMPING.most) return;
    }
    for (let i = 0; i < step.length; i++) downhill[i] = -gradient[i]!;
    solver.solve(downhill, step);
    const slope = -dot(downhill, step);
    if (!(slope < 0)) return;
    const { energy, residual } = sum;
    start.set(gradient);
    let share = Math.min(1, goal.longestStep / longest(step));
    let found = false;
    for (let t = 0; t < MOST_TRIALS && !found; t++) {
      for (let i = 0; i < step.length; i++) trial[i] = positions[i]! + share * step[i]!;
      for (let bend = 0; ; bend++) {
        evaluateSheet(system, trial);
        const falls = sum.energy <= energy + 0.1 * share * slope;
        const calms = -share * slope < 1e-10 * Math.abs(energy) && sum.residual < residual;
        if (falls || calms) {
          found = true;
          break;
        }
        if (bend === MOST_BENDS) break;
        for (let i = 0; i < step.length; i++) downhill[i] = (1 - share) * start[i]! - gradient[i]!;
        solver.solve(downhill, bent);
        for (let i = 0; i < step.length; i++) trial[i]! += bent[i]!;
      }
      if (!found) share *= 0.5;
    }
    if (!found) {
      evaluateSheet(system, positions);
      damping *= DAMPING.raise;
      if (damping > DAMPING.most) return;
      continue;
    }
    positions.set(trial);
    if (share < 0.5) damping *= DAMPING.raise;
    else if (share === 1) damping = Math.max(DAMPING.least, damping / DAMPING.lower);
  }
  yield sum.residual;
}

function longest(step: Float64Array): number {
  let squared = 0;
  for (let i = 0; i < step.length; i += 3) {
    squared = Math.max(squared, step[i]! ** 2 + step[i + 1]! ** 2 + step[i + 2]! ** 2);
  }
  return Math.sqrt(squared);
}
