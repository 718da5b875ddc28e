import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { triple } from '../mesh/triple.ts';
import type { Box } from './body.ts';
import { closestOnPatch } from './closest-on-patch.ts';
import type { DistanceField } from './distance-field.ts';
import { fieldOfGrid, type DistanceGrid } from './distance-grid.ts';
import type { LiftedSurface } from './lifted-surface.ts';
import { meshDistance } from './mesh-distance.ts';
import { nearestPatches, NOT_REACHED, type NearestPatches } from './nearest-patches.ts';
import { DEEPEST, FARTHEST, latticeOver, smoothGrid, type NodeLattice } from './node-lattice.ts';
import { isInside } from './patch-side.ts';
import { refineGrid } from './refine-grid.ts';

/**
 * Spacing that smooths the facets of a skin without rounding more than it must: 8 mm; 10 mm where the edges near the box
 * are longer than 8 mm on average; 12 mm from 10.5 mm.
 *
 * Measured with a tube of 8 mm edges on near-rigid cylinders R 40, 70, 150 mm: the facets add 0.2, 0.8 to 1.0 and 1.4 to
 * 1.6 % RMS to the contact pressure at body edges of 4, 8 and 12 mm (a 10 mm grid at 12 mm: 1.9 to 2.3 %).
 */
export function defaultSpacing({ positions, triangles }: TriangleMesh, box: Box): number {
  let sum = 0;
  let count = 0;
  const isNear = (v: number): boolean =>
    [0, 1, 2].every((k) => positions[3 * v + k]! >= box.low[k]! && positions[3 * v + k]! <= box.high[k]!);
  for (let i = 0; i < triangles.length; i++) {
    const a = triangles[i]!;
    const b = triangles[i % 3 === 2 ? i - 2 : i + 1]!;
    if (!isNear(a)) continue;
    sum += Math.hypot(...triple((k) => positions[3 * b + k]! - positions[3 * a + k]!));
    count++;
  }
  const edge = count > 0 ? sum / count : 0;
  return edge > 0.0105 ? 0.012 : edge > 0.008 ? 0.01 : 0.008;
}

/**
 * The contact field of a meshed skin: signed distances to the curved patches at the nodes, held to -60..80 mm, then the
 * twiced spline, which takes the facets away; finer where that spline rounds off what the mesh draws.
 *
 * The sign comes from the normal of what the nearest point lies in: the patch inside, the sum of both triangles'
 * normals on a side, the angle-weighted normal at a vertex.
 *
 * @param surface - Closed; not changed.
 * @param box - Where the field is asked, m; beyond it goes on straight.
 * @see Baerentzen & Aanaes, IEEE TVCG 11 (2005) 243: angle-weighted pseudonormals give the sign.
 */
export function gridFromMesh(surface: LiftedSurface, box: Box, spacing: number): DistanceField {
  return fieldOfGrid(splineOfMesh(surface, box, spacing));
}

/** The spline itself, refined at creases that the mesh resolves. */
export function splineOfMesh(surface: LiftedSurface, box: Box, spacing: number): DistanceGrid {
  const lattice = latticeOver(box, spacing);
  const near = nearestPatches(surface, lattice, FARTHEST);
  const signed = signedOf(surface, lattice, near);
  const grid = smoothGrid(lattice, signed);
  return refineGrid(lattice, signed, grid, meshDistance(surface, lattice, near.patch, signed));
}

/** Signed distance at every node, m, held between DEEPEST and FARTHEST. */
export const signedDistances = (surface: LiftedSurface, lattice: NodeLattice): Float64Array =>
  signedOf(surface, lattice, nearestPatches(surface, lattice, FARTHEST));

function signedOf(
  surface: LiftedSurface,
  lattice: NodeLattice,
  { patch, distance }: NearestPatches,
): Float64Array {
  const [nx, ny, nz] = lattice.counts;
  const signed = new Float64Array(patch.length);
  const into = new Float64Array(6);
  let node = 0;
  for (let i = 0; i < nx; i++) {
    const x = lattice.low[0] + (i - 2) * lattice.spacing;
    for (let j = 0; j < ny; j++) {
      const y = lattice.low[1] + (j - 2) * lattice.spacing;
      for (let k = 0; k < nz; k++, node++) {
        const t = patch[node]!;
        if (t === NOT_REACHED) continue;
        closestOnPatch(surface, t, x, y, lattice.low[2] + (k - 2) * lattice.spacing, Infinity, into);
        const value = isInside(surface, t, into) ? -distance[node]! : distance[node]!;
        signed[node] = Math.min(FARTHEST, Math.max(DEEPEST, value));
      }
    }
  }
  fillFar(surface, lattice, patch, signed);
  return signed;
}

/** Nodes out of reach take the side of the reached nodes they hang together with. */
function fillFar(
  surface: LiftedSurface,
  { low, spacing, counts }: NodeLattice,
  patch: Uint32Array,
  signed: Float64Array,
): void {
  const [nx, ny, nz] = counts;
  const open: number[] = [];
  for (let node = 0; node < patch.length; node++) if (patch[node] !== NOT_REACHED) open.push(node);
  if (open.length === 0) {
    const middle = triple((k) => low[k]! + ((counts[k]! - 5) / 2) * spacing);
    signed.fill(windingNumber(surface.mesh, middle) > 0.5 ? DEEPEST : FARTHEST);
    return;
  }
  const known = Uint8Array.from(patch, (t) => Number(t !== NOT_REACHED));
  while (open.length > 0) {
    const node = open.pop()!;
    const far = signed[node]! < 0 ? DEEPEST : FARTHEST;
    const k = node % nz;
    const j = Math.floor(node / nz) % ny;
    const i = Math.floor(node / (ny * nz));
    const take = (next: number, isThere: boolean): void => {
      if (!isThere || known[next]) return;
      known[next] = 1;
      signed[next] = far;
      open.push(next);
    };
    take(node - 1, k > 0);
    take(node + 1, k < nz - 1);
    take(node - nz, j > 0);
    take(node + nz, j < ny - 1);
    take(node - ny * nz, i > 0);
    take(node + ny * nz, i < nx - 1);
  }
}

/**
 * How often a closed mesh winds round a point: 1 inside, 0 outside.
 *
 * @see van Oosterom & Strackee, IEEE Trans. Biomed. Eng. 30 (1983) 125: tan(solid angle/2) of a triangle.
 */
export function windingNumber(
  { positions, triangles }: TriangleMesh,
  point: readonly [number, number, number],
): number {
  let solidAngle = 0;
  const corner = (i: number): [number, number, number] =>
    triple((k) => positions[3 * triangles[i]! + k]! - point[k]!);
  for (let i = 0; i < triangles.length; i += 3) {
    const [ax, ay, az] = corner(i);
    const [bx, by, bz] = corner(i + 1);
    const [cx, cy, cz] = corner(i + 2);
    const a = Math.hypot(ax, ay, az);
    const b = Math.hypot(bx, by, bz);
    const c = Math.hypot(cx, cy, cz);
    const triplet = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
    const ab = ax * bx + ay * by + az * bz;
    const bc = bx * cx + by * cy + bz * cz;
    const ca = cx * ax + cy * ay + cz * az;
    solidAngle += 2 * Math.atan2(triplet, a * b * c + ab * c + bc * a + ca * b);
  }
  return solidAngle / (4 * Math.PI);
}
