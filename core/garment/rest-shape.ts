/** Unstretched shape of one triangle, as `ClothLevel` stores it. */
export interface RestShape {
  /** 4*T, see ClothLevel. */
  readonly restInverse: Float64Array;
  /** T, m^2. */
  readonly restArea: Float64Array;
}

/** Unstretched triangle in the plane: first corner at the origin, the other two at (ax, ay) and (bx, by); m. */
export interface FlatTriangle {
  readonly ax: number;
  readonly ay: number;
  readonly bx: number;
  readonly by: number;
}

/**
 * Writes the inverse of the rest matrix and the rest area of triangle `t`.
 *
 * Dm = [a, b] (columns: the rest edges, rows: warp, weft); restInverse = Dm^-1, area = |det Dm| / 2.
 *
 * @param flat - Edges in the fabric's own axes: x along the warp, y along the weft.
 * @param into - Written at `t`.
 */
export function setRestShape(flat: FlatTriangle, t: number, into: RestShape): void {
  const determinant = flat.ax * flat.by - flat.ay * flat.bx;
  into.restInverse[4 * t] = flat.by / determinant;
  into.restInverse[4 * t + 1] = -flat.bx / determinant;
  into.restInverse[4 * t + 2] = -flat.ay / determinant;
  into.restInverse[4 * t + 3] = flat.ax / determinant;
  into.restArea[t] = Math.abs(determinant) / 2;
}

/**
 * Lays a triangle flat from its three unstretched edge lengths, its first edge along +x.
 *
 * bx = (l01^2 + l02^2 - l12^2) / (2 l01), by = sqrt(l02^2 - bx^2) (law of cosines).
 */
export function flatFromLengths(l01: number, l02: number, l12: number): FlatTriangle {
  const bx = (l01 * l01 + l02 * l02 - l12 * l12) / (2 * l01);
  return { ax: l01, ay: 0, bx, by: Math.sqrt(Math.max(0, l02 * l02 - bx * bx)) };
}
