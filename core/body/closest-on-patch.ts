import { closestOnTriangle } from '../mesh/closest-on-triangle.ts';
import type { LiftedSurface } from './lifted-surface.ts';

/** Newton steps on a patch; two are the rule, since the flat start is within a few percent. */
const STEP_LIMIT = 6;

/** Change of a corner weight below which a step is the last: it moves the point by under a micrometre and the distance by its square. */
const LAST_STEP = 1e-4;

/**
 * The closest point of one curved patch: Newton's method on |q - p|^2/2 in the two free corner weights, starting from
 * the closest point of the flat triangle, kept within the triangle.
 *
 * @param into - 6 numbers, overwritten: the three corner weights, then q - p in m.
 * @param known - A distance already at hand, m: Infinity is returned, and `into` left unfinished, where the patch is farther.
 * @returns Distance, m.
 */
/* oxlint-disable max-params, max-lines-per-function, complexity -- innermost kernel of the grid: plain numbers, no object made */
export function closestOnPatch(
  { mesh, lifts, liftReach }: LiftedSurface,
  t: number,
  x: number,
  y: number,
  z: number,
  known: number,
  into: Float64Array,
): number {
  const { positions, triangles } = mesh;
  const a = 3 * triangles[3 * t]!;
  const b = 3 * triangles[3 * t + 1]!;
  const c = 3 * triangles[3 * t + 2]!;
  const flat = closestOnTriangle(positions, a, b, c, x, y, z, into);
  const limit = known + liftReach[t]!;
  if (flat > limit * limit) return Infinity;
  let u = into[1]!;
  let v = into[2]!;
  const px = positions[a]! - x;
  const py = positions[a + 1]! - y;
  const pz = positions[a + 2]! - z;
  const ex = positions[b]! - positions[a]!;
  const ey = positions[b + 1]! - positions[a + 1]!;
  const ez = positions[b + 2]! - positions[a + 2]!;
  const fx = positions[c]! - positions[a]!;
  const fy = positions[c + 1]! - positions[a + 1]!;
  const fz = positions[c + 2]! - positions[a + 2]!;
  const l = 9 * t;
  // Second derivatives of q: uu = -2 lift01, vv = -2 lift20, uv = lift12 - lift01 - lift20.
  const ax = lifts[l]!;
  const ay = lifts[l + 1]!;
  const az = lifts[l + 2]!;
  const cx = lifts[l + 6]!;
  const cy = lifts[l + 7]!;
  const cz = lifts[l + 8]!;
  const bx = lifts[l + 3]! - ax - cx;
  const by = lifts[l + 4]! - ay - cy;
  const bz = lifts[l + 5]! - az - cz;
  let rx = 0;
  let ry = 0;
  let rz = 0;
  for (let step = 0; ; step++) {
    const uu = u * (1 - u);
    const vv = v * (1 - v);
    const uv = u * v;
    rx = px + u * ex + v * fx + uu * ax + uv * bx + vv * cx;
    ry = py + u * ey + v * fy + uu * ay + uv * by + vv * cy;
    rz = pz + u * ez + v * fz + uu * az + uv * bz + vv * cz;
    if (step === STEP_LIMIT) break;
    const su = 1 - 2 * u;
    const sv = 1 - 2 * v;
    const qux = ex + su * ax + v * bx;
    const quy = ey + su * ay + v * by;
    const quz = ez + su * az + v * bz;
    const qvx = fx + sv * cx + u * bx;
    const qvy = fy + sv * cy + u * by;
    const qvz = fz + sv * cz + u * bz;
    const gu = rx * qux + ry * quy + rz * quz;
    const gv = rx * qvx + ry * qvy + rz * qvz;
    let huu = qux * qux + quy * quy + quz * quz;
    let hvv = qvx * qvx + qvy * qvy + qvz * qvz;
    let huv = qux * qvx + quy * qvy + quz * qvz;
    const kuu = huu - 2 * (rx * ax + ry * ay + rz * az);
    const kvv = hvv - 2 * (rx * cx + ry * cy + rz * cz);
    const kuv = huv + rx * bx + ry * by + rz * bz;
    // Beyond the centre of curvature the true Hessian has no minimum: Gauss-Newton there.
    if (kuu > 0.05 * huu && kvv > 0.05 * hvv && kuu * kvv - kuv * kuv > 0.05 * (huu * hvv - huv * huv)) {
      huu = kuu;
      hvv = kvv;
      huv = kuv;
    }
    const onSum = u + v >= 1 - 1e-12;
    let holdU = u <= 0 && gu > 0;
    let holdV = v <= 0 && gv > 0;
    let holdSum = onSum && gu + gv < 0;
    if (holdU && holdV) break;
    let du = 0;
    let dv = 0;
    if (!holdU && !holdV && !holdSum) {
      const determinant = huu * hvv - huv * huv;
      if (!(determinant > 1e-12 * huu * hvv)) break;
      du = (huv * gv - hvv * gu) / determinant;
      dv = (huv * gu - huu * gv) / determinant;
      // A side the full step would cross at once is followed instead.
      holdU = u <= 0 && du < 0;
      holdV = v <= 0 && dv < 0;
      holdSum = onSum && du + dv > 0;
    }
    if (holdSum) {
      const along = huu - 2 * huv + hvv;
      du = along > 0 ? (gv - gu) / along : 0;
      dv = -du;
    } else if (holdU) {
      du = 0;
      dv = hvv > 0 ? -gv / hvv : 0;
    } else if (holdV) {
      du = huu > 0 ? -gu / huu : 0;
      dv = 0;
    }
    // As far as the step stays within the triangle.
    let share = 1;
    if (u + share * du < 0) share = -u / du;
    if (v + share * dv < 0) share = -v / dv;
    if (u + v + share * (du + dv) > 1) share = (1 - u - v) / (du + dv);
    share = Math.max(0, share);
    u = Math.max(0, u + share * du);
    v = Math.max(0, v + share * dv);
    if (u + v > 1 || (holdSum && u + v !== 1)) {
      const over = u + v;
      u /= over;
      v = 1 - u;
    }
    if (Math.abs(share * du) + Math.abs(share * dv) < LAST_STEP) break;
  }
  into[0] = Math.max(0, 1 - u - v);
  into[1] = u;
  into[2] = v;
  into[3] = rx;
  into[4] = ry;
  into[5] = rz;
  return Math.sqrt(rx * rx + ry * ry + rz * rz);
}
/* oxlint-enable max-params, max-lines-per-function, complexity */
