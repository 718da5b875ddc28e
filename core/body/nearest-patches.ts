import type { Triple } from '../mesh/triple.ts';
import { closestOnPatch } from './closest-on-patch.ts';
import type { LiftedSurface } from './lifted-surface.ts';
import type { NodeLattice } from './node-lattice.ts';

/**
 * Within this many spacings of the skin the walk makes sure of the nearest patch. Farther off the patch handed on is kept:
 * measured at most 0.4 mm too far, where nothing touches, for half the time of walking everywhere.
 */
const WALK_SPACINGS = 5;

/** Stands at nodes that no triangle has reached. */
export const NOT_REACHED = 0xffffffff;

/** The nearest patch of each node of a lattice, as far as `reach`. */
export interface NearestPatches {
  /** NOT_REACHED where the skin is farther than `reach`; one per node. */
  readonly patch: Uint32Array;
  /** m, unsigned; Infinity where not reached. */
  readonly distance: Float64Array;
  /** Room for one answer of `closestOnPatch`. */
  readonly closest: Float64Array;
}

/**
 * Finds the nearest patch of every node within `reach` of the surface.
 *
 * Every patch is measured at the nodes within one spacing of it, so the nodes round the skin are exact; from there the
 * patches found are handed on from node to node in order of distance, each time walking on to a nearer one. No tree is
 * asked: a node sees only the few patches its neighbours offer. Skin beyond the lattice is not seen: a distance is the
 * true one where it is less than the way to the lattice's border.
 */
export function nearestPatches(surface: LiftedSurface, lattice: NodeLattice, reach: number): NearestPatches {
  const [nx, ny, nz] = lattice.counts;
  const found = {
    patch: new Uint32Array(nx * ny * nz).fill(NOT_REACHED),
    distance: new Float64Array(nx * ny * nz).fill(Infinity),
    closest: new Float64Array(6),
  };
  measureAround(surface, lattice, found);
  handOn(surface, lattice, found, reach);
  return found;
}

/**
 * The nearest patch of one point: the nearest of some patches that lie round it, or what a walk from there leads to.
 *
 * Outside the skin there is no walk from a foot within a patch: it is no farther than those on the patches beside it.
 *
 * @param offered - Patches; NOT_REACHED among them is passed over.
 * @param into - Room for one node; overwritten.
 */
/* oxlint-disable-next-line max-params -- called for every finer node */
export function nearestOf(
  surface: LiftedSurface,
  at: Readonly<Triple>,
  offered: Uint32Array,
  isOutside: boolean,
  into: NearestPatches,
): void {
  const { closest } = into;
  into.patch[0] = NOT_REACHED;
  into.distance[0] = Infinity;
  let last = NOT_REACHED;
  let isWithin = false;
  for (const t of offered) {
    if (t === NOT_REACHED || t === last) continue;
    last = t;
    if (!takeIfNearer(surface, into, 0, at, t)) continue;
    isWithin = closest[0]! > 1e-6 && closest[1]! > 1e-6 && closest[2]! > 1e-6;
  }
  if (into.patch[0] !== NOT_REACHED && !(isOutside && isWithin)) walkOn(surface, into, 0, at);
}

/** Range of node numbers along an axis within [low, high] m; empty where first > last. */
function nodeRange(lattice: NodeLattice, axis: number, low: number, high: number): [number, number] {
  const first = Math.ceil((low - lattice.low[axis]!) / lattice.spacing) + 2;
  const last = Math.floor((high - lattice.low[axis]!) / lattice.spacing) + 2;
  return [Math.max(0, first), Math.min(lattice.counts[axis]! - 1, last)];
}

function measureAround(
  surface: LiftedSurface,
  lattice: NodeLattice,
  { patch, distance }: NearestPatches,
): void {
  const { balls } = surface;
  const { low, spacing } = lattice;
  const [, ny, nz] = lattice.counts;
  const into = new Float64Array(6);
  for (let t = 0; t < balls.length / 4; t++) {
    const centreX = balls[4 * t]!;
    const centreY = balls[4 * t + 1]!;
    const centreZ = balls[4 * t + 2]!;
    const radius = balls[4 * t + 3]!;
    const around = radius + spacing;
    const [i0, i1] = nodeRange(lattice, 0, centreX - around, centreX + around);
    if (i0 > i1) continue;
    const [j0, j1] = nodeRange(lattice, 1, centreY - around, centreY + around);
    if (j0 > j1) continue;
    const [k0, k1] = nodeRange(lattice, 2, centreZ - around, centreZ + around);
    for (let i = i0; i <= i1; i++) {
      const x = low[0] + (i - 2) * spacing;
      for (let j = j0; j <= j1; j++) {
        const y = low[1] + (j - 2) * spacing;
        const toLine = (x - centreX) ** 2 + (y - centreY) ** 2;
        for (let k = k0; k <= k1; k++) {
          const node = (i * ny + j) * nz + k;
          const z = low[2] + (k - 2) * spacing;
          // The ball shows in a few operations that the patch cannot be nearer than what is known.
          const limit = radius + Math.min(spacing, distance[node]!);
          if (toLine + (z - centreZ) ** 2 >= limit * limit) continue;
          const measured = closestOnPatch(surface, t, x, y, z, limit - radius, into);
          if (measured < distance[node]! && measured <= spacing) {
            distance[node] = measured;
            patch[node] = t;
          }
        }
      }
    }
  }
}

/**
 * Nodes are taken in order of distance, in bins a quarter spacing wide, and offer their patch to the six next to them.
 *
 * @see Dijkstra, Numer. Math. 1 (1959) 269, with bins in place of a sorted queue.
 */
function handOn(surface: LiftedSurface, lattice: NodeLattice, found: NearestPatches, reach: number): void {
  const { patch, distance } = found;
  const [nx, ny, nz] = lattice.counts;
  const bins: number[][] = [];
  const binOf = (node: number): number => Math.floor((4 * distance[node]!) / lattice.spacing);
  const put = (node: number): void => {
    (bins[binOf(node)] ??= []).push(node);
  };
  for (let node = 0; node < patch.length; node++) if (patch[node] !== NOT_REACHED) put(node);
  const offer = (t: number, i: number, j: number, k: number): void => {
    if (i < 0 || j < 0 || k < 0 || i >= nx || j >= ny || k >= nz) return;
    const node = (i * ny + j) * nz + k;
    if (patch[node] === t) return;
    const at: Triple = [
      lattice.low[0] + (i - 2) * lattice.spacing,
      lattice.low[1] + (j - 2) * lattice.spacing,
      lattice.low[2] + (k - 2) * lattice.spacing,
    ];
    if (!takeIfNearer(surface, found, node, at, t)) return;
    if (distance[node]! < WALK_SPACINGS * lattice.spacing) walkOn(surface, found, node, at);
    if (distance[node]! <= reach) put(node);
  };
  for (let bin = 0; bin < bins.length; bin++) {
    // An array grows while it is walked: nodes put into the bin at work are still reached.
    for (const node of bins[bin] ?? []) {
      if (binOf(node) !== bin) continue;
      const t = patch[node]!;
      const k = node % nz;
      const j = Math.floor(node / nz) % ny;
      const i = Math.floor(node / (ny * nz));
      offer(t, i - 1, j, k);
      offer(t, i + 1, j, k);
      offer(t, i, j - 1, k);
      offer(t, i, j + 1, k);
      offer(t, i, j, k - 1);
      offer(t, i, j, k + 1);
    }
  }
}

/**
 * From a node's patch to ever nearer ones among those that share a corner with it, until none is nearer.
 *
 * Crossing sides alone gets stuck at vertices, and inside a body, where each facet has a nearest point of its own.
 */
function walkOn(surface: LiftedSurface, found: NearestPatches, node: number, at: Readonly<Triple>): void {
  const { triangles } = surface.mesh;
  const { start, list } = surface.trianglesOfVertex;
  for (;;) {
    const from = found.patch[node]!;
    for (let corner = 3 * from; corner < 3 * from + 3; corner++) {
      const v = triangles[corner]!;
      for (let n = start[v]!; n < start[v + 1]!; n++) takeIfNearer(surface, found, node, at, list[n]!);
    }
    if (found.patch[node] === from) return;
  }
}

/** Gives the node patch t if that is nearer than what it has. */
/* oxlint-disable-next-line max-params -- innermost step of both loops above */
function takeIfNearer(
  surface: LiftedSurface,
  { patch, distance, closest }: NearestPatches,
  node: number,
  [x, y, z]: Readonly<Triple>,
  t: number,
): boolean {
  const { balls } = surface;
  const known = distance[node]!;
  const limit = known + balls[4 * t + 3]!;
  const dx = x - balls[4 * t]!;
  const dy = y - balls[4 * t + 1]!;
  const dz = z - balls[4 * t + 2]!;
  if (dx * dx + dy * dy + dz * dz >= limit * limit) return false;
  const measured = closestOnPatch(surface, t, x, y, z, known, closest);
  // By more than rounding, so that a walk cannot go in circles.
  if (measured >= known - 1e-12) return false;
  distance[node] = measured;
  patch[node] = t;
  return true;
}
