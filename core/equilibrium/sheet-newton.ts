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

/**
 * Stiffness per area that damps a step, over the pressure of the sheet's weight per longest step: with tamed second
 * derivatives, and with exact ones (there it must outweigh what is unstable, and
 * keep folds, which hardly anything holds in place, from being thrown far off by what is left of the forces).
 */
const TAMED = { least: 1e-3, first: 0.1, raised: 0.03, raise: 3, most: 1e6 };
const EXACT = { least: 1e-3, first: 1e-2, raise: 10, tries: 5 };
/** Next to none: with this, exact second derivatives must be positive definite where the sheet is said to rest. */
const UNDAMPED = 1e-6;
/** Exact second derivatives are worth their risk below this residual; after a failure this many steps go without. */
const EXACT_BELOW = 5;
const STEPS_WITHOUT_EXACT = 3;
/** Share of the promised fall in energy that a step must bring. */
const LEAST_FALL = 0.1;
const MOST_HALVINGS = 8;
const MOST_BENDS = 3;
/** A step that succeeds at once is doubled as long as that lowers the energy further, up to this many times itself. */
const MOST_GROWTH = 8;

/** All that one search works with. */
interface Search {
  readonly system: SheetSystem;
  readonly solver: SheetSolver;
  readonly goal: SheetGoal;
  /** Pa/m. */
  readonly unit: number;
  readonly damping: { tamed: number; exact: number; wait: number };
  readonly step: Float64Array;
  /** Gradient where the step starts, right side of the equations, correction, trial, best trial; 3*V each. */
  readonly start: Float64Array;
  readonly right: Float64Array;
  readonly bend: Float64Array;
  readonly trial: Float64Array;
  readonly best: Float64Array;
}

/**
 * Moves a sheet to where its forces balance and where it would come back to if nudged: Newton steps, tamed (no negative
 * second derivatives) far from rest and exact near it, damped, shortened and bent until the energy falls. Yields the
 * residual before every step.
 *
 * @returns Whether it came to a rest that is stable.
 * @see Nocedal & Wright, Numerical Optimization, 2nd ed. (2006), sections 3.4 (modified Newton), 10.3 (damping).
 */
export function* sheetNewton(
  system: SheetSystem,
  solver: SheetSolver,
  goal: SheetGoal,
): Generator<number, boolean> {
  const search = startSearch(system, solver, goal);
  const { damping } = search;
  evaluateSheet(system, system.positions);
  for (let count = 0; ; count++) {
    yield system.sum.residual;
    if (system.sum.residual <= goal.tolerance && isStable(search)) return true;
    if (count === goal.mostSteps || damping.tamed > TAMED.most) return false;
    const exact = layEquations(search);
    for (let i = 0; i < search.right.length; i++) search.right[i] = -system.gradient[i]!;
    solver.solve(search.right, search.step);
    takeStep(search, exact);
  }
}

const sumOf = (values: Float64Array): number => values.reduce((total, one) => total + one, 0);

function startSearch(system: SheetSystem, solver: SheetSolver, goal: SheetGoal): Search {
  const room = () => new Float64Array(system.positions.length);
  return {
    system,
    solver,
    goal,
    unit: sumOf(system.weights) / sumOf(system.area) / goal.longestStep,
    damping: { tamed: TAMED.first, exact: EXACT.least, wait: 0 },
    step: room(),
    start: room(),
    right: room(),
    bend: room(),
    trial: room(),
    best: room(),
  };
}

/** Whether the energy rises in every direction: exact second derivatives, next to undamped, are positive definite. */
function isStable({ system, solver, unit, damping }: Search): boolean {
  assembleSheet(system, true, UNDAMPED * unit);
  if (solver.factorise(system.matrix)) return true;
  damping.exact = Math.max(damping.exact, EXACT.first);
  return false;
}

/** Factorises second derivatives at the present positions; returns whether they are exact. */
function layEquations({ system, solver, unit, damping }: Search): boolean {
  const wanted = system.sum.residual < EXACT_BELOW && damping.wait === 0;
  if (damping.wait > 0) damping.wait--;
  if (wanted) {
    for (let t = 0; t < EXACT.tries; t++) {
      assembleSheet(system, true, damping.exact * unit);
      if (solver.factorise(system.matrix)) return true;
      damping.exact = Math.max(damping.exact * EXACT.raise, EXACT.first);
    }
    damping.wait = STEPS_WITHOUT_EXACT;
  }
  assembleSheet(system, false, damping.tamed * unit);
  if (!solver.factorise(system.matrix))
    throw new Error('Tamed second derivatives are not positive definite.');
  return false;
}

/** Goes along the step as far as the energy falls; on failure the system is put back and damping raised. */
function takeStep(search: Search, exact: boolean): void {
  const { system, goal, step, trial, start, damping } = search;
  const { gradient, positions, sum } = system;
  start.set(gradient);
  const first = Math.min(1, goal.longestStep / longest(step));
  const slope = dot(start, step);
  const before = { energy: sum.energy, residual: sum.residual, slope };
  let share = first;
  let bends = -1;
  const halvings = slope < 0 ? MOST_HALVINGS : 0;
  for (let t = 0; bends < 0 && t < halvings; t++) {
    if (t > 0) share /= 2;
    bends = tryShare(search, share, before);
  }
  if (bends < 0) {
    evaluateSheet(system, positions);
    if (exact) {
      damping.exact = Math.max(damping.exact, EXACT.first) * EXACT.raise;
      damping.wait = 1;
    } else damping.tamed *= TAMED.raise;
    return;
  }
  if (share === first && bends === 0 && (!exact || damping.exact > EXACT.first)) grow(search, share);
  positions.set(trial);
  adapt(search, exact, share / first);
}

/**
 * Tries a share of the step. Where the energy does not fall, the path is bent: the same factor solves for what the forces
 * there lack of (1 - share) times those at the start. A sheet hardly stretches, so straight steps that turn it are short;
 * bent ones turn it by half a radian.
 *
 * @returns How often it was bent, -1 where nothing helped; the system is left evaluated at the trial.
 */
function tryShare(
  search: Search,
  share: number,
  before: { energy: number; residual: number; slope: number },
): number {
  const { system, step, trial } = search;
  const { positions, sum } = system;
  for (let i = 0; i < step.length; i++) trial[i] = positions[i]! + share * step[i]!;
  for (let bends = 0; ; bends++) {
    evaluateSheet(system, trial);
    const promised = -share * before.slope;
    const calms = promised < 1e-10 * Math.abs(before.energy) && sum.residual < before.residual;
    if (sum.energy <= before.energy - LEAST_FALL * promised || calms) return bends;
    if (bends === MOST_BENDS) return -1;
    bendTrial(search, share);
  }
}

function bendTrial({ system, solver, start, right, bend, trial }: Search, share: number): void {
  const { gradient } = system;
  for (let i = 0; i < right.length; i++) right[i] = (1 - share) * start[i]! - gradient[i]!;
  solver.solve(right, bend);
  for (let i = 0; i < trial.length; i++) trial[i]! += bend[i]!;
}

/** Doubles a step while that lowers the energy: where the sheet is about to buckle, steps are far too short. */
function grow(search: Search, share: number): void {
  const { system, goal, step, trial, best } = search;
  const reach = goal.longestStep / longest(step);
  let good = share;
  let energy = system.sum.energy;
  best.set(trial);
  for (let next = 2 * good; next <= Math.min(reach, MOST_GROWTH * share); next *= 2) {
    for (let i = 0; i < step.length; i++) trial[i] = best[i]! + (next - good) * step[i]!;
    evaluateSheet(system, trial);
    if (!(system.sum.energy < energy)) {
      bendTrial(search, next);
      evaluateSheet(system, trial);
    }
    if (!(system.sum.energy < energy)) break;
    good = next;
    energy = system.sum.energy;
    best.set(trial);
  }
  trial.set(best);
  evaluateSheet(system, trial);
}

/** Damping is raised after a much shortened step, lowered after a whole one. */
function adapt({ damping }: Search, exact: boolean, taken: number): void {
  if (exact) {
    if (taken < 0.3) damping.exact = Math.max(damping.exact, EXACT.first / 3) * 4;
    else if (taken === 1) damping.exact = Math.max(EXACT.least, damping.exact / 4);
  } else if (taken < 0.3) damping.tamed = Math.max(damping.tamed, TAMED.raised) * TAMED.raise;
  else if (taken === 1) damping.tamed = Math.max(TAMED.least, damping.tamed / TAMED.raise);
}

/** Length of the longest displacement of a vertex, m. */
function longest(step: Float64Array): number {
  let squared = 0;
  for (let i = 0; i < step.length; i += 3) {
    squared = Math.max(squared, step[i]! ** 2 + step[i + 1]! ** 2 + step[i + 2]! ** 2);
  }
  return Math.sqrt(squared);
}
