import { vertexAreas } from '../mesh/vertex-areas.ts';
import { nearestPointOf, type NearestPoint } from '../mesh/nearest-point.ts';
import type { DistanceField } from '../body/distance-field.ts';
import type { Finding } from '../fault/finding.ts';
import { mmFromMetres } from '../units/units.ts';
import { SAMPLE_SIZE } from './contact-force.ts';
import type { Equilibrium, EquilibriumProblem, SettleProgress } from './equilibrium.ts';
import { prepareCloth } from './prepare-cloth.ts';
import { settle } from './settle.ts';

/** A garment worn under or over another; `lift` and `offset` are worked out here. */
export type LayerProblem = Omit<EquilibriumProblem, 'body' | 'lift' | 'offset'> & {
  /** m. */
  readonly thickness: number;
};

/** Garments worn one over the other. */
export interface LayersProblem {
  readonly body: DistanceField;
  /** From the skin outwards. */
  readonly layers: readonly LayerProblem[];
  /** Largest change of pressure, over the largest pressure, at which the give counts as shared out; 1e-3 if left out. */
  readonly tolerance?: number;
}

/** One garment at rest among the others. */
export interface SettledLayer {
  readonly equilibrium: Equilibrium;
  /** What this garment presses, Pa; V. */
  readonly pressure: Float64Array;
  /** What all of them press on the skin at its vertices, Pa; V. */
  readonly total: Float64Array;
}

export interface SettledLayers {
  /** As given, from the skin outwards. */
  readonly layers: readonly SettledLayer[];
  readonly rounds: number;
  readonly findings: readonly Finding[];
}

/** How far the layers have come. */
export interface LayersProgress {
  readonly round: number;
  readonly layer: number;
  readonly settle: SettleProgress;
}

const DEFAULT_TOLERANCE = 1e-3;
const MOST_ROUNDS = 12;
/**
 * A nearest point farther along the skin than this lies on a hem: the other garment does not reach here. m; and, since
 * two garments need not run alike where they stand apart, per distance across.
 */
const REACH_ALONG = { least: 1e-3, perAcross: 0.5 };
/** A share of pressure on a bridge below this is not worth a word, and neither is a gap below this (m). */
const WORTH_SAYING = { share: 0.01, gap: 5e-4 };

/**
 * Lets garments worn one over the other come to rest on the same skin, each with its own cloth, fabric and friction.
 *
 * Each rides on the thickness of those below: its middle stands lift = half its own + all of theirs above the skin. All
 * share the skin's give: of a foundation k the skin under garment i has moved in by sum over the others of p_j / k at
 * the nearest point before i presses at all, and i's own press adds p_i / k. Settled in turn from the inside until no
 * pressure changes any more; each round the change shrinks by the product of K / (K + k) of the layers (K: how much
 * pressure a garment loses per length it is let in), which is always below 1.
 *
 * Left out: how an outer garment pushes an inner one into a hollow that the inner bridges (told in a finding), and rubbing
 * between garments (each rubs as if on skin, with the friction given).
 */
export function* settleLayers(problem: LayersProblem): Generator<LayersProgress, SettledLayers> {
  const { body, layers } = problem;
  const tolerance = problem.tolerance ?? DEFAULT_TOLERANCE;
  const lifts = layers.map(
    ({ thickness }, i) => thickness / 2 + layers.slice(0, i).reduce((sum, below) => sum + below.thickness, 0),
  );
  const prepared = layers.map(
    (layer) => layer.prepared ?? prepareCloth(layer.levels, { hinges: layer.bending !== undefined }),
  );
  const worn: (WornLayer | null)[] = layers.map(() => null);
  let change = Infinity;
  let round = 0;
  while (round < MOST_ROUNDS && change > tolerance) {
    change = 0;
    for (const [i, layer] of layers.entries()) {
      const before = worn[i]!;
      const others = worn.filter((other, j): other is WornLayer => j !== i && other !== null);
      const layout = { ...layer, prepared: prepared[i]! };
      const search = settle(layerProblem({ layer: layout, body, lift: lifts[i]! }, before, others));
      let step = search.next();
      while (!step.done) {
        yield { round, layer: i, settle: step.value };
        step = search.next();
      }
      worn[i] = wearLayer(layer, step.value, body);
      change = Math.max(change, before ? changeOf(before.pressure, worn[i].pressure) : Infinity);
    }
    round++;
    if (layers.length === 1) change = 0;
  }
  const done = worn.filter((layer): layer is WornLayer => layer !== null);
  return {
    layers: done.map(({ equilibrium, pressure, normal }, i) => {
      const others = done.filter((_, j) => j !== i);
      const total = pressure.map((own, v) => own + pressureOfAll(others, equilibrium.positions, normal, v));
      return { equilibrium, pressure, total };
    }),
    rounds: round,
    findings: [
      ...bridgesUnder(done),
      ...(change > tolerance
        ? [{ code: 'worn/layers-not-settled' as const, facts: { changePercent: 100 * change } }]
        : []),
    ],
  };
}

/** A layer as it lies now, ready to be asked what it presses anywhere. */
interface WornLayer {
  readonly equilibrium: Equilibrium;
  /** Pa; V. */
  readonly pressure: Float64Array;
  /** Outward, unit length; 3*V. */
  readonly normal: Float64Array;
  readonly triangles: Uint32Array;
  readonly nearest: NearestPoint;
}

function layerProblem(
  { layer, body, lift }: { layer: LayerProblem; body: DistanceField; lift: number },
  before: WornLayer | null,
  others: readonly WornLayer[],
): EquilibriumProblem {
  const start = before?.equilibrium.positions ?? layer.levels.at(-1)!.mesh.positions;
  const foundation = layer.foundation.at(-1)!;
  const normal = before?.normal ?? normalsAt(start, body);
  const offset = foundation.map((k, v) => pressureOfAll(others, start, normal, v) / k);
  return {
    ...layer,
    body,
    lift,
    offset,
    ...(before && { start: before.equilibrium.positions, startNormalForce: before.equilibrium.normalForce }),
  };
}

function wearLayer(layer: LayerProblem, equilibrium: Equilibrium, body: DistanceField): WornLayer {
  const { triangles } = layer.levels.at(-1)!.mesh;
  const { positions, contactForce } = equilibrium;
  const areas = vertexAreas({ positions, triangles });
  const normal = normalsAt(positions, body);
  const pressure = areas.map((area, v) => {
    let across = 0;
    for (let k = 0; k < 3; k++) across += contactForce[3 * v + k]! * normal[3 * v + k]!;
    return Math.max(0, across) / area;
  });
  return { equilibrium, pressure, normal, triangles, nearest: nearestPointOf({ positions, triangles }) };
}

function normalsAt(positions: Float64Array, body: DistanceField): Float64Array {
  const normals = new Float64Array(positions.length);
  const sample = new Float64Array(SAMPLE_SIZE);
  for (let i = 0; i < positions.length; i += 3) {
    body.sample(positions[i]!, positions[i + 1]!, positions[i + 2]!, sample);
    const slope = Math.hypot(sample[1]!, sample[2]!, sample[3]!);
    for (let k = 0; k < 3; k++) normals[i + k] = sample[1 + k]! / slope;
  }
  return normals;
}

const pressureOfAll = (
  layers: readonly WornLayer[],
  positions: Float64Array,
  normal: Float64Array,
  v: number,
): number => layers.reduce((sum, layer) => sum + readAt(layer, layer.pressure, { positions, normal, v }), 0);

/** A value of a layer at the point nearest to a vertex of another one; 0 where it does not reach there. */
function readAt(
  { equilibrium, triangles, nearest }: WornLayer,
  values: Float64Array,
  { positions, normal, v }: { positions: Float64Array; normal: Float64Array; v: number },
): number {
  const weights = new Float64Array(4);
  const x = positions[3 * v]!;
  const y = positions[3 * v + 1]!;
  const z = positions[3 * v + 2]!;
  const t = nearest(x, y, z, weights);
  let value = 0;
  const apart = [-x, -y, -z];
  for (let m = 0; m < 3; m++) {
    const corner = triangles[3 * t + m]!;
    value += weights[m]! * values[corner]!;
    for (let k = 0; k < 3; k++) apart[k]! += weights[m]! * equilibrium.positions[3 * corner + k]!;
  }
  let across = 0;
  for (let k = 0; k < 3; k++) across += apart[k]! * normal[3 * v + k]!;
  const along = Math.sqrt(Math.max(0, weights[3]! ** 2 - across ** 2));
  return along > REACH_ALONG.least + REACH_ALONG.perAcross * Math.abs(across) ? 0 : value;
}

/** Largest change over the largest value. */
function changeOf(before: Float64Array, after: Float64Array): number {
  let change = 0;
  let largest = 0;
  for (let v = 0; v < after.length; v++) {
    change = Math.max(change, Math.abs(after[v]! - before[v]!));
    largest = Math.max(largest, after[v]!);
  }
  return largest > 0 ? change / largest : 0;
}

/** How much of what the outer layers press falls where the layer right below them stands off the skin. */
function bridgesUnder(layers: readonly WornLayer[]): Finding[] {
  return layers.flatMap((outer, i): Finding[] => {
    const inner = layers[i - 1];
    if (!inner) return [];
    const { distance, offset } = inner.equilibrium;
    const gap = distance.map((d, v) => Math.max(0, d + offset[v]!));
    let onBridge = 0;
    let all = 0;
    let largestGap = 0;
    const areas = vertexAreas({ positions: outer.equilibrium.positions, triangles: outer.triangles });
    for (let v = 0; v < areas.length; v++) {
      const force = outer.pressure[v]! * areas[v]!;
      if (force === 0) continue;
      all += force;
      const stands = readAt(inner, gap, {
        positions: outer.equilibrium.positions,
        normal: outer.normal,
        v,
      });
      if (stands < WORTH_SAYING.gap) continue;
      onBridge += force;
      largestGap = Math.max(largestGap, stands);
    }
    if (all === 0 || onBridge < WORTH_SAYING.share * all) return [];
    return [
      {
        code: 'worn/layer-on-bridge',
        facts: { sharePercent: (100 * onBridge) / all, largestGapMm: mmFromMetres(largestGap) },
      },
    ];
  });
}
