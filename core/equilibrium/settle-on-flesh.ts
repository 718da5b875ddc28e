import type { Equilibrium, EquilibriumProblem, SettleProgress } from './equilibrium.ts';
import { accelerator } from './flesh-acceleration.ts';
import { stiffened } from './flesh-kernel.ts';
import { couple, linkedAnew, moved, type Coupling } from './flesh-coupling.ts';
import { prepareCloth } from './prepare-cloth.ts';
import { prepareFlesh, type Flesh, type PreparedFlesh } from './prepare-flesh.ts';
import { settle } from './settle.ts';

/** Where garment and flesh came to rest together. */
export interface FleshEquilibrium extends Equilibrium {
  /** How far each vertex of the body's skin has moved in, bulges below 0, m. */
  readonly skinMovement: Float64Array;
  /** How far the skin under each cloth vertex has moved in, m; V. */
  readonly movementUnderCloth: Float64Array;
  /** Deepest indent in thicknesses of the flesh, w/H, and hardest pressure in its moduli, p/E. */
  readonly deepest: number;
  readonly hardest: number;
  /** How often cloth and flesh were brought together, and by what share of the contact force the last time still changed. */
  readonly rounds: number;
  readonly change: number;
}

/** Contact force that may still change from one round to the next, as a share. */
const FLESH_TOLERANCE = 1e-3;
const MOST_ROUNDS = 25;
/** Newton steps on the finest level, the first settling's included: cloth that does not come to rest is given up with what it has. */
const MOST_STEPS = 120;
/** The cloth of a round is settled to this part of what the last round changed. */
const INNER_SHARE = 0.1;
const LOOSEST = 1e-2;
/** Cloth that has slid this far, m, is linked to the skin anew, once cloth and flesh nearly agree. */
const LINK_AGAIN = { below: 0.05, moved: 0.5e-3 };

/**
 * Lets a garment come to rest on flesh that gives way as a nearly incompressible layer: in under the cloth, out beside it.
 *
 * Cloth settles on the foundation, whose stiffness stands for what a spot feels of its own press, with the skin moved by
 * the rest; the layer tells how far the skin moves under that pressure; again until both agree:
 * offset = w(p) - p / foundation. A round starts from the last one's shape and friction, the anchors are those of
 * the laid garment throughout. Skin moves along its normal only.
 *
 * @param prepared - Of an earlier rest on the same flesh; made anew if left out.
 * @param problem - `start`, `startNormalForce` and `offset` of an earlier rest make it a warm restart.
 * @returns `residual` counts what the flesh still changed too, scaled to the tolerance of forces.
 */
export function* settleOnFlesh(
  problem: EquilibriumProblem,
  flesh: Flesh,
  prepared: PreparedFlesh = prepareFlesh(flesh, problem.levels),
): Generator<SettleProgress, FleshEquilibrium> {
  const cloth = problem.prepared ?? prepareCloth(problem.levels, { hinges: problem.bending !== undefined });
  const tolerance = problem.tolerance ?? 1e-4;
  let worn = yield* settle({ ...problem, prepared: cloth, tolerance: Math.max(tolerance, LOOSEST) });
  let coupling = couple(problem, flesh, prepared, worn);
  let linked = worn.positions;
  const accelerate = accelerator();
  const counts = { newtonSteps: [...worn.newtonSteps], linearIterations: [...worn.linearIterations] };
  let inner = LOOSEST;
  for (let rounds = 0; ; rounds++) {
    let next = moved(coupling, worn);
    if (next.change < LINK_AGAIN.below && farthestMoved(linked, worn.positions) > LINK_AGAIN.moved) {
      coupling = linkedAnew(coupling, prepared, worn);
      linked = worn.positions;
      next = moved(coupling, worn);
    }
    const { image, change } = next;
    const agree = change <= FLESH_TOLERANCE;
    if ((agree && inner <= tolerance) || isSpent(rounds, counts.newtonSteps, change)) {
      return { ...outcome(coupling, worn, { tolerance, change, rounds }), ...counts };
    }
    inner = agree ? tolerance : Math.max(tolerance, Math.min(LOOSEST, INNER_SHARE * change));
    worn = yield* settle({
      ...problem,
      prepared: cloth,
      start: worn.positions,
      startNormalForce: worn.normalForce,
      offset: accelerate(worn.offset, image),
      tolerance: inner,
    });
    worn.newtonSteps.forEach((steps, l) => (counts.newtonSteps[l]! += steps));
    worn.linearIterations.forEach((steps, l) => (counts.linearIterations[l]! += steps));
  }
}

const isSpent = (rounds: number, steps: readonly number[], change: number): boolean =>
  rounds >= MOST_ROUNDS || steps.at(-1)! >= MOST_STEPS || !Number.isFinite(change);

/** How far any vertex has moved, m. */
function farthestMoved(from: Float64Array, to: Float64Array): number {
  let most = 0;
  for (let i = 0; i < to.length; i++) most = Math.max(most, Math.abs(to[i]! - from[i]!));
  return most;
}

function outcome(
  coupling: Coupling,
  worn: Equilibrium,
  { tolerance, change, rounds }: { tolerance: number; change: number; rounds: number },
): FleshEquilibrium {
  const { flesh, link, layer, skinPressure, spread, pressure, movement, depth, foundation } = coupling;
  const skinMovement = new Float64Array(flesh.body.tissueDepth.length);
  link.patch.bodyVertex.forEach((v, own) => {
    const w = spread[own]! + layer.local[own]! * skinPressure[own]!;
    skinMovement[v] = stiffened(w, layer.skin.depth[own]!);
  });
  let [deepest, hardest] = [0, 0];
  for (let v = 0; v < movement.length; v++) {
    if (!depth[v]) continue;
    deepest = Math.max(deepest, movement[v]! / depth[v]!);
    hardest = Math.max(hardest, (4 * pressure[v]!) / (foundation[v]! * depth[v]!));
  }
  const residual = Math.max(worn.residual, (tolerance * change) / FLESH_TOLERANCE);
  return {
    ...worn,
    residual,
    tolerance,
    atRest: residual <= tolerance,
    skinMovement,
    movementUnderCloth: movement,
    deepest,
    hardest,
    rounds,
    change,
  };
}
