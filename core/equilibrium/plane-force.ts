import { createTensionResponse, evaluateTension } from '../fabric/evaluate-tension.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import { setRestShape } from '../garment/rest-shape.ts';
import { triangleBlocks, type BlockMatrix, type BlockPattern } from './block-matrix.ts';
import type { FlatSheet } from './curvature-patches.ts';

/** How a sheet resists small changes of its lengths; N/m. */
export interface PlaneStiffness {
  readonly warp: number;
  readonly weft: number;
  /** Tension along one yarn per stretch along the other. */
  readonly cross: number;
  readonly shear: number;
}

/** Stretch at which a law's first stiffness is read: small, yet on the pulling side of both yarns. */
const READ_AT = 1e-3;
/** Shear less than this share of the mean of warp and weft is raised to it; the cross effect is held below the other. */
const SHARE = { leastShear: 0.02, mostCross: 0.95 };

/**
 * The first stiffness of a tension law, used for pull and push alike.
 *
 * A swatch under its own weight is stretched by less than a thousandth or so; beyond its first stiffness the law does not
 * show. The law itself lets cloth that is pushed go slack, which is right where wrinkles are finer than the mesh; here
 * the folds are what is looked for, so the sheet must resist the push until it bends out of it.
 *
 * @param softer - All of it is divided by this.
 */
export function planeStiffness(law: TensionLaw, softer = 1): PlaneStiffness {
  const response = createTensionResponse();
  const u = Math.exp(law.set.warp) * (1 + READ_AT);
  const v = Math.exp(law.set.weft) * (1 + READ_AT);
  evaluateTension(law, Float64Array.of(u, 0, 0, 0, v, 0), true, response);
  const k = response.stiffness;
  // Places in the 6x6: d2W/dux2, d2W/dvy2, d2W/dux dvy, d2W/duy dvx.
  const warp = (k[0]! * u * u) / softer;
  const weft = (k[28]! * v * v) / softer;
  const mean = Math.sqrt(warp * weft);
  return {
    warp,
    weft,
    cross: Math.min(SHARE.mostCross * mean, Math.max(0, (k[4]! * u * v) / softer)),
    shear: Math.max(SHARE.leastShear * mean, (k[9]! * u * v) / softer),
  };
}

/** A sheet's triangles under small changes of length. */
export interface Plane {
  readonly triangles: Uint32Array;
  /** As in ClothLevel; 4*T, T. */
  readonly restInverse: Float64Array;
  readonly restArea: Float64Array;
  readonly stiffness: PlaneStiffness;
  /** Where each triangle's 9x9 goes; 9*T. */
  readonly blocks: Uint32Array;
}

export function createPlane(sheet: FlatSheet, stiffness: PlaneStiffness, pattern: BlockPattern): Plane {
  const { flat, triangles } = sheet;
  const triangleCount = triangles.length / 3;
  const restInverse = new Float64Array(4 * triangleCount);
  const restArea = new Float64Array(triangleCount);
  for (let t = 0; t < triangleCount; t++) {
    const a = 2 * triangles[3 * t]!;
    const b = 2 * triangles[3 * t + 1]!;
    const c = 2 * triangles[3 * t + 2]!;
    const shape = {
      ax: flat[b]! - flat[a]!,
      ay: flat[b + 1]! - flat[a + 1]!,
      bx: flat[c]! - flat[a]!,
      by: flat[c + 1]! - flat[a + 1]!,
    };
    setRestShape(shape, t, { restInverse, restArea });
  }
  return { triangles, restInverse, restArea, stiffness, blocks: triangleBlocks(pattern, triangles) };
}

/** f: warp column, weft column of a triangle's deformation; 6. */
function readDeformation(
  { triangles, restInverse }: Plane,
  positions: Float64Array,
  t: number,
  f: Float64Array,
) {
  const a = 3 * triangles[3 * t]!;
  const b = 3 * triangles[3 * t + 1]!;
  const c = 3 * triangles[3 * t + 2]!;
  const m00 = restInverse[4 * t]!;
  const m01 = restInverse[4 * t + 1]!;
  const m10 = restInverse[4 * t + 2]!;
  const m11 = restInverse[4 * t + 3]!;
  for (let k = 0; k < 3; k++) {
    const d1 = positions[b + k]! - positions[a + k]!;
    const d2 = positions[c + k]! - positions[a + k]!;
    f[k] = d1 * m00 + d2 * m10;
    f[3 + k] = d1 * m01 + d2 * m11;
  }
}

/**
 * Adds the derivative of W = (C11 e1^2 + 2 C12 e1 e2 + C22 e2^2 + C66 g^2) / 2 per rest area, with Green's strains
 * e1 = (fu.fu - 1) / 2, e2 = (fv.fv - 1) / 2, g = fu.fv: dW/dfu = s1 fu + q fv, dW/dfv = s2 fv + q fu,
 * s1 = C11 e1 + C12 e2, s2 = C22 e2 + C12 e1, q = C66 g.
 *
 * @param gradient - 3*V, N; added to.
 * @returns The energy, J.
 */
export function addPlaneGradient(plane: Plane, positions: Float64Array, gradient: Float64Array): number {
  const { triangles, restInverse, restArea, stiffness } = plane;
  const { warp, weft, cross, shear } = stiffness;
  const f = new Float64Array(6);
  let energy = 0;
  for (let t = 0; t < restArea.length; t++) {
    readDeformation(plane, positions, t, f);
    const e1 = (f[0]! * f[0]! + f[1]! * f[1]! + f[2]! * f[2]! - 1) / 2;
    const e2 = (f[3]! * f[3]! + f[4]! * f[4]! + f[5]! * f[5]! - 1) / 2;
    const g = f[0]! * f[3]! + f[1]! * f[4]! + f[2]! * f[5]!;
    const s1 = warp * e1 + cross * e2;
    const s2 = weft * e2 + cross * e1;
    const q = shear * g;
    const area = restArea[t]!;
    energy += (area * (s1 * e1 + s2 * e2 + q * g)) / 2;
    const m00 = area * restInverse[4 * t]!;
    const m01 = area * restInverse[4 * t + 1]!;
    const m10 = area * restInverse[4 * t + 2]!;
    const m11 = area * restInverse[4 * t + 3]!;
    const a = 3 * triangles[3 * t]!;
    const b = 3 * triangles[3 * t + 1]!;
    const c = 3 * triangles[3 * t + 2]!;
    for (let k = 0; k < 3; k++) {
      const pu = s1 * f[k]! + q * f[3 + k]!;
      const pv = s2 * f[3 + k]! + q * f[k]!;
      const first = pu * m00 + pv * m01;
      const second = pu * m10 + pv * m11;
      gradient[b + k]! += first;
      gradient[c + k]! += second;
      gradient[a + k]! -= first + second;
    }
  }
  return energy;
}

/**
 * Adds the second derivatives: K_uu = s1 I + C11 fu fu' + C66 fv fv', K_vv alike, K_uv = q I + C12 fu fv' + C66 fv fu'.
 * Only the stresses (s1, q; q, s2) can make them negative.
 *
 * @param exact - False leaves the stresses out, which makes the whole positive semi-definite. Taking their positive part
 *   instead is worse: where a bent sheet is drawn with chords, neighbouring triangles are pulled and pushed in turn, by
 *   more than the weight pulls, and the steps came out shorter.
 */
export function addPlaneStiffness(
  plane: Plane,
  positions: Float64Array,
  exact: boolean,
  into: BlockMatrix,
): void {
  const { restInverse, restArea, stiffness, blocks } = plane;
  const { warp, weft, cross, shear } = stiffness;
  const f = new Float64Array(6);
  const stress = new Float64Array(3);
  const uu = new Float64Array(9);
  const uv = new Float64Array(9);
  const vv = new Float64Array(9);
  const share = new Float64Array(6);
  for (let t = 0; t < restArea.length; t++) {
    readDeformation(plane, positions, t, f);
    if (exact) readStress(stiffness, f, stress);
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        const unit = i === j ? 1 : 0;
        uu[3 * i + j] = stress[0]! * unit + warp * f[i]! * f[j]! + shear * f[3 + i]! * f[3 + j]!;
        vv[3 * i + j] = stress[2]! * unit + weft * f[3 + i]! * f[3 + j]! + shear * f[i]! * f[j]!;
        uv[3 * i + j] = stress[1]! * unit + cross * f[i]! * f[3 + j]! + shear * f[3 + i]! * f[j]!;
      }
    }
    setShares(restInverse, t, share);
    for (let m = 0; m < 3; m++) {
      for (let n = 0; n < 3; n++) {
        const at = 9 * blocks[9 * t + 3 * m + n]!;
        const pp = restArea[t]! * share[2 * m]! * share[2 * n]!;
        const pq = restArea[t]! * share[2 * m]! * share[2 * n + 1]!;
        const qp = restArea[t]! * share[2 * m + 1]! * share[2 * n]!;
        const qq = restArea[t]! * share[2 * m + 1]! * share[2 * n + 1]!;
        for (let e = 0; e < 9; e++) {
          const turned = 3 * (e % 3) + Math.floor(e / 3);
          into.values[at + e]! += pp * uu[e]! + pq * uv[e]! + qp * uv[turned]! + qq * vv[e]!;
        }
      }
    }
  }
}

/** s1, q, s2 of a deformation. */
function readStress({ warp, weft, cross, shear }: PlaneStiffness, f: Float64Array, into: Float64Array): void {
  const e1 = (f[0]! * f[0]! + f[1]! * f[1]! + f[2]! * f[2]! - 1) / 2;
  const e2 = (f[3]! * f[3]! + f[4]! * f[4]! + f[5]! * f[5]! - 1) / 2;
  into[0] = warp * e1 + cross * e2;
  into[1] = shear * (f[0]! * f[3]! + f[1]! * f[4]! + f[2]! * f[5]!);
  into[2] = weft * e2 + cross * e1;
}

/** How much of each corner goes into fu and into fv; pairs per corner, 6. */
function setShares(restInverse: Float64Array, t: number, share: Float64Array): void {
  share[2] = restInverse[4 * t]!;
  share[3] = restInverse[4 * t + 1]!;
  share[4] = restInverse[4 * t + 2]!;
  share[5] = restInverse[4 * t + 3]!;
  share[0] = -share[2] - share[4];
  share[1] = -share[3] - share[5];
}
