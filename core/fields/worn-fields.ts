import type { DistanceField } from '../body/distance-field.ts';
import type { Equilibrium } from '../equilibrium/equilibrium.ts';
import type { Garment } from '../garment/garment.ts';
import { triangleAreas } from '../mesh/triangle-areas.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { vertexAreas } from '../mesh/vertex-areas.ts';
import type { CouplingEnds } from './coupling-ends.ts';
import type { Field, FieldBand } from './field.ts';
import { gripUsed } from './grip-used.ts';
import { discMeans, skinPressure, type Contact } from './skin-pressure.ts';
import { spreadToVertices } from './spread-to-vertices.ts';
import type { ClothPull } from './stretch-and-tension.ts';
import { skinPressureBand, tensionBand } from './worn-band.ts';

/** A garment that has come to rest, and all that is needed to read it. */
export interface Worn {
  readonly garment: Garment;
  readonly equilibrium: Equilibrium;
  readonly pull: ClothPull;
  readonly skin: DistanceField;
  /** Coulomb's coefficient as it was asked for; 0 slides freely. */
  readonly friction: number;
  /** Of the cloth, m; counts for nothing if left out. */
  readonly thickness?: number;
  /** How the flesh gave way; the foundation if left out. */
  readonly flesh?: 'foundation' | 'layer';
  /** What the cloth would do at both ends of its coupling's band; left out where the fabric bears none. */
  readonly ends?: CouplingEnds;
}

/**
 * Every quantity that can be painted, in the order of `FieldId`.
 *
 * Pressure, give and grip are undefined (hatched, value 0) off the skin, grip also where there is no friction; the gap on
 * it (no gap and hardly any must not look alike); a tension is undefined where its direction is slack. Where flesh is a
 * layer it moves off the cloth too, and bulges count below zero. Pressures and tensions carry the coupling's band;
 * stretch, gap and give are of the shape as it stands, and bear none.
 */
export function wornFields({ garment, equilibrium, pull, skin, friction, flesh, ends }: Worn): Field[] {
  const mesh = wornMesh(garment, equilibrium);
  const areas = triangleAreas(mesh);
  const perVertex = spreadToVertices(mesh, areas);
  const mostly = (flags: Uint8Array) => flagsOf(perVertex(flags), (share) => share > 0.5);
  const contact: Contact = {
    positions: equilibrium.positions,
    areas: vertexAreas(mesh),
    force: equilibrium.contactForce,
    normals: skinNormals(skin, equilibrium.positions),
  };
  const pressure = skinPressure(contact);
  const offSkin = flagsOf(pressure, (value) => !(value > 0));
  const nowhere = new Uint8Array(pressure.length);
  // From the skin as it has moved: pressed in here, bulging there.
  const { distance, offset } = equilibrium;
  const gap = distance.map((away, v) => Math.max(0, away + offset[v]!));
  const onSkin = flagsOf(gap, (value) => !(value > 0));
  const give: Pick<Field, 'kind' | 'values' | 'undefinedAt'> =
    flesh === 'layer'
      ? {
          kind: 'symmetric',
          values: distance.map((away, v) => (gap[v]! > 0 ? offset[v]! : -away)),
          undefinedAt: nowhere,
        }
      : { kind: 'sequential', values: distance.map((away) => Math.max(0, -away)), undefinedAt: offSkin };
  const stretch = (id: 'stretchAcross' | 'stretchAlong', kind: Field['kind']): Field => {
    return { id, unit: 'ratio', kind, values: perVertex(pull[id]), undefinedAt: nowhere };
  };
  const tension = (id: 'tensionAcross' | 'tensionAlong', direction: 'across' | 'along'): Field => {
    const slack = mostly(direction === 'across' ? pull.slackAcross : pull.slackAlong);
    const unlessSlack = (values: Float64Array) => perVertex(values).map((value, v) => (slack[v] ? 0 : value));
    const perTriangle = ends && tensionBand(direction, pull, ends);
    const band = perTriangle && { low: unlessSlack(perTriangle.low), high: perVertex(perTriangle.high) };
    const values = unlessSlack(pull[id]);
    return { id, unit: 'N/m', kind: 'sequential', values, undefinedAt: slack, ...within(values, band) };
  };
  return [
    ...pressures(pressure, contact, ends),
    stretch('stretchAcross', 'sequential'),
    stretch('stretchAlong', 'symmetric'),
    tension('tensionAcross', 'across'),
    tension('tensionAlong', 'along'),
    { id: 'gap', unit: 'm', kind: 'sequential', values: gap, undefinedAt: onSkin },
    { id: 'give', unit: 'm', ...give },
    {
      id: 'gripUsed',
      unit: 'ratio',
      kind: 'sequential',
      values: gripUsed(contact, friction),
      undefinedAt: friction > 0 ? offSkin : offSkin.map(() => 1),
    },
  ];
}

/** Pressure on skin and on a disc; both undefined off the skin. */
function pressures(pressure: Float64Array, contact: Contact, ends: CouplingEnds | undefined): Field[] {
  const onSkin = flagsOf(pressure, (value) => value > 0);
  const undefinedAt = onSkin.map((one) => 1 - one);
  const band = ends && skinPressureBand(pressure, contact, ends);
  const [disc, low, high] = discMeans([pressure, ...(band ? [band.low, band.high] : [])], onSkin, contact);
  const discBand = low && high && { low, high };
  const shown = { unit: 'Pa', kind: 'sequential', undefinedAt } as const;
  return [
    { ...shown, id: 'skinPressure', values: pressure, ...within(pressure, band) },
    { ...shown, id: 'discPressure', values: disc!, ...within(disc!, discBand) },
  ];
}

/** 1 where a value is such, else 0. */
function flagsOf(values: Float64Array, isSuch: (value: number) => boolean): Uint8Array {
  const flags = new Uint8Array(values.length);
  for (let v = 0; v < flags.length; v++) if (isSuch(values[v]!)) flags[v] = 1;
  return flags;
}

/** The band as a field carries it, to the last bit round its values: means of sums may leave it by a rounding. */
function within(values: Float64Array, band: FieldBand | undefined): { band?: FieldBand } {
  if (!band) return {};
  const low = band.low.map((value, v) => Math.min(value, values[v]!));
  const high = band.high.map((value, v) => Math.max(value, values[v]!));
  return { band: { low, high } };
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
