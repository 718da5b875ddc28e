/** Room for {@link addPositivePart}. */
export interface PositivePartRoom {
  /** In-plane frame: e1, e2, normal; 9. */
  readonly frame: Float64Array;
  /** 4x4 in the frame, a copy to factorise or diagonalise, its eigenvectors; 16 each. */
  readonly inPlane: Float64Array;
  readonly copy: Float64Array;
  readonly vectors: Float64Array;
}

export const positivePartRoom = (): PositivePartRoom => ({
  frame: new Float64Array(9),
  inPlane: new Float64Array(16),
  copy: new Float64Array(16),
  vectors: new Float64Array(16),
});

/** Eigenvalues below this share of the trace count as round-off. */
const ROUND_OFF = 1e-10;

/** Off-diagonal share of the trace at which the Jacobi sweeps end, and the most of them. */
const JACOBI_END = 1e-14;
const MOST_SWEEPS = 12;

/**
 * Makes the stiffness of one triangle positive semi-definite by dropping its negative eigenvalues.
 *
 * In the frame (along fu, across in the plane, normal) a membrane's 6x6 falls apart into a 4x4 within the plane and a
 * 2x2 out of it; each is tested, and corrected only where it fails: C+ = C + sum over lambda < 0 of |lambda| v v'.
 *
 * @param f - Deformation: fu, fv; 6.
 * @param stiffness - d2W/dF2, 6x6 row-major; corrected in place.
 * @returns Whether anything had to be corrected.
 * @see Teran, Sifakis, Irving & Fedkiw, Robust quasistatic finite elements and flesh simulation, SCA 2005, section 5.
 */
export function addPositivePart(f: Float64Array, room: PositivePartRoom, stiffness: Float64Array): boolean {
  layFrame(f, room.frame);
  const outOfPlane = liftOutOfPlane(room.frame, stiffness);
  toFrame(stiffness, room);
  if (isPositive(room.inPlane, room.copy)) return outOfPlane;
  diagonalise(room.inPlane, room.vectors);
  liftInPlane(room, stiffness);
  return true;
}

/** e1 = fu/|fu|, e3 = fu x fv / |..|, e2 = e3 x e1; any frame does where the triangle has no area. */
function layFrame(f: Float64Array, frame: Float64Array): void {
  const u0 = f[0]!;
  const u1 = f[1]!;
  const u2 = f[2]!;
  const length = Math.sqrt(u0 * u0 + u1 * u1 + u2 * u2);
  const a0 = length > 0 ? u0 / length : 1;
  const a1 = length > 0 ? u1 / length : 0;
  const a2 = length > 0 ? u2 / length : 0;
  let n0 = a1 * f[5]! - a2 * f[4]!;
  let n1 = a2 * f[3]! - a0 * f[5]!;
  let n2 = a0 * f[4]! - a1 * f[3]!;
  let area = Math.sqrt(n0 * n0 + n1 * n1 + n2 * n2);
  if (area < 1e-12) {
    // Any direction across e1: the axis least along it, crossed with it.
    n0 = Math.abs(a0) < 0.6 ? 0 : -a2;
    n1 = Math.abs(a0) < 0.6 ? a2 : 0;
    n2 = Math.abs(a0) < 0.6 ? -a1 : a0;
    area = Math.sqrt(n0 * n0 + n1 * n1 + n2 * n2);
  }
  frame[0] = a0;
  frame[1] = a1;
  frame[2] = a2;
  n0 /= area;
  n1 /= area;
  n2 /= area;
  frame[3] = n1 * a2 - n2 * a1;
  frame[4] = n2 * a0 - n0 * a2;
  frame[5] = n0 * a1 - n1 * a0;
  frame[6] = n0;
  frame[7] = n1;
  frame[8] = n2;
}

/** e' C e for one 3x3 block of the stiffness; `row`, `column` are its first entries, p and q places in the frame. */
// eslint-disable-next-line max-params -- inner kernel, called 13 times per triangle
function component(
  c: Float64Array,
  row: number,
  column: number,
  frame: Float64Array,
  p: number,
  q: number,
): number {
  const q0 = frame[q]!;
  const q1 = frame[q + 1]!;
  const q2 = frame[q + 2]!;
  const at = 6 * row + column;
  return (
    frame[p]! * (c[at]! * q0 + c[at + 1]! * q1 + c[at + 2]! * q2) +
    frame[p + 1]! * (c[at + 6]! * q0 + c[at + 7]! * q1 + c[at + 8]! * q2) +
    frame[p + 2]! * (c[at + 12]! * q0 + c[at + 13]! * q1 + c[at + 14]! * q2)
  );
}

/** Corrects the 2x2 along the normal, eigenvalues in closed form. */
function liftOutOfPlane(frame: Float64Array, c: Float64Array): boolean {
  const uu = component(c, 0, 0, frame, 6, 6);
  const uv = component(c, 0, 3, frame, 6, 6);
  const vv = component(c, 3, 3, frame, 6, 6);
  const middle = (uu + vv) / 2;
  const radius = Math.sqrt(((uu - vv) / 2) ** 2 + uv * uv);
  if (middle - radius >= 0) return false;
  // The positive part of a symmetric 2x2: all dropped, or (l+ / (l+ - l-)) (M - l- I).
  const high = middle + radius;
  const low = middle - radius;
  const share = high > 0 ? high / (high - low) : 0;
  const addUu = share * (uu - low) - uu;
  const addUv = share * uv - uv;
  const addVv = share * (vv - low) - vv;
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j < 3; j++) {
      const nn = frame[6 + i]! * frame[6 + j]!;
      c[6 * i + j]! += addUu * nn;
      c[6 * i + 3 + j]! += addUv * nn;
      c[6 * (3 + i) + j]! += addUv * nn;
      c[6 * (3 + i) + 3 + j]! += addVv * nn;
    }
  }
  return true;
}

/** The in-plane 4x4 in the order (u e1, u e2, v e1, v e2). */
function toFrame(c: Float64Array, { frame, inPlane }: PositivePartRoom): void {
  for (let a = 0; a < 4; a++) {
    for (let b = a; b < 4; b++) {
      const value = component(c, 3 * (a >> 1), 3 * (b >> 1), frame, 3 * (a & 1), 3 * (b & 1));
      inPlane[4 * a + b] = value;
      inPlane[4 * b + a] = value;
    }
  }
}

/** Whether a Cholesky factor exists, up to round-off. */
function isPositive(matrix: Float64Array, l: Float64Array): boolean {
  const shift = ROUND_OFF * (matrix[0]! + matrix[5]! + matrix[10]! + matrix[15]!);
  for (let i = 0; i < 4; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[4 * i + j]!;
      for (let k = 0; k < j; k++) sum -= l[4 * i + k]! * l[4 * j + k]!;
      if (j < i) l[4 * i + j] = sum / l[4 * j + j]!;
      else {
        if (!(sum + shift > 0)) return false;
        l[4 * i + i] = Math.sqrt(sum + shift);
      }
    }
  }
  return true;
}

/**
 * Cyclic Jacobi on a symmetric 4x4; eigenvalues end on the diagonal, eigenvectors in the columns of `vectors`.
 *
 * @see Golub & Van Loan, Matrix Computations, 4th ed. (2013), section 8.5.
 */
function diagonalise(m: Float64Array, vectors: Float64Array): void {
  vectors.fill(0);
  for (let i = 0; i < 4; i++) vectors[5 * i] = 1;
  const size = Math.abs(m[0]!) + Math.abs(m[5]!) + Math.abs(m[10]!) + Math.abs(m[15]!);
  for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
    let off = 0;
    for (let p = 0; p < 4; p++) for (let q = p + 1; q < 4; q++) off += Math.abs(m[4 * p + q]!);
    if (off <= JACOBI_END * size) return;
    for (let p = 0; p < 3; p++) for (let q = p + 1; q < 4; q++) rotate(m, vectors, p, q);
  }
}

/** The rotation in the plane (p, q) that makes m_pq zero. */
function rotate(m: Float64Array, vectors: Float64Array, p: number, q: number): void {
  const pq = m[4 * p + q]!;
  if (pq === 0) return;
  const theta = (m[5 * q]! - m[5 * p]!) / (2 * pq);
  const t = (theta < 0 ? -1 : 1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
  const c = 1 / Math.sqrt(t * t + 1);
  const s = t * c;
  for (let k = 0; k < 4; k++) {
    const kp = m[4 * k + p]!;
    const kq = m[4 * k + q]!;
    m[4 * k + p] = c * kp - s * kq;
    m[4 * k + q] = s * kp + c * kq;
  }
  for (let k = 0; k < 4; k++) {
    const pk = m[4 * p + k]!;
    const qk = m[4 * q + k]!;
    m[4 * p + k] = c * pk - s * qk;
    m[4 * q + k] = s * pk + c * qk;
    const vp = vectors[4 * k + p]!;
    const vq = vectors[4 * k + q]!;
    vectors[4 * k + p] = c * vp - s * vq;
    vectors[4 * k + q] = s * vp + c * vq;
  }
}

/** Adds |lambda| v v' for each negative eigenvalue, turned back from the frame. */
function liftInPlane({ frame, inPlane, vectors }: PositivePartRoom, c: Float64Array): void {
  for (let e = 0; e < 4; e++) {
    const lambda = inPlane[5 * e]!;
    if (lambda >= 0) continue;
    for (let i = 0; i < 6; i++) {
      const vi = turned(frame, vectors, e, i);
      for (let j = 0; j < 6; j++) c[6 * i + j]! -= lambda * vi * turned(frame, vectors, e, j);
    }
  }
}

/** Entry i of eigenvector e in space: v_u1 e1 + v_u2 e2, then v_v1 e1 + v_v2 e2. */
function turned(frame: Float64Array, vectors: Float64Array, e: number, i: number): number {
  const yarn = i < 3 ? 0 : 2;
  const axis = i < 3 ? i : i - 3;
  return vectors[4 * yarn + e]! * frame[axis]! + vectors[4 * (yarn + 1) + e]! * frame[3 + axis]!;
}
