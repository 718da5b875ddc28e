import { meshEdges } from '../mesh/mesh-edges.ts';
import { triangleAreas } from '../mesh/triangle-areas.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { triple } from '../mesh/triple.ts';
import { skinCurvature, type SkinCurvature } from './flesh-curvature.ts';
import { fleshKernel, type FleshKernel } from './flesh-kernel.ts';
import {
  factoriseThree,
  planElimination,
  solveThree,
  type EliminationPlan,
  type ThreeFactors,
} from './flesh-elimination.ts';
import { screenedSpreading, type FleshSkin, type SpreadingFrame } from './flesh-spreading.ts';

/**
 * A nearly incompressible layer, ready to be pressed. Three terms sign S (pole M - H^2 Lap)^-1 M S p carry pressure from
 * place to place.
 */
export interface FleshLayer {
  readonly skin: FleshSkin;
  /** Skin each vertex stands for, m^2; V. */
  readonly area: Float64Array;
  /** What each vertex gives by its own pressure alone, m/Pa; V. */
  readonly local: Float64Array;
  readonly plan: EliminationPlan;
  /** S = sqrt(|amplitude| H/E) of the three terms, turn by turn, by places of the plan; 3*V. */
  readonly shares: Float64Array;
  readonly factors: ThreeFactors;
}

/** Of the three terms: the short one gives, the long one along the core takes back, along the skin it gives. */
const SIGNS = [1, -1, 1] as const;

/**
 * Lays out the flesh under a skin.
 *
 * Thickness, modulus and curvature may vary from place to place: the diffusion is div(H^2 grad), H^2 the mean of each
 * triangle's corners, and S stands on both sides, so that what a force here does there is what the same force there would
 * do here (Maxwell-Betti). Part of the long term spreads along the firm core, which is shorter than the skin where the
 * body is convex: see {@link screenedSpreading}.
 *
 * @param poisson - Poisson's ratio of the flesh; see POISSON_RANGE.
 * @param options.held - 1 where cloth holds the skin against sliding; V. Left out, the skin slides everywhere.
 * @param options.plan - Of an earlier layer on the same mesh.
 * @param options.cutOut - The skin was cut out of a larger one, and goes on beyond its free edges; else those are mirrors.
 */
export function fleshLayer(
  skin: FleshSkin,
  poisson: number,
  options: { held?: Uint8Array; cutOut?: boolean; plan?: EliminationPlan } = {},
): FleshLayer {
  const area = thirdsOfTriangles(skin.mesh);
  const curvature = skinCurvature(skin.mesh);
  const curved = bendsOfVertices(skin, curvature, area);
  const kernels = Array.from(curved, (eta) => fleshKernel(poisson, eta));
  const { held, cutOut = false, plan = planElimination(skin.mesh) } = options;
  const open = cutOut ? freeEdgeLengths(skin.mesh) : new Float64Array(area.length);
  const flow = held ? flowUnder(held, skin, { area, plan, open }) : null;
  const each = (of: (kernel: FleshKernel) => number) => Float64Array.from(kernels, of);
  const [shortPoles, longPoles] = [each(({ shortPole }) => shortPole), each(({ longPole }) => longPole)];
  const frame = { area, plan, open };
  const shares = new Float64Array(3 * area.length);
  kernels.forEach(({ short, long }, v) => {
    const root = (amplitude: number) => Math.sqrt(Math.abs(amplitude) * skin.give[v]!);
    shares.set([root(short), root(long - ALONG_SKIN), root(ALONG_SKIN)], 3 * plan.place[v]!);
  });
  return {
    skin,
    area,
    local: Float64Array.from(kernels, ({ local }, v) => local * skin.give[v]!),
    plan,
    shares,
    factors: factoriseThree(plan, [
      screenedSpreading(skin, shortPoles, frame, { curvature: null, flow: null }),
      screenedSpreading(skin, longPoles, frame, { curvature, flow }),
      screenedSpreading(skin, longPoles, frame, { curvature: null, flow }),
    ]),
  };
}

/**
 * Part of the long term that spreads along the skin, the rest along the core. Flat it is all one. Waves round a limb
 * (n 1 to 12, H/R 0.1 to 0.6, nu 0.45 and 0.49, also with waves along it) then come within 11.5 % (rms 5) of
 * three-dimensional elasticity; spread along the skin alone they miss by up to 57 %.
 */
const ALONG_SKIN = 1.64;

/** Flesh under a skin that is held flows this much as easily, and the hold reaches this many thicknesses into what is near. */
const HELD = { flow: 0.085, reach: 1.387 };

/**
 * How easily flesh flows along under each vertex, 1 where the skin is free to slide.
 *
 * Flesh that can hardly be compressed and is pressed in here must flow along to come out there, and a skin that does not
 * slide holds it back, as a second wall holds back a film of fluid (to a quarter, were it held everywhere). Fitted to what
 * CalculiX 2.20 found of 11 rings whose skin is held under the band (0.5 to 7.5 H wide, nu 0.45 and 0.49): indents within
 * 15 % (rms 6), bulges within 13 %.
 *
 * @see Reynolds, Phil. Trans. R. Soc. 177 (1886) 157 (flow between two walls goes as h^3/12, under a free face as h^3/3).
 */
function flowUnder(held: Uint8Array, skin: FleshSkin, frame: SpreadingFrame): Float64Array {
  const pole = 1 / HELD.reach ** 2;
  const poles = new Float64Array(held.length).fill(pole);
  const matrix = screenedSpreading(skin, poles, frame, { curvature: null, flow: null });
  const { plan, area } = frame;
  const hold = new Float64Array(3 * held.length);
  for (let v = 0; v < held.length; v++) hold[3 * plan.place[v]!] = pole * area[v]! * held[v]!;
  // One matrix in three places: there is no elimination of single ones.
  solveThree(plan, factoriseThree(plan, [matrix, matrix, matrix]), hold);
  return area.map((_, v) => 1 - (1 - HELD.flow) * Math.min(Math.max(hold[3 * plan.place[v]!]!, 0), 1));
}

/**
 * How far the skin moves in, on account of the whole pressure on it save for what each spot gives on its own
 * (`local` times its pressure). Linear: see `stiffened` for deep indents.
 *
 * @param pressure - Pa; V.
 * @param into - m, inward positive; V, overwritten.
 */
export function spreadMovement(
  { area, plan, shares, factors }: FleshLayer,
  pressure: Float64Array,
  into: Float64Array,
): void {
  const x = Float64Array.from(shares);
  for (let v = 0; v < area.length; v++) {
    const force = area[v]! * pressure[v]!;
    for (let i = 3 * plan.place[v]!, end = i + 3; i < end; i++) x[i]! *= force;
  }
  solveThree(plan, factors, x);
  for (let v = 0; v < area.length; v++) {
    const i = 3 * plan.place[v]!;
    into[v] = 0;
    SIGNS.forEach((sign, k) => (into[v]! += sign * shares[i + k]! * x[i + k]!));
  }
}

/** Length of free edge that each vertex stands for, m; V. */
function freeEdgeLengths(mesh: TriangleMesh): Float64Array {
  const { vertices, triangleCount } = meshEdges(mesh);
  const lengths = new Float64Array(mesh.positions.length / 3);
  for (let e = 0; e < triangleCount.length; e++) {
    if (triangleCount[e] !== 1) continue;
    const [a, b] = [vertices[2 * e]!, vertices[2 * e + 1]!];
    const length = Math.hypot(...triple((k) => mesh.positions[3 * b + k]! - mesh.positions[3 * a + k]!));
    lengths[a]! += length / 2;
    lengths[b]! += length / 2;
  }
  return lengths;
}

function thirdsOfTriangles(mesh: TriangleMesh): Float64Array {
  const area = new Float64Array(mesh.positions.length / 3);
  triangleAreas(mesh).forEach((whole, t) => {
    for (let k = 0; k < 3; k++) area[mesh.triangles[3 * t + k]!]! += whole / 3;
  });
  return area;
}

/** H (k1 + k2) per vertex: the mean of its triangles. */
function bendsOfVertices(
  { mesh, depth }: FleshSkin,
  { tensors }: SkinCurvature,
  area: Float64Array,
): Float64Array {
  const { triangles } = mesh;
  const sum = new Float64Array(area.length);
  const weight = new Float64Array(area.length);
  for (let i = 0; i < triangles.length; i++) {
    const t = i - (i % 3);
    sum[triangles[i]!]! += tensors[t]! + tensors[t + 2]!;
    weight[triangles[i]!]!++;
  }
  return sum.map((bend, v) => (weight[v] === 0 ? 0 : (depth[v]! * bend) / weight[v]!));
}
