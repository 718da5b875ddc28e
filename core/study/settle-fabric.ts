import type { Body } from '../body/body.ts';
import { bendingTensor } from '../equilibrium/bending-force.ts';
import type { Equilibrium, EquilibriumProblem, SettleProgress } from '../equilibrium/equilibrium.ts';
import { settleOnFlesh, type FleshEquilibrium } from '../equilibrium/settle-on-flesh.ts';
import { settle } from '../equilibrium/settle.ts';
import type { Fabric } from '../fabric/fabric.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import type { Garment } from '../garment/garment.ts';
import type { LaidFlesh } from './lay-flesh.ts';
import {
  canCarry,
  carriedOver,
  carriedRest,
  expectedRest,
  levelRest,
  startOf,
  type LevelRest,
} from './level-rest.ts';
import type { EndRests } from './settle-ends.ts';
import type { LaidCloth } from './standing-study.ts';
import type { Study } from './study.ts';

/** Where a garment in one fabric came to rest, and what a later search may start from. */
export interface FabricRest {
  readonly equilibrium: Equilibrium;
  /** The same with what the flesh did; null where it is a foundation. */
  readonly flesh: FleshEquilibrium | null;
  /** Coarsest first; none below the level where the search begins. */
  readonly levels: readonly (LevelRest | undefined)[];
  /** Where it would rest at both ends of its coupling's band. */
  readonly ends?: EndRests;
}

/** What is settled: the garment laid on its body, as the study wants it, in one fabric. */
export interface FabricQuestion {
  readonly id: string;
  readonly study: Pick<Study, 'friction' | 'flesh' | 'bending'>;
  readonly fabric: Fabric;
  readonly body: Body;
  readonly cloth: LaidCloth;
  readonly flesh: LaidFlesh | null;
  /** Of the garment's fabrics, the main one first. */
  readonly laws: readonly TensionLaw[];
}

/** An earlier rest, and the garment as it was laid then. */
export interface RestBefore {
  readonly garment: Garment;
  readonly rest: FabricRest;
}

/**
 * Friction of a garment that is said to slide freely. A truly frictionless tube has no place of its own: on a faceted body
 * it creeps for ever along the unevenness of the facets. This little holds it there and nowhere else: it carries a slope
 * of half a degree.
 */
export const LEAST_FRICTION = 0.01;

/** The search begins on the coarsest level with at least this many vertices; coarser ones only help to solve. */
const FEWEST_TO_START = 100;
/** How well coarse levels are settled before the next finer takes over. */
const COARSE_TOLERANCE = 1e-2;

/**
 * Lets the laid cloth come to rest, coarse to fine. Each level starts from where it rested before (cloth that never did,
 * from where it is laid) and as much farther as the next coarser level went: after a small change hardly anything is
 * left to do on the finest. The result is that of a search from the laid cloth, within its tolerance.
 *
 * Coarse levels only lead the way: flesh as a layer is looked at on the finest.
 */
export function* settleFabric(
  question: FabricQuestion,
  before?: RestBefore,
): Generator<SettleProgress, FabricRest> {
  if (!before?.rest.equilibrium.atRest) return yield* settleLevels(question);
  const warm = yield* settleLevels(question, before);
  if (warm.equilibrium.atRest) return warm;
  // A change too large to be followed: what a search from the laid cloth finds must not be missed.
  const cold = yield* settleLevels(question);
  return cold.equilibrium.residual < warm.equilibrium.residual ? cold : warm;
}

function* settleLevels(question: FabricQuestion, before?: RestBefore): Generator<SettleProgress, FabricRest> {
  const { levels } = question.cloth.garment;
  const last = levels.length - 1;
  const rests: (LevelRest | undefined)[] = [];
  const old = levels.map((_, l) => before && restedBefore(question, before, l));
  const counts: Equilibrium[] = [];
  for (let l = firstLevel(levels); ; l++) {
    const coarser = rests[l - 1];
    const expected = coarser
      ? expectedRest(levels[l]!, old[l], { now: coarser, before: old[l - 1] })
      : old[l];
    const problem = problemOf(question, l, expected);
    if (l < last) {
      const settled = yield* told(question, settle({ ...problem, tolerance: COARSE_TOLERANCE }));
      rests[l] = levelRest(levels[l]!.mesh, settled.positions, settled.normalForce);
      counts.push(settled);
      continue;
    }
    const settled = yield* told(question, settleFinest(question, problem, before));
    rests[l] = levelRest(levels[l]!.mesh, settled.equilibrium.positions, settled.equilibrium.normalForce);
    counts.push(settled.equilibrium);
    const equilibrium = { ...settled.equilibrium, ...countsOf(counts) };
    return { equilibrium, flesh: settled.flesh, levels: rests };
  }
}

function firstLevel(levels: Garment['levels']): number {
  const index = levels.findIndex(({ mesh }) => mesh.positions.length / 3 >= FEWEST_TO_START);
  return index < 0 ? levels.length - 1 : index;
}

/** The problem of one level as if it were the finest. */
export function problemOf(
  { study, fabric, cloth, laws }: FabricQuestion,
  level: number,
  expected: LevelRest | undefined,
): EquilibriumProblem {
  const { garment, foundation, skin, prepared } = cloth;
  return {
    levels: garment.levels.slice(0, level + 1),
    laws,
    body: skin,
    foundation: foundation.slice(0, level + 1),
    friction: Math.max(study.friction, LEAST_FRICTION),
    prepared,
    arealDensity: fabric.arealDensity,
    ...(study.bending && { bending: bendingTensor(fabric.bendingRigidity) }),
    ...(expected && startOf(garment.levels[level]!.mesh, expected)),
  };
}

function* settleFinest(
  { study, body, cloth: { garment }, flesh }: FabricQuestion,
  problem: EquilibriumProblem,
  before: RestBefore | undefined,
): Generator<SettleProgress, Omit<FabricRest, 'levels'>> {
  if (study.flesh?.kind !== 'layer') return { equilibrium: yield* settle(problem), flesh: null };
  const moved = before?.rest.flesh;
  const offset = moved && carriedOver(moved.offset, 1, { from: before.garment, to: garment, coarser: 0 });
  const { poisson, skin } = study.flesh;
  const started = { ...problem, ...(offset && { offset }) };
  const settled = yield* settleOnFlesh(started, { body, poisson, skin }, flesh?.prepared);
  return { equilibrium: settled, flesh: settled };
}

/** Where a level rested before, read at the vertices that it has now; levels are told from the finest. */
function restedBefore(
  { cloth: { garment } }: FabricQuestion,
  before: RestBefore,
  level: number,
): LevelRest | undefined {
  const coarser = garment.levels.length - 1 - level;
  const rest = before.rest.levels[before.garment.levels.length - 1 - coarser];
  if (!canCarry({ from: before.garment, to: garment, coarser })) return undefined;
  return rest && carriedRest(rest, { from: before.garment, to: garment, coarser });
}

/** Newton steps and linear iterations of all levels together. */
function countsOf(settled: readonly Equilibrium[]): Pick<Equilibrium, 'newtonSteps' | 'linearIterations'> {
  const { newtonSteps, linearIterations } = settled.at(-1)!;
  const sum = (of: 'newtonSteps' | 'linearIterations') => (_: number, l: number) =>
    settled.reduce((total, one) => total + (one[of][l] ?? 0), 0);
  return {
    newtonSteps: newtonSteps.map(sum('newtonSteps')),
    linearIterations: linearIterations.map(sum('linearIterations')),
  };
}

/** Passes a search on one level on, as one of all levels. */
export function* told<T>(
  { cloth }: FabricQuestion,
  search: Generator<SettleProgress, T>,
): Generator<SettleProgress, T> {
  const levelCount = cloth.garment.levels.length;
  let step = search.next();
  while (!step.done) {
    yield { ...step.value, levelCount };
    step = search.next();
  }
  return step.value;
}
