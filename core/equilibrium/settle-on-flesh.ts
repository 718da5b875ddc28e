import type { Equilibrium, EquilibriumProblem, SettleProgress } from './equilibrium.ts';
import { accelerator } from './flesh-acceleration.ts';
import { stiffened } from './flesh-kernel.ts';
import { fleshLayer, spreadMovement, type FleshLayer } from './flesh-layer.ts';
import { forceOnSkin, linkFlesh, readUnderCloth, type FleshLink } from './flesh-link.ts';
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
/** The cloth of a round is settled to this part of what the last round changed. */
const INNER_SHARE = 0.1;
const LOOSEST = 1e-2;

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
  const coupling = couple(problem, flesh, prepared, worn);
  const accelerate = accelerator();
  const counts = { newtonSteps: [...worn.newtonSteps], linearIterations: [...worn.linearIterations] };
  let inner = LOOSEST;
  let rounds = 0;
  for (;;) {
    const { image, change } = moved(coupling, worn);
    const settled = change <= FLESH_TOLERANCE;
    if ((settled && inner <= tolerance) || rounds >= MOST_ROUNDS) {
      return { ...outcome(coupling, worn, { tolerance, change, rounds }), ...counts };
    }
    inner =
      settled || rounds === MOST_ROUNDS - 1
        ? tolerance
        : Math.max(tolerance, Math.min(LOOSEST, INNER_SHARE * change));
    const offset = accelerate(worn.offset, image);
    worn = yield* settle({
      ...problem,
      prepared: cloth,
      start: worn.positions,
      startNormalForce: worn.normalForce,
      offset,
      tolerance: inner,
    });
    worn.newtonSteps.forEach((steps, l) => (counts.newtonSteps[l]! += steps));
    worn.linearIterations.forEach((steps, l) => (counts.linearIterations[l]! += steps));
    rounds++;
  }
}

/** Cloth and flesh tied together, with room for one round. */
interface Coupling {
  readonly flesh: Flesh;
  readonly link: FleshLink;
  readonly layer: FleshLayer;
  readonly foundation: Float64Array;
  /** Of the layer, read under the cloth: own give, m/Pa, and thickness, m. */
  readonly local: Float64Array;
  readonly depth: Float64Array;
  readonly skinForce: Float64Array;
  readonly skinPressure: Float64Array;
  /** Movement of the patch on account of all pressure but each spot's own, m. */
  readonly spread: Float64Array;
  /** Of the last round, on the cloth: pressure, Pa, and how far the skin has moved in, m. */
  readonly pressure: Float64Array;
  readonly movement: Float64Array;
}

function couple(
  problem: EquilibriumProblem,
  flesh: Flesh,
  prepared: PreparedFlesh,
  worn: Equilibrium,
): Coupling {
  const { positions } = worn;
  const { triangles } = problem.levels.at(-1)!.mesh;
  const foundation = problem.foundation.at(-1)!;
  const { patch } = prepared;
  const link = linkFlesh(patch, prepared.nearest, { positions, triangles });
  const onCloth = () => new Float64Array(positions.length / 3);
  const onSkin = () => new Float64Array(patch.bodyVertex.length);
  const pressure = onCloth();
  const skinForce = onSkin();
  setPressure(pressure, worn, foundation);
  forceOnSkin(link, positions, pressure, skinForce);
  const layer = flesh.skin === 'held' ? heldLayer(prepared.layer, flesh.poisson, skinForce) : prepared.layer;
  const local = onCloth();
  const depth = onCloth();
  readUnderCloth(link, layer.local, local);
  readUnderCloth(link, layer.skin.depth, depth);
  const rooms = { skinForce, skinPressure: onSkin(), spread: onSkin(), pressure, movement: onCloth() };
  return { flesh, link, layer, foundation, local, depth, ...rooms };
}

/** The same flesh, its skin held where something presses on it. */
function heldLayer({ skin, plan }: FleshLayer, poisson: number, force: Float64Array): FleshLayer {
  const held = Uint8Array.from(force, (one) => (one > 0 ? 1 : 0));
  return fleshLayer(skin, poisson, { held, plan, cutOut: true });
}

/** Pressure of the cloth by how far it stands in the skin as it has moved, Pa. */
function setPressure(into: Float64Array, { distance, offset }: Equilibrium, foundation: Float64Array): void {
  for (let v = 0; v < into.length; v++) into[v] = foundation[v]! * Math.max(0, -(distance[v]! + offset[v]!));
}

/**
 * How the skin moves under what presses on it now.
 *
 * @returns The offset that would go with it, m, and the change of force it would make, as a share of all.
 */
function moved(coupling: Coupling, worn: Equilibrium): { image: Float64Array; change: number } {
  const { link, layer, foundation, local, depth, skinForce, skinPressure, spread, pressure, movement } =
    coupling;
  setPressure(pressure, worn, foundation);
  forceOnSkin(link, worn.positions, pressure, skinForce);
  for (let v = 0; v < skinForce.length; v++) skinPressure[v] = skinForce[v]! / layer.area[v]!;
  spreadMovement(layer, skinPressure, spread);
  readUnderCloth(link, spread, movement);
  const image = new Float64Array(pressure.length);
  let [missed, all] = [0, 0];
  for (let v = 0; v < image.length; v++) {
    movement[v] = stiffened(movement[v]! + local[v]! * pressure[v]!, depth[v]!);
    image[v] = movement[v]! - pressure[v]! / foundation[v]!;
    missed += (foundation[v]! * (image[v]! - worn.offset[v]!)) ** 2;
    all += pressure[v]! ** 2;
  }
  return { image, change: all > 0 ? Math.sqrt(missed / all) : 0 };
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
