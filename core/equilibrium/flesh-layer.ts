import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { triangleAreas } from '../mesh/triangle-areas.ts';
import { inFrame, setFrame, skinCurvature, type SkinCurvature } from './flesh-curvature.ts';
import { fleshKernel, type FleshKernel } from './flesh-kernel.ts';
import { lowerNeighbours, screenedMatrix, solveScreened, type ScreenedMatrix } from './flesh-solve.ts';

/** A skin over soft flesh over a firm core. */
export interface FleshSkin {
  readonly mesh: TriangleMesh;
  /** Thickness H of the flesh under each vertex, m; V. */
  readonly depth: Float64Array;
  /** H / E under each vertex, m/Pa; V. */
  readonly give: Float64Array;
}

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

/** Flesh turned less than this share of its core's radius away; beyond it the core would be no longer than a point. */
const MOST_TURN = 0.7;

/**
 * Lays out the flesh under a skin.
 *
 * Thickness, modulus and curvature may vary from place to place: the diffusion is div(H^2 grad), H^2 the mean of each
 * triangle's corners, and S stands on both sides, so that what a force here does there is what the same force there would
 * do here (Maxwell-Betti). The long term spreads along the firm core, which is shorter than the skin where the body is
 * convex: conductance (1 - H k)^-2 along each principal direction.
 *
 * @param poisson - Poisson's ratio of the flesh; see POISSON_RANGE.
 */
export function fleshLayer(skin: FleshSkin, poisson: number): FleshLayer {
  const area = thirdsOfTriangles(skin.mesh);
  const curvature = skinCurvature(skin.mesh);
  const curved = bendsOfVertices(skin, curvature, area);
  const kernels = Array.from(curved, (eta) => fleshKernel(poisson, eta));
  const rows = lowerNeighbours(skin.mesh);
  const wave = (sign: 1 | -1, along: 'skin' | 'core', term: (kernel: FleshKernel) => [number, number]) => {
    const values = new Float64Array(rows.list.length);
    const diagonal = new Float64Array(area.length);
    addSpreading(skin, along === 'core' ? curvature : null, { rows, values, diagonal });
    for (let v = 0; v < area.length; v++) diagonal[v]! += term(kernels[v]!)[1] * area[v]!;
    return {
      sign,
      share: Float64Array.from(kernels, (kernel, v) => Math.sqrt(Math.abs(term(kernel)[0]) * skin.give[v]!)),
      matrix: screenedMatrix(rows, values, diagonal),
      solution: new Float64Array(area.length),
    };
  };
  return {
    skin,
    area,
    local: Float64Array.from(kernels, ({ local }, v) => local * skin.give[v]!),
    waves: [
      wave(1, 'skin', ({ short, shortPole }) => [short, shortPole]),
      wave(-1, 'core', ({ long, longPole }) => [long, longPole]),
    ],
  };
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

interface Entries {
  readonly rows: { readonly start: Uint32Array; readonly list: Uint32Array };
  readonly values: Float64Array;
  readonly diagonal: Float64Array;
}

/**
 * Adds the stiffness of -div(H^2 D grad) by linear elements: the cotangent weights where D = 1.
 *
 * @param curvature - Null for D = 1, else D = (1 - H k)^-2.
 */
function addSpreading({ mesh, depth }: FleshSkin, curvature: SkinCurvature | null, into: Entries): void {
  const { positions, triangles } = mesh;
  const frame = new Float64Array(6);
  for (let t = 0; t < triangles.length; t += 3) {
    if (!setFrame(positions, triangles, t, frame)) continue;
    const [a, b, c] = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
    const [bx, by] = inFrame(positions, 3 * a, 3 * b, frame);
    const [cx, cy] = inFrame(positions, 3 * a, 3 * c, frame);
    const twice = bx * cy - by * cx;
    const squared = (depth[a]! ** 2 + depth[b]! ** 2 + depth[c]! ** 2) / 3;
    const thick = (depth[a]! + depth[b]! + depth[c]!) / 3;
    const [d11, d12, d22] = curvature ? coreMetric(curvature.tensors, t, thick) : FLAT;
    // Gradients of the three corners' hat functions, times twice the area.
    const gx = [by - cy, cy, -by];
    const gy = [cx - bx, -cx, bx];
    const conductance = (i: number, j: number) =>
      (squared / (2 * twice)) *
      (gx[i]! * (d11 * gx[j]! + d12 * gy[j]!) + gy[i]! * (d12 * gx[j]! + d22 * gy[j]!));
    for (let i = 0; i < 3; i++) {
      const j = (i + 1) % 3;
      into.diagonal[triangles[t + i]!]! += conductance(i, i);
      addEntry(into, triangles[t + i]!, triangles[t + j]!, conductance(i, j));
    }
  }
}

const FLAT = [1, 0, 1] as const;

const metric = (bend: number): number => (1 - Math.min(Math.max(bend, -MOST_TURN), MOST_TURN)) ** -2;

/** (1 - H k)^-2 of the 2x2 curvature tensor of a triangle. */
function coreMetric(tensors: Float64Array, t: number, thick: number): [number, number, number] {
  const [k11, k12, k22] = [thick * tensors[t]!, thick * tensors[t + 1]!, thick * tensors[t + 2]!];
  const mean = (k11 + k22) / 2;
  const half = Math.hypot((k11 - k22) / 2, k12);
  const [high, low] = [metric(mean + half), metric(mean - half)];
  if (half < 1e-12) return [high, 0, high];
  // Of the larger bend's direction (x, y): D = low + (high - low) (x, y)(x, y)'.
  const xx = (1 + (k11 - k22) / (2 * half)) / 2;
  const xy = k12 / (2 * half);
  return [low + (high - low) * xx, (high - low) * xy, low + (high - low) * (1 - xx)];
}

function addEntry({ rows, values }: Entries, a: number, b: number, value: number): void {
  const [row, column] = a > b ? [a, b] : [b, a];
  for (let i = rows.start[row]!; i < rows.start[row + 1]!; i++) {
    if (rows.list[i] === column) {
      values[i]! += value;
      return;
    }
  }
}
