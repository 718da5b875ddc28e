import { NO_TRIANGLE } from '../mesh/mesh-edges.ts';
import { triple } from '../mesh/triple.ts';
import type { LiftedSurface } from './lifted-surface.ts';

/** Whether the point whose closest point on patch t is `closest` (weights, then q - p) lies inside the skin. */
export function isInside(surface: LiftedSurface, t: number, closest: Float64Array): boolean {
  const { mesh, opposite } = surface;
  const along = (normals: Float64Array, i: number): number =>
    closest[3]! * normals[3 * i]! + closest[4]! * normals[3 * i + 1]! + closest[5]! * normals[3 * i + 2]!;
  const isZero = (corner: number): boolean => closest[corner]! <= 1e-9;
  const zeros = [0, 1, 2].filter(isZero);
  if (zeros.length === 2) {
    const corner = [0, 1, 2].find((candidate) => !zeros.includes(candidate))!;
    return along(surface.vertexNormals, mesh.triangles[3 * t + corner]!) > 0;
  }
  if (zeros.length === 1) {
    const across = opposite[3 * t + ((zeros[0]! + 1) % 3)]!;
    const beyond = across === NO_TRIANGLE ? 0 : along(surface.triangleNormals, across);
    return along(surface.triangleNormals, t) + beyond > 0;
  }
  return alongPatchNormal(surface, t, closest) > 0;
}

/** (q - p) along the normal dq/du x dq/dv of the patch at the closest point; not of unit length. */
function alongPatchNormal({ mesh, lifts }: LiftedSurface, t: number, closest: Float64Array): number {
  const { positions, triangles } = mesh;
  const [w, u, v] = closest;
  const a = 3 * triangles[3 * t]!;
  const b = 3 * triangles[3 * t + 1]!;
  const c = 3 * triangles[3 * t + 2]!;
  const lift = (side: number, k: number): number => lifts[9 * t + 3 * side + k]!;
  const [ux, uy, uz] = triple(
    (k) => positions[b + k]! - positions[a + k]! + (w! - u!) * lift(0, k) + v! * lift(1, k) - v! * lift(2, k),
  );
  const [vx, vy, vz] = triple(
    (k) => positions[c + k]! - positions[a + k]! - u! * lift(0, k) + u! * lift(1, k) + (w! - v!) * lift(2, k),
  );
  return (
    closest[3]! * (uy * vz - uz * vy) + closest[4]! * (uz * vx - ux * vz) + closest[5]! * (ux * vy - uy * vx)
  );
}
