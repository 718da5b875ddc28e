import { meshEdges } from '../mesh/mesh-edges.ts';
import { triangleAreas } from '../mesh/triangle-areas.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { triple } from '../mesh/triple.ts';
import { skinCurvature, type SkinCurvature } from './flesh-curvature.ts';
import { fleshKernel } from './flesh-kernel.ts';
import { lowerNeighbours, solveScreened, type ScreenedMatrix } from './flesh-solve.ts';
import { screenedSpreading, type FleshSkin, type SpreadingFrame } from './flesh-spreading.ts';

/** A nearly incompressible layer, ready to be pressed. */
export interface FleshLayer {
  readonly skin: FleshSkin;
  /** Skin each vertex stands for, m^2; V. */
  readonly area: Float64Array;
  /** What each vertex gives by its own pressure alone, m/Pa; V. */
  readonly local: Float64Array;
  readonly waves: readonly FleshWave[];
}

/** One of the terms that carry pressure from place to place: sign S (pole M - H^2 Lap)^-1 M S p. */
export interface FleshWave {
  readonly sign: 1 | -1;
  /** S = sqrt(|amplitude| H/E); V. */
  readonly share: Float64Array;
  readonly matrix: ScreenedMatrix;
  /** The last solution, from which the next one starts; V. */
  readonly solution: Float64Array;
}

/**
 * Lays out the flesh under a skin.
 *
 * Thickness, modulus and curvature may vary from place to place: the diffusion is div(H^2 grad), H^2 the mean of each
 * triangle's corners, and S stands on both sides, so that what a force here does there is what the same force there would
 * do here (Maxwell-Betti). The long term spreads along the firm core, which is shorter than the skin where the body is
 * convex: conductance (1 - H k)^-2 along each principal direction.
 *
 * @param poisson - Poisson's ratio of the flesh; see POISSON_RANGE.
 * @param options.held - 1 where cloth holds the skin against sliding; V. Left out, the skin slides everywhere.
 * @param options.cutOut - The skin was cut out of a larger one, and goes on beyond its free edges; else those are mirrors.
 */
export function fleshLayer(
  skin: FleshSkin,
  poisson: number,
  { held, cutOut = false }: { held?: Uint8Array; cutOut?: boolean } = {},
): FleshLayer {
  const area = thirdsOfTriangles(skin.mesh);
  const curvature = skinCurvature(skin.mesh);
  const curved = bendsOfVertices(skin, curvature, area);
  const kernels = Array.from(curved, (eta) => fleshKernel(poisson, eta));
  const rows = lowerNeighbours(skin.mesh);
  const open = cutOut ? freeEdgeLengths(skin.mesh) : new Float64Array(area.length);
  const flow = held ? flowUnder(held, skin, { area, rows, open }) : null;
  const term = (which: 'short' | 'long'): FleshWave => {
    const poles = Float64Array.from(kernels, (kernel) => kernel[`${which}Pole`]);
    const along = which === 'long' ? { curvature, flow } : { curvature: null, flow: null };
    return {
      sign: which === 'long' ? -1 : 1,
      share: Float64Array.from(kernels, (kernel, v) => Math.sqrt(Math.abs(kernel[which]) * skin.give[v]!)),
      matrix: screenedSpreading(skin, poles, { area, rows, open }, along),
      solution: new Float64Array(area.length),
    };
  };
  return {
    skin,
    area,
    local: Float64Array.from(kernels, ({ local }, v) => local * skin.give[v]!),
    waves: [term('short'), term('long')],
  };
}

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
  const hold = new Float64Array(held.length);
  const load = frame.area.map((area, v) => pole * area * held[v]!);
  solveScreened(matrix, load, hold, 1e-5);
  return hold.map((share) => 1 - (1 - HELD.flow) * Math.min(Math.max(share, 0), 1));
}

/**
 * How far the skin moves in, on account of the whole pressure on it save for what each spot gives on its own
 * (`local` times its pressure). Linear: see `stiffened` for deep indents.
 *
 * @param pressure - Pa; V.
 * @param into - m, inward positive; V, overwritten.
 * @param tolerance - Of the equations, relative.
 */
export function spreadMovement(
  { area, waves }: FleshLayer,
  pressure: Float64Array,
  into: Float64Array,
  tolerance = 1e-7,
): void {
  into.fill(0);
  const load = new Float64Array(area.length);
  for (const { sign, share, matrix, solution } of waves) {
    for (let v = 0; v < load.length; v++) load[v] = area[v]! * share[v]! * pressure[v]!;
    solveScreened(matrix, load, solution, tolerance);
    for (let v = 0; v < load.length; v++) into[v]! += sign * share[v]! * solution[v]!;
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
