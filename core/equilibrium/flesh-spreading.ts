import type { Rows } from '../mesh/mesh-edges.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { inFrame, setFrame, type SkinCurvature } from './flesh-curvature.ts';
import type { EliminationPlan, PlannedMatrix } from './flesh-elimination.ts';

/** A skin over soft flesh over a firm core. */
export interface FleshSkin {
  readonly mesh: TriangleMesh;
  /** Thickness H of the flesh under each vertex, m; V. */
  readonly depth: Float64Array;
  /** H / E under each vertex, m/Pa; V. */
  readonly give: Float64Array;
}

/** What all matrices of one skin share. */
export interface SpreadingFrame {
  readonly area: Float64Array;
  readonly plan: EliminationPlan;
  /** Length of edge beyond which the skin goes on, per vertex, m. */
  readonly open: Float64Array;
}

/** What a term spreads along: the core where there is a curvature, as easily as `flow` says per vertex. */
export interface SpreadingAlong {
  readonly curvature: SkinCurvature | null;
  readonly flow: Float64Array | null;
}

/**
 * pole M - div(H^2 D grad), M the area of each vertex.
 *
 * D = flow along the skin; along the core flow (1 - H k)^-0.555 in each principal direction: the core is shorter than
 * the skin by 1 - H k, and the exponent (2 would be the core's own metric) is fitted, see `fleshLayer`.
 */
export function screenedSpreading(
  skin: FleshSkin,
  poles: Float64Array,
  { area, plan, open }: SpreadingFrame,
  along: SpreadingAlong,
): PlannedMatrix {
  const { place, lower } = plan;
  const into = {
    place,
    lower,
    values: new Float64Array(lower.list.length),
    diagonal: new Float64Array(area.length),
  };
  addSpreading(skin, along, into);
  for (let v = 0; v < area.length; v++) {
    // Beyond an open edge the solution dies away as exp(-x sqrt(pole) / H): H sqrt(pole) times its value flows out per length.
    into.diagonal[place[v]!]! += poles[v]! * area[v]! + Math.sqrt(poles[v]!) * skin.depth[v]! * open[v]!;
  }
  return into;
}

/** Bends H k beyond this either way count as this: at 1 the core would be a point. */
const MOST_TURN = 0.9;
const TOWARDS_CORE = 0.555;

interface Entries {
  readonly place: Uint32Array;
  readonly lower: Rows;
  readonly values: Float64Array;
  readonly diagonal: Float64Array;
}

/** Adds the stiffness of -div(H^2 D grad) by linear elements: the cotangent weights where D = 1. */
function addSpreading({ mesh, depth }: FleshSkin, { curvature, flow }: SpreadingAlong, into: Entries): void {
  const { positions, triangles } = mesh;
  const frame = new Float64Array(6);
  for (let t = 0; t < triangles.length; t += 3) {
    if (!setFrame(positions, triangles, t, frame)) continue;
    const [a, b, c] = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
    const [bx, by] = inFrame(positions, 3 * a, 3 * b, frame);
    const [cx, cy] = inFrame(positions, 3 * a, 3 * c, frame);
    const twice = bx * cy - by * cx;
    const ease = flow ? (flow[a]! + flow[b]! + flow[c]!) / 3 : 1;
    const squared = (ease * (depth[a]! ** 2 + depth[b]! ** 2 + depth[c]! ** 2)) / 3;
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
      into.diagonal[into.place[triangles[t + i]!]!]! += conductance(i, i);
      addEntry(into, into.place[triangles[t + i]!]!, into.place[triangles[t + j]!]!, conductance(i, j));
    }
  }
}

const FLAT = [1, 0, 1] as const;

const metric = (bend: number): number =>
  (1 - Math.min(Math.max(bend, -MOST_TURN), MOST_TURN)) ** -TOWARDS_CORE;

/** (1 - H k)^-0.555 of the 2x2 curvature tensor of a triangle. */
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

function addEntry({ lower, values }: Entries, a: number, b: number, value: number): void {
  const [row, column] = a > b ? [a, b] : [b, a];
  for (let i = lower.start[row]!; i < lower.start[row + 1]!; i++) {
    if (lower.list[i] === column) {
      values[i]! += value;
      return;
    }
  }
}
