import { triple } from '../mesh/triple.ts';
import { closestOnPatch } from './closest-on-patch.ts';
import type { LiftedSurface } from './lifted-surface.ts';
import { nearestOf, NOT_REACHED, type NearestPatches } from './nearest-patches.ts';
import { DEEPEST, FARTHEST, type NodeLattice } from './node-lattice.ts';
import { isInside } from './patch-side.ts';
import type { TrueDistance } from './refine-grid.ts';
import { sharpEdges } from './sharp-edges.ts';

/** How far the spline may miss, m, and as a share of the rise of the nearest patch over its flat triangle, which is in doubt. */
const SHARP = { least: 5e-5, doubt: 0.2 };
/** The same for whole cells over skin that is smooth, or coarsely meshed: there, finer cells would draw the facets. */
const SMOOTH = { least: 1e-4, doubt: 0.5 };
/** Skin that curves on a smaller radius than this is sharp, spacings. */
const SHARP_SPACINGS = 1.5;
/** The mesh draws a curve of radius R with edges of up to this share of R; measured: at 0.67 and 0.8, finer cells double the noise of the pressure. */
const DRAWN = 0.6;
/** Where the spline is held to the distance: flesh gives so far, cloth bridges so far; m. */
const BELOW = 0.008;
const ABOVE = 0.024;
/** What a gap may be off by more than the skin: of what it has over 8 mm. */
const GAP_SHARE = 0.02;
const GAP_FROM = 0.008;
/** Nodes this near an edge that the mesh does not resolve are not refined, spacings. */
const CLEAR = 3;

/**
 * The distance to a meshed skin, asked anew between the nodes of a lattice, and how near the spline must come to it:
 * within 0.05 mm or a fifth of the rise of the nearest patch, over smooth skin 0.1 mm or a half, over wide gaps more; from
 * 8 mm inside to 24 mm outside, and not at all beside edges that the mesh does not resolve.
 *
 * @param patch - Nearest patch of each node of the lattice.
 * @param signed - Signed distance at each node, m.
 */
export function meshDistance(
  surface: LiftedSurface,
  lattice: NodeLattice,
  patch: Uint32Array,
  signed: Float64Array,
): TrueDistance {
  const isBlocked = nodesBeside(surface, lattice);
  const allowed = (t: number, distance: number, { least, doubt }: typeof SHARP): number =>
    distance < -BELOW || distance > ABOVE
      ? Infinity
      : Math.max(least, doubt * surface.liftReach[t]!) + GAP_SHARE * Math.max(0, distance - GAP_FROM);
  const sharp = SHARP_SPACINGS * lattice.spacing;
  const room: NearestPatches = {
    patch: new Uint32Array(1),
    distance: new Float64Array(1),
    closest: new Float64Array(6),
  };
  const offered = new Uint32Array(8);
  const plane = lattice.counts[1] * lattice.counts[2];
  const row = lattice.counts[2];
  return {
    allowedAt: (node) => {
      const t = patch[node]!;
      if (isBlocked[node] === 1 || t === NOT_REACHED) return Infinity;
      return allowed(t, signed[node]!, isDrawnSharp(surface, t, sharp) ? SHARP : SMOOTH);
    },
    measure: (node, at, into) => {
      for (let corner = 0; corner < 8; corner++) {
        offered[corner] = patch[node + (corner >> 2) * plane + ((corner >> 1) & 1) * row + (corner & 1)]!;
      }
      nearestOf(surface, at, offered, signed[node]! > 0, room);
      const t = room.patch[0]!;
      if (t === NOT_REACHED) {
        into[0] = signed[node]!;
        into[1] = Infinity;
        return;
      }
      const distance = closestOnPatch(surface, t, at[0], at[1], at[2], Infinity, room.closest);
      const value = isInside(surface, t, room.closest) ? -distance : distance;
      into[0] = Math.min(FARTHEST, Math.max(DEEPEST, value));
      into[1] = allowed(t, value, SHARP);
    },
  };
}

/** Whether a triangle curves on a radius below `radius`, m, and its mesh is fine enough to tell. */
function isDrawnSharp({ mesh, vertexNormals }: LiftedSurface, t: number, radius: number): boolean {
  const { positions, triangles } = mesh;
  let isSharp = false;
  for (let side = 0; side < 3; side++) {
    const a = 3 * triangles[3 * t + side]!;
    const b = 3 * triangles[3 * t + ((side + 1) % 3)]!;
    // Chords: of the turn between two normals, and of the skin between two corners.
    let turned = 0;
    let length = 0;
    for (let k = 0; k < 3; k++) {
      turned += (vertexNormals[a + k]! - vertexNormals[b + k]!) ** 2;
      length += (positions[a + k]! - positions[b + k]!) ** 2;
    }
    if (turned > DRAWN * DRAWN) return false;
    isSharp ||= turned * radius * radius > length;
  }
  return isSharp;
}

/** 1 at nodes beside edges that the mesh does not resolve. */
function nodesBeside(surface: LiftedSurface, lattice: NodeLattice): Uint8Array {
  const { low, spacing, counts } = lattice;
  const [nx, ny, nz] = counts;
  const isBeside = new Uint8Array(nx * ny * nz);
  const { positions } = surface.mesh;
  for (const { from, to } of sharpEdges(surface)) {
    const length = Math.hypot(...triple((k) => positions[3 * to + k]! - positions[3 * from + k]!));
    const steps = Math.ceil(length / spacing);
    for (let step = 0; step <= steps; step++) {
      const share = steps === 0 ? 0 : step / steps;
      const [i, j, k] = triple((axis) => {
        const a = positions[3 * from + axis]!;
        return Math.round((a + share * (positions[3 * to + axis]! - a) - low[axis]!) / spacing) + 2;
      });
      for (let a = Math.max(0, i - CLEAR); a <= Math.min(nx - 1, i + CLEAR); a++)
        for (let b = Math.max(0, j - CLEAR); b <= Math.min(ny - 1, j + CLEAR); b++)
          for (let c = Math.max(0, k - CLEAR); c <= Math.min(nz - 1, k + CLEAR); c++)
            isBeside[(a * ny + b) * nz + c] = 1;
    }
  }
  return isBeside;
}
