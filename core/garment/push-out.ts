import type { DistanceField } from '../body/distance-field.ts';
import { vertexNormals } from '../mesh/triangle-areas.ts';
import { buriedVertices, clothOverSkin } from './buried-vertices.ts';
import type { ClothLevel } from './garment.ts';
import { spanOver } from './neighbour-middle.ts';

/** The way of one step, m: a field far inside the body tells roughly where it goes on, not how far. */
const STEP = { most: 0.006, least: 0.002 };
/** So many steps lead right through a trunk. */
const MOST_STEPS = 80;
/** A vertex this near the skin has arrived, m. */
const ARRIVED = 1e-5;
/** A gradient shorter than this tells no way. */
const LEAST_SLOPE = 0.3;

/**
 * Positions with every buried vertex carried out to the skin, in short steps along the field's gradient.
 *
 * Where cloth lies past the middle of the body or on the wall of a deep dent, the gradient leads out at the wrong side, away
 * from its neighbours: it runs against the way the cloth faces. Such cloth is first spanned straight over from the cloth
 * round it.
 *
 * @param level - Facing outwards; not changed.
 * @returns 3*V, m; finite, still buried where no way led out.
 */
export function pushOut(level: ClothLevel, skin: DistanceField): Float64Array {
  const { triangles } = level.mesh;
  const positions = level.mesh.positions.slice();
  const laid = clothOverSkin(level.mesh, skin);
  const isBuried = buriedVertices(laid, skin);
  if (!isBuried) return positions;
  const face = laid.faces;
  const isLost = isBuried.map((one, v) => (one && !leadsOut(laid.under.gradient, face, v) ? 1 : 0));
  if (isLost.includes(1)) {
    spanOver(level, isLost, positions);
    face.set(vertexNormals({ positions, triangles }));
  }
  const point = new Float64Array(3);
  for (let v = 0; v < isBuried.length; v++) {
    if (isBuried[v] === 0) continue;
    point.set(positions.subarray(3 * v, 3 * v + 3));
    stepOut(skin, point, face.subarray(3 * v, 3 * v + 3));
    positions.set(point, 3 * v);
  }
  return positions;
}

/** Whether the field leads a vertex out on the side that its cloth faces. */
function leadsOut(gradient: Float64Array, face: Float64Array, v: number): boolean {
  let along = 0;
  for (let k = 0; k < 3; k++) along += gradient[3 * v + k]! * face[3 * v + k]!;
  return along > 0;
}

/** Takes one point out of the body: along the gradient, and the way the cloth faces where there is none. */
function stepOut(skin: DistanceField, point: Float64Array, face: Float64Array): void {
  const sample = new Float64Array(10);
  for (let step = 0; step < MOST_STEPS; step++) {
    skin.sample(point[0]!, point[1]!, point[2]!, sample);
    const depth = -sample[0]!;
    if (!(depth > ARRIVED)) return;
    const slope = Math.hypot(sample[1]!, sample[2]!, sample[3]!);
    const isSloping = slope > LEAST_SLOPE;
    const by = Math.min(STEP.most, isSloping ? depth : Math.max(depth, STEP.least));
    for (let k = 0; k < 3; k++) point[k]! += by * (isSloping ? sample[1 + k]! / slope : face[k]!);
  }
}
