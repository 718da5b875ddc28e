/**
 * Splits a face of any number of corners into triangles of the same turn.
 *
 * Three and four convex corners and any convex face become a fan; others lose one ear after another, in the plane
 * square to the face's area vector. A face that folds over itself still comes out as corners - 2 triangles; the work on a
 * face is bounded by the square of its corners, however it is folded.
 *
 * @param corners - Vertex indices, each once.
 * @param positions - 3 per vertex.
 * @param into - Three indices per triangle are added.
 * @see Meisters, Amer. Math. Monthly 82 (1975) 648: every simple polygon has two ears.
 */
export function splitFace(corners: readonly number[], positions: ArrayLike<number>, into: number[]): void {
  if (corners.length === 3) {
    into.push(corners[0]!, corners[1]!, corners[2]!);
    return;
  }
  const flat = flattened(corners, positions);
  const left = corners.map((_, i) => i);
  const looks = { left: MOST_LOOKS * corners.length ** 2 };
  while (left.length > 3) {
    const ear = findEar(left, flat, looks);
    const [before, here, after] = neighbours(left, ear);
    into.push(corners[before]!, corners[here]!, corners[after]!);
    left.splice(ear, 1);
  }
  into.push(corners[left[0]!]!, corners[left[1]!]!, corners[left[2]!]!);
}

/** Looks at a corner, over the square of the corners: convex faces need half of one, twisted ones a few. */
const MOST_LOOKS = 12;

type Point = readonly [number, number];

/** The corners seen along the face's area vector, so that it turns counter-clockwise. @see Newell's formula. */
function flattened(corners: readonly number[], positions: ArrayLike<number>): Point[] {
  const at = (i: number, k: number): number => positions[3 * corners[i % corners.length]! + k]!;
  const area = [0, 0, 0];
  for (let i = 0; i < corners.length; i++)
    for (let k = 0; k < 3; k++) {
      const [a, b] = [(k + 1) % 3, (k + 2) % 3];
      area[k]! += (at(i, a) - at(i + 1, a)) * (at(i, b) + at(i + 1, b));
    }
  const sizes = area.map(Math.abs);
  const drop = sizes.indexOf(Math.max(...sizes));
  const [u, v] = area[drop]! >= 0 ? [(drop + 1) % 3, (drop + 2) % 3] : [(drop + 2) % 3, (drop + 1) % 3];
  return corners.map((_, i): Point => [at(i, u), at(i, v)]);
}

const neighbours = (left: readonly number[], i: number): [number, number, number] => [
  left[(i + left.length - 1) % left.length]!,
  left[i]!,
  left[(i + 1) % left.length]!,
];

/** Place in `left` of a convex corner whose triangle holds no other corner; the most convex one where there is none. */
function findEar(left: readonly number[], flat: readonly Point[], looks: { left: number }): number {
  let best = 0;
  let widest = -Infinity;
  for (let i = 0; i < left.length; i++) {
    const [before, here, after] = neighbours(left, i);
    const [a, b, c] = [flat[before]!, flat[here]!, flat[after]!];
    const turn = turnOf(a, b, c);
    if (turn > widest) {
      widest = turn;
      best = i;
    }
    if (turn <= 0) continue;
    const holds = left.some((other) => {
      looks.left--;
      const p = flat[other]!;
      if (other === before || other === here || other === after) return false;
      return turnOf(a, b, p) >= 0 && turnOf(b, c, p) >= 0 && turnOf(c, a, p) >= 0;
    });
    if (!holds || looks.left < 0) return i;
  }
  return best;
}

/** Twice the signed area of a b c. */
const turnOf = (a: Point, b: Point, c: Point): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
