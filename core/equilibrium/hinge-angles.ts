/** The angles at the inner edges of a cloth and how they change with the vertices. */
export interface HingeAngles {
  /** Ends of the edge, apex of the triangle on its left, apex beyond it; 4*H. */
  readonly vertices: Uint32Array;
  /** By how much the triangles leave one plane, positive where the far apex rises on the outer side, rad; H. */
  readonly angle: Float64Array;
  /** Derivative after each of the four vertices; 12*H, 1/m. */
  readonly slopes: Float64Array;
}

/** A triangle thinner than this share of its side has no plane worth speaking of: its hinges rest. */
const THINNEST = 1e-3;

/**
 * Angles and their slopes where the cloth is now.
 *
 * With heights h, h' of the apexes over the edge, their feet at shares s, s' along it and unit normals n, n':
 * d/dc = n / h, d/dd = n' / h', d/da = -(1-s) n / h - (1-s') n' / h', d/db = -s n / h - s' n' / h'.
 *
 * @param positions - 3*V, m.
 * @param into - `angle` and `slopes` are overwritten.
 * @see Bridson, Marino & Fedkiw, Simulation of clothing with folds and wrinkles, SCA 2003, section 3.
 */
export function readHinges({ vertices, angle, slopes }: HingeAngles, positions: Float64Array): void {
  for (let h = 0; h < angle.length; h++) {
    const a = 3 * vertices[4 * h]!;
    const b = 3 * vertices[4 * h + 1]!;
    const c = 3 * vertices[4 * h + 2]!;
    const d = 3 * vertices[4 * h + 3]!;
    const ex = positions[b]! - positions[a]!;
    const ey = positions[b + 1]! - positions[a + 1]!;
    const ez = positions[b + 2]! - positions[a + 2]!;
    const cx = positions[c]! - positions[a]!;
    const cy = positions[c + 1]! - positions[a + 1]!;
    const cz = positions[c + 2]! - positions[a + 2]!;
    const dx = positions[d]! - positions[a]!;
    const dy = positions[d + 1]! - positions[a + 1]!;
    const dz = positions[d + 2]! - positions[a + 2]!;
    // Twice the areas, as vectors outwards: e x c and d x e.
    const nx = ey * cz - ez * cy;
    const ny = ez * cx - ex * cz;
    const nz = ex * cy - ey * cx;
    const mx = dy * ez - dz * ey;
    const my = dz * ex - dx * ez;
    const mz = dx * ey - dy * ex;
    const squared = ex * ex + ey * ey + ez * ez;
    const near = Math.sqrt(nx * nx + ny * ny + nz * nz);
    const far = Math.sqrt(mx * mx + my * my + mz * mz);
    const at = 12 * h;
    if (near < THINNEST * squared || far < THINNEST * squared) {
      angle[h] = 0;
      slopes.fill(0, at, at + 12);
      continue;
    }
    const length = Math.sqrt(squared);
    const cos = (nx * mx + ny * my + nz * mz) / (near * far);
    // Height of the far apex over the near plane, over its distance from the edge.
    const sin = ((dx * nx + dy * ny + dz * nz) * length) / (near * far);
    angle[h] = Math.atan2(sin, cos);
    const nearShare = (cx * ex + cy * ey + cz * ez) / squared;
    const farShare = (dx * ex + dy * ey + dz * ez) / squared;
    // Normal over height = area vector * length / area^2.
    const p = length / (near * near);
    const q = length / (far * far);
    for (let k = 0; k < 3; k++) {
      const onNear = p * (k === 0 ? nx : k === 1 ? ny : nz);
      const onFar = q * (k === 0 ? mx : k === 1 ? my : mz);
      slopes[at + k] = -(1 - nearShare) * onNear - (1 - farShare) * onFar;
      slopes[at + 3 + k] = -nearShare * onNear - farShare * onFar;
      slopes[at + 6 + k] = onNear;
      slopes[at + 9 + k] = onFar;
    }
  }
}
