/** Earlier rounds that are looked back on. */
const DEPTH = 4;

/** Takes one round of x <- g(x) and proposes the next x. */
export type Accelerator = (x: Float64Array, image: Float64Array) => Float64Array<ArrayBuffer>;

/**
 * Finds x = g(x) in fewer rounds than by taking g(x) each time: of the last rounds, the mixture whose residuals g(x) - x
 * cancel best is taken, and its g.
 *
 * A round whose residual has grown forgets the rounds before it.
 *
 * @see Anderson, J. ACM 12 (1965) 547; Walker & Ni, SIAM J. Numer. Anal. 49 (2011) 1715.
 */
export function accelerator(): Accelerator {
  let rounds: { residual: Float64Array; image: Float64Array; size: number }[] = [];
  return (x, image) => {
    const residual = image.map((value, i) => value - x[i]!);
    const size = dot(residual, residual);
    const last = rounds.at(-1);
    if (last && size > last.size) rounds = [];
    const earlier = rounds.slice(-DEPTH);
    rounds = [...earlier, { residual, image: Float64Array.from(image), size }];
    const differences = earlier.map((round) => residual.map((value, i) => value - round.residual[i]!));
    const shares = leastSquares(differences, residual);
    const next = Float64Array.from(image);
    shares.forEach((share, j) => {
      const old = earlier[j]!.image;
      for (let i = 0; i < next.length; i++) next[i]! -= share * (image[i]! - old[i]!);
    });
    return next;
  };
}

/** The shares of the columns that come nearest to b, by the normal equations; nearly equal columns count as one. */
function leastSquares(columns: readonly Float64Array[], b: Float64Array): number[] {
  const n = columns.length;
  const rows = columns.map((column) => [...columns.map((other) => dot(column, other)), dot(column, b)]);
  const trace = rows.reduce((sum, row, i) => sum + row[i]!, 0);
  if (!(trace > 0)) return [];
  rows.forEach((row, i) => (row[i]! += REGULAR * trace));
  for (let i = 0; i < n; i++) {
    for (let r = i + 1; r < n; r++) {
      const share = rows[r]![i]! / rows[i]![i]!;
      for (let c = i; c <= n; c++) rows[r]![c]! -= share * rows[i]![c]!;
    }
  }
  const shares = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    let sum = rows[i]![n]!;
    for (let c = i + 1; c < n; c++) sum -= rows[i]![c]! * shares[c]!;
    shares[i] = sum / rows[i]![i]!;
  }
  return shares;
}

const REGULAR = 1e-9;

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
