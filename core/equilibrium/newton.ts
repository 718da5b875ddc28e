import { multiply } from './block-matrix.ts';
import { assemble, evaluateSkin, updateAreas, type ClothSystem } from './cloth-system.ts';
import {
  conjugateGradient,
  conjugateGradientRoom,
  type ConjugateGradientRoom,
} from './conjugate-gradient.ts';
import { takeStep, type StepRoom } from './line-search.ts';
import { vCycle } from './multigrid.ts';

/** Exact second derivatives are worth their risk below this residual. */
const EXACT_BELOW = 0.2;
/** After exact second derivatives have failed, this many steps are made without them; doubled each time. */
const STEPS_WITHOUT_EXACT = 3;
/** Contact areas follow the cloth this many steps, and as long as the residual is above this; then they stay. */
const AREAS_FOLLOW = { steps: 3, above: 1e-2 };
/** A search that has not lowered its best residual by a tenth in this many steps has stalled. */
const PATIENCE = 15;
const MOST_LINEAR_ITERATIONS = 100;

export interface NewtonGoal {
  readonly tolerance: number;
  readonly mostSteps: number;
}

/** How one search went, added up over the searches of a level. */
export interface NewtonCount {
  steps: number;
  linearIterations: number;
}

/** Room of one level's searches. */
export interface NewtonRoom extends StepRoom {
  readonly linear: ConjugateGradientRoom;
}

/** All that one search works with. */
export interface NewtonSearch {
  readonly system: ClothSystem;
  readonly goal: NewtonGoal;
  readonly room: NewtonRoom;
  readonly count: NewtonCount;
}

export const newtonRoom = (size: number): NewtonRoom => ({
  step: new Float64Array(size),
  trial: new Float64Array(size),
  bend: new Float64Array(size),
  downhill: new Float64Array(size),
  linear: conjugateGradientRoom(size),
});

/**
 * Moves the cloth to where its forces balance: Newton steps, each solved by conjugate gradients under a V-cycle, each
 * shortened until the energy falls. Yields the residual before every step; ends at the goal, at the most steps allowed
 * or where no step helps any more. The system must come evaluated at its positions, and is left so.
 *
 * @see Nocedal & Wright, Numerical Optimization, 2nd ed. (2006), section 7.1 (line search Newton-CG).
 */
export function* newton(search: NewtonSearch): Generator<number, void> {
  const { system, goal } = search;
  const { sum } = system;
  const exactness = { wait: 0, nextWait: STEPS_WITHOUT_EXACT };
  let best = { residual: Infinity, step: 0 };
  for (let step = 0; step < goal.mostSteps; step++) {
    yield sum.residual;
    if (sum.residual <= goal.tolerance) return;
    if (sum.residual < 0.9 * best.residual) best = { residual: sum.residual, step };
    if (step - best.step > PATIENCE) return;
    if (step > 0 && (step < AREAS_FOLLOW.steps || sum.residual > AREAS_FOLLOW.above)) {
      updateAreas(system);
      evaluateSkin(system);
    }
    if (!oneStep(search, exactness)) return;
  }
  yield sum.residual;
}

/** One step, with exact second derivatives where they promise well and with tamed ones where they do not or fail. */
function oneStep(search: NewtonSearch, exactness: { wait: number; nextWait: number }): boolean {
  const { system, room, count } = search;
  count.steps++;
  const exact = system.sum.residual < EXACT_BELOW && exactness.wait === 0;
  if (exactness.wait > 0) exactness.wait--;
  if (exact) {
    if (solveStep(search, true) && takeStep(system, room)) return true;
    exactness.wait = exactness.nextWait;
    exactness.nextWait *= 2;
  }
  return solveStep(search, false) && takeStep(system, room);
}

/** Solves K step = -gradient closely enough for how far from rest the cloth is. False where K is indefinite. */
function solveStep({ system, goal, room, count }: NewtonSearch, exact: boolean): boolean {
  const { gradient, multigrid, top, sum, held } = system;
  const { step, downhill, linear } = room;
  if (!assemble(system, exact)) return false;
  const { matrix } = multigrid.levels[top]!;
  for (let i = 0; i < gradient.length; i++) downhill[i] = -gradient[i]!;
  const enough = Math.min(0.1, 0.3 * Math.sqrt(sum.residual));
  const tolerance = Math.min(0.3, Math.max(enough, (0.2 * goal.tolerance) / sum.residual));
  const { iterations, indefinite } = conjugateGradient(
    {
      multiply: (x, into) => multiply(matrix, x, into),
      precondition: (b, into) => vCycle(multigrid, top, b, into),
    },
    downhill,
    { tolerance, most: MOST_LINEAR_ITERATIONS, room: linear },
    step,
  );
  count.linearIterations += iterations;
  if (indefinite && (exact || iterations === 1)) return false;
  if (held) for (let i = 0; i < held.length; i++) if (held[i]) step[i] = 0;
  return true;
}
