import { addContactGradient, normalForceAt, SAMPLE_SIZE } from './contact-force.ts';
import { clothSystem, evaluate, evaluateSkin, type ClothSystem } from './cloth-system.ts';
import type { Equilibrium, EquilibriumProblem, SettleProgress } from './equilibrium.ts';
import { addFrictionGradient, lagFriction, lagNormal } from './friction-force.ts';
import { addMembraneGradient } from './membrane-force.ts';
import { newton, newtonRoom, type NewtonCount } from './newton.ts';
import { prepareCloth } from './prepare-cloth.ts';
import { prolong, prolongScalar } from './prolongation.ts';

const DEFAULT_TOLERANCE = 1e-4;
/** The search starts on the coarsest level with at least this many vertices; coarser ones only help to solve. */
const FEWEST_TO_START = 100;
/** How well coarse levels are settled before the next finer takes over: without and with friction. */
const COARSE_TOLERANCE = { sliding: 1e-3, rubbing: 1e-2 };
const MOST_STEPS = { coarse: 30, finest: 45 };
/** How often normal forces are taken anew for the friction. */
const MOST_LAGS = { coarse: 3, finest: 20 };
/** With friction, each search lowers the imbalance left by the last lag by this factor before lagging again. */
const LAG_GAIN = 0.1;

/**
 * Lets a laid garment come to rest on the body: coarse to fine, on each level Newton steps to balance of the cloth's
 * pull, the flesh's push and the friction of the skin.
 *
 * Friction counts from the laid position of each level: where the wearer put the garment is an input. Its normal forces
 * are those of the balance itself (taken anew until they stay); at the start they are what the laid cloth would press.
 * Held coordinates keep the value they start with, to the bit. Without friction a garment that slides ends at rest, or
 * after a bounded number of steps not at rest; that is never an exception.
 *
 * @returns Residual: unbalanced force (friction included) over contact force; see residualOf for garments that hardly touch.
 */
export function* settle(problem: EquilibriumProblem): Generator<SettleProgress, Equilibrium> {
  const { levels } = problem;
  const tolerance = problem.tolerance ?? DEFAULT_TOLERANCE;
  const last = levels.length - 1;
  const prepared = problem.prepared ?? prepareCloth(levels, { hinges: problem.bending !== undefined });
  const first = problem.start ? last : firstLevel(problem);
  const counts = levels.map((): NewtonCount => ({ steps: 0, linearIterations: 0 }));
  let positions: Float64Array = Float64Array.from(problem.start ?? levels[first]!.mesh.positions);
  let pressure: Float64Array | null = null;
  for (let l = first; ; l++) {
    const system = clothSystem(problem, prepared, l, positions);
    evaluate(system, positions);
    startFriction(system, problem, pressure);
    evaluateSkin(system);
    const search = settleLevel(system, l === last, tolerance, counts[l]!);
    let iteration = 0;
    for (const residual of search) {
      yield { level: l, levelCount: levels.length, iteration: iteration++, residual };
    }
    if (l === last) return rest(system, tolerance, counts);
    pressure = prolongScalar(levels[l + 1]!, pressureOf(system));
    positions = prolongPositions(problem, l, positions);
  }
}

function firstLevel({ levels }: EquilibriumProblem): number {
  const index = levels.findIndex(({ mesh }) => mesh.positions.length / 3 >= FEWEST_TO_START);
  return index < 0 ? levels.length - 1 : index;
}

/** Settles one level; with friction, again and again with fresh normal forces. Yields the residual before every step. */
function* settleLevel(
  system: ClothSystem,
  finest: boolean,
  tolerance: number,
  count: NewtonCount,
): Generator<number, void> {
  const room = newtonRoom(system.positions.length);
  const mostSteps = finest ? MOST_STEPS.finest : MOST_STEPS.coarse;
  const { friction, sum } = system;
  if (!friction) {
    const goal = finest ? tolerance : Math.max(tolerance, COARSE_TOLERANCE.sliding);
    yield* newton({ system, goal: { tolerance: goal, mostSteps }, room, count });
    return;
  }
  const last = finest ? tolerance : Math.max(tolerance, COARSE_TOLERANCE.rubbing);
  const mostLags = finest ? MOST_LAGS.finest : MOST_LAGS.coarse;
  let goal = Math.max(last, COARSE_TOLERANCE.rubbing);
  for (let lag = 0; lag < mostLags; lag++) {
    yield* newton({ system, goal: { tolerance: goal, mostSteps: mostSteps - count.steps }, room, count });
    lagFriction(friction, system.contact);
    evaluateSkin(system);
    if (sum.residual <= last || count.steps >= mostSteps) return;
    goal = Math.max(0.5 * last, LAG_GAIN * sum.residual);
  }
}

/**
 * First normal forces for the friction: of a warm start its contact, of a prolonged start the coarser level's pressure
 * on this level's areas (its own contact would be noise of the finer mesh), of a laid garment what the pull of its cloth
 * would press on the skin.
 */
function startFriction(
  system: ClothSystem,
  problem: EquilibriumProblem,
  pressure: Float64Array | null,
): void {
  const { friction, contact, membrane, positions, pull } = system;
  if (!friction) return;
  if (problem.start) {
    lagFriction(friction, contact);
    if (problem.startNormalForce) friction.normalForce.set(problem.startNormalForce);
    return;
  }
  const gradient = new Float64Array(positions.length);
  if (!pressure) addMembraneGradient(membrane, positions, { gradient, pull });
  for (let v = 0; v < friction.normalForce.length; v++) {
    lagNormal(friction, contact, v);
    if (pressure) friction.normalForce[v] = pressure[v]! * contact.area[v]!;
    else {
      let press = 0;
      for (let k = 0; k < 3; k++) press += gradient[3 * v + k]! * friction.normal[3 * v + k]!;
      friction.normalForce[v] = Math.max(0, press);
    }
  }
}

/** Pa; V. */
function pressureOf({ contact }: ClothSystem): Float64Array {
  const pressure = new Float64Array(contact.area.length);
  for (let v = 0; v < pressure.length; v++) {
    pressure[v] = Math.max(0, -contact.samples[SAMPLE_SIZE * v]!) * contact.foundation[v]!;
  }
  return pressure;
}

/**
 * Start of the next finer level: as laid, moved by what the coarser one moved. (Prolonged positions would cut every
 * corner of the body; prolonged displacements do not.)
 */
function prolongPositions(problem: EquilibriumProblem, l: number, settled: Float64Array): Float64Array {
  const coarse = problem.levels[l]!.mesh.positions;
  const fine = problem.levels[l + 1]!;
  const held = problem.held?.[l + 1];
  const shift = settled.map((x, i) => x - coarse[i]!);
  const positions = new Float64Array(fine.mesh.positions.length);
  prolong(fine, shift, positions);
  for (let i = 0; i < positions.length; i++) {
    positions[i] = fine.mesh.positions[i]! + (held?.[i] ? 0 : positions[i]!);
  }
  return positions;
}

function rest(system: ClothSystem, tolerance: number, counts: readonly NewtonCount[]): Equilibrium {
  const { positions, contact, friction, push, sum } = system;
  const contactForce = new Float64Array(positions.length);
  addContactGradient(contact, { gradient: contactForce, push });
  if (friction) addFrictionGradient(friction, positions, { gradient: contactForce });
  for (let i = 0; i < contactForce.length; i++) contactForce[i] = -contactForce[i]!;
  return {
    positions,
    residual: sum.residual,
    tolerance,
    atRest: sum.residual <= tolerance,
    newtonSteps: counts.map(({ steps }) => steps),
    linearIterations: counts.map(({ linearIterations }) => linearIterations),
    contactForce,
    distance: contact.area.map((_, v) => contact.samples[SAMPLE_SIZE * v]! - contact.offset[v]!),
    offset: contact.offset,
    normalForce: friction?.normalForce ?? contact.area.map((_, v) => normalForceAt(contact, v)),
  };
}
