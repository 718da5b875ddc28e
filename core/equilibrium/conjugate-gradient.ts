/** A linear system A x = b as the solver sees it. */
export interface LinearSystem {
  readonly multiply: (x: Float64Array, into: Float64Array) => void;
  /** Approximates A^-1; symmetric positive definite. */
  readonly precondition: (residual: Float64Array, into: Float64Array) => void;
}

/** Room for one solution, each as long as b. */
export interface ConjugateGradientRoom {
  readonly residual: Float64Array;
  readonly direction: Float64Array;
  readonly image: Float64Array;
  readonly conditioned: Float64Array;
}

export const conjugateGradientRoom = (size: number): ConjugateGradientRoom => ({
  residual: new Float64Array(size),
  direction: new Float64Array(size),
  image: new Float64Array(size),
  conditioned: new Float64Array(size),
});

export interface ConjugateGradientResult {
  readonly iterations: number;
  /** A direction along which A does not resist was met; `into` holds the solution up to there. */
  readonly indefinite: boolean;
}

/**
 * Preconditioned conjugate gradients from x = 0 until |b - A x| <= tolerance |b|.
 *
 * @param into - x, overwritten.
 * @see Saad, Iterative Methods for Sparse Linear Systems, 2nd ed. (2003), algorithm 9.1.
 */
export function conjugateGradient(
  system: LinearSystem,
  b: Float64Array,
  { tolerance, most, room }: { tolerance: number; most: number; room: ConjugateGradientRoom },
  into: Float64Array,
): ConjugateGradientResult {
  const { residual, direction, image, conditioned } = room;
  into.fill(0);
  residual.set(b);
  const goal = tolerance * tolerance * dot(b, b);
  if (goal === 0) return { iterations: 0, indefinite: false };
  system.precondition(residual, conditioned);
  direction.set(conditioned);
  let alignment = dot(residual, conditioned);
  for (let iterations = 1; iterations <= most; iterations++) {
    system.multiply(direction, image);
    const curvature = dot(direction, image);
    if (!(curvature > 0 && alignment > 0)) return { iterations, indefinite: true };
    const step = alignment / curvature;
    for (let i = 0; i < b.length; i++) {
      into[i]! += step * direction[i]!;
      residual[i]! -= step * image[i]!;
    }
    if (dot(residual, residual) <= goal) return { iterations, indefinite: false };
    system.precondition(residual, conditioned);
    const next = dot(residual, conditioned);
    const ratio = next / alignment;
    alignment = next;
    for (let i = 0; i < b.length; i++) direction[i] = conditioned[i]! + ratio * direction[i]!;
  }
  return { iterations: most, indefinite: false };
}

/** Sum of a_i b_i. */
export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
