import type { Equilibrium, EquilibriumProblem } from './equilibrium.ts';
import { stiffened } from './flesh-kernel.ts';
import { fleshLayer, spreadMovement, type FleshLayer } from './flesh-layer.ts';
import { forceOnSkin, linkFlesh, readUnderCloth, type FleshLink } from './flesh-link.ts';
import type { Flesh, PreparedFlesh } from './prepare-flesh.ts';

/** Cloth and flesh tied together, with room for one round. */
export interface Coupling {
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

/** Ties worn cloth to the skin under it. */
export function couple(
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
  forceOnSkin(link, pressure, skinForce);
  const layer = flesh.skin === 'held' ? heldLayer(prepared.layer, flesh.poisson, skinForce) : prepared.layer;
  const local = onCloth();
  const depth = onCloth();
  readUnderCloth(link, layer.local, local);
  readUnderCloth(link, layer.skin.depth, depth);
  const rooms = { skinForce, skinPressure: onSkin(), spread: onSkin(), pressure, movement: onCloth() };
  return { flesh, link, layer, foundation, local, depth, ...rooms };
}

/** The same with cloth linked to the skin that it lies on by now. */
export function linkedAnew(
  coupling: Coupling,
  { patch, nearest }: PreparedFlesh,
  { positions }: Equilibrium,
): Coupling {
  const link = linkFlesh(patch, nearest, { positions, triangles: coupling.link.cloth });
  readUnderCloth(link, coupling.layer.local, coupling.local);
  readUnderCloth(link, coupling.layer.skin.depth, coupling.depth);
  return { ...coupling, link };
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
export function moved(coupling: Coupling, worn: Equilibrium): { image: Float64Array; change: number } {
  const { link, layer, foundation, local, depth, skinForce, skinPressure, spread, pressure, movement } =
    coupling;
  setPressure(pressure, worn, foundation);
  forceOnSkin(link, pressure, skinForce);
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
