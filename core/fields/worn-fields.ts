import type { DistanceField } from '../body/distance-field.ts';
import type { Equilibrium } from '../equilibrium/equilibrium.ts';
import type { Garment } from '../garment/garment.ts';
import { triangleAreas } from '../mesh/triangle-areas.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { vertexAreas } from '../mesh/vertex-areas.ts';
import type { Field } from './field.ts';
import { discPressure, skinPressure, type Contact } from './skin-pressure.ts';
import { spreadToVertices } from './spread-to-vertices.ts';
import type { ClothPull } from './stretch-and-tension.ts';

/** A garment that has come to rest, and all that is needed to read it. */
export interface Worn {
  readonly garment: Garment;
  readonly equilibrium: Equilibrium;
  readonly pull: ClothPull;
  readonly skin: DistanceField;
}

/**
 * Every quantity that can be painted, in the order of `FieldId`.
 *
 * Pressure and give are undefined (hatched, value 0) off the skin, the gap on it (no gap and hardly any must not look
 * alike); a tension is undefined where its direction is slack.
 */
export function wornFields({ garment, equilibrium, pull, skin }: Worn): Field[] {
  const mesh = wornMesh(garment, equilibrium);
  const areas = triangleAreas(mesh);
  const perVertex = (values: Float64Array) => spreadToVertices(mesh, values, areas);
  const mostly = (flags: Uint8Array) =>
    Uint8Array.from(perVertex(Float64Array.from(flags)), (share) => (share > 0.5 ? 1 : 0));
  const contact: Contact = {
    positions: equilibrium.positions,
    areas: vertexAreas(mesh),
    force: equilibrium.contactForce,
    normals: skinNormals(skin, equilibrium.positions),
  };
  const pressure = skinPressure(contact);
  const offSkin = Uint8Array.from(pressure, (value) => (value > 0 ? 0 : 1));
  const nowhere = new Uint8Array(pressure.length);
  const gap = equilibrium.distance.map((distance) => Math.max(0, distance));
  const onSkin = Uint8Array.from(gap, (value) => (value > 0 ? 0 : 1));
  const give = equilibrium.distance.map((distance) => Math.max(0, -distance));
  const slackAcross = mostly(pull.slackAcross);
  const slackAlong = mostly(pull.slackAlong);
  const tension = (values: Float64Array, slack: Uint8Array) =>
    perVertex(values).map((value, v) => (slack[v] ? 0 : value));
  return [
    { id: 'skinPressure', unit: 'Pa', kind: 'sequential', values: pressure, undefinedAt: offSkin },
    {
      id: 'discPressure',
      unit: 'Pa',
      kind: 'sequential',
      values: discPressure(pressure, contact),
      undefinedAt: offSkin,
    },
    {
      id: 'stretchAcross',
      unit: 'ratio',
      kind: 'sequential',
      values: perVertex(pull.stretchAcross),
      undefinedAt: nowhere,
    },
    {
      id: 'stretchAlong',
      unit: 'ratio',
      kind: 'symmetric',
      values: perVertex(pull.stretchAlong),
      undefinedAt: nowhere,
    },
    {
      id: 'tensionAcross',
      unit: 'N/m',
      kind: 'sequential',
      values: tension(pull.tensionAcross, slackAcross),
      undefinedAt: slackAcross,
    },
    {
      id: 'tensionAlong',
      unit: 'N/m',
      kind: 'sequential',
      values: tension(pull.tensionAlong, slackAlong),
      undefinedAt: slackAlong,
    },
    { id: 'gap', unit: 'm', kind: 'sequential', values: gap, undefinedAt: onSkin },
    { id: 'give', unit: 'm', kind: 'sequential', values: give, undefinedAt: offSkin },
  ];
}

/** The finest mesh where it came to rest. */
export function wornMesh(garment: Garment, equilibrium: Equilibrium): TriangleMesh {
  return { positions: equilibrium.positions, triangles: garment.levels.at(-1)!.mesh.triangles };
}

/** Outward unit normal of the skin at each vertex; 3*V. */
function skinNormals(skin: DistanceField, positions: Float64Array): Float64Array {
  const normals = new Float64Array(positions.length);
  const sample = new Float64Array(10);
  for (let i = 0; i < positions.length; i += 3) {
    skin.sample(positions[i]!, positions[i + 1]!, positions[i + 2]!, sample);
    const length = Math.hypot(sample[1]!, sample[2]!, sample[3]!) || 1;
    for (let k = 0; k < 3; k++) normals[i + k] = sample[1 + k]! / length;
  }
  return normals;
}
