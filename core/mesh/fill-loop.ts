/** A patch that fills a loop. */
export interface LoopPatch {
  /** Vertices added inside, 3 each. */
  readonly inner: number[];
  /** Corners: the rim's vertices first, 0 to n - 1, then the inner ones. */
  readonly triangles: number[];
}

/** Rounds of splitting; each makes edges inside about 1.7 times shorter. */
const MOST_ROUNDS = 12;
/** A patch does not grow beyond this many triangles (beside those of the first fan); coarser inside where it would. */
const MOST_TRIANGLES = 12_000;
/** Turns of flipping and smoothing per round, and fewer in a large patch, which has more rounds to settle. */
const RELAXINGS = 40;
const LARGE_RELAXINGS = 10;
const LARGE = 2000;

/**
 * Fills a loop with triangles about as large as its own edges: a fan about the middle, whose triangles are split at
 * their middle while they are too large, edges flipped to the shorter way (angles across that sum to more than 180
 * degrees), inner vertices drawn to the mean of their neighbours.
 *
 * A fan joins no two vertices of the rim, so no edge can come about that the mesh already has; flips are held to that.
 *
 * @param rim - 3 per vertex, n vertices; the triangles run along it in this order.
 * @see Liepa, Filling holes in meshes, Symposium on Geometry Processing 2003: refinement and relaxation.
 */
export function fillLoop(rim: Float64Array): LoopPatch {
  const rimCount = rim.length / 3;
  if (rimCount === 3) return { inner: [], triangles: [0, 1, 2] };
  const points = [...rim];
  for (let k = 0; k < 3; k++) {
    let sum = 0;
    for (let i = 0; i < rimCount; i++) sum += rim[3 * i + k]!;
    points.push(sum / rimCount);
  }
  let triangles = Array.from({ length: rimCount }, (_, i) => [i, (i + 1) % rimCount, rimCount]).flat();
  const wanted = meanRimEdge(rim);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const before = triangles.length;
    triangles = splitLarge(triangles, points, wanted, 3 * (MOST_TRIANGLES + rimCount));
    relax(triangles, points, rimCount);
    if (triangles.length === before) break;
  }
  return { inner: points.slice(3 * rimCount), triangles };
}

function meanRimEdge(rim: Float64Array): number {
  const count = rim.length / 3;
  let sum = 0;
  for (let i = 0; i < count; i++) sum += distance(rim, i, (i + 1) % count);
  return sum / count;
}

/** Splits every triangle at its middle whose middle lies farther than wanted from all its corners. */
/* oxlint-disable-next-line max-params -- triangles, points, two limits */
function splitLarge(
  triangles: readonly number[],
  points: number[],
  wanted: number,
  mostCorners: number,
): number[] {
  const split: number[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [triangles[i]!, triangles[i + 1]!, triangles[i + 2]!];
    const at = (k: number): number => (points[3 * a + k]! + points[3 * b + k]! + points[3 * c + k]!) / 3;
    const m = points.length / 3;
    points.push(at(0), at(1), at(2));
    const nearest = Math.min(distance(points, a, m), distance(points, b, m), distance(points, c, m));
    if (nearest * Math.SQRT2 > wanted && split.length + triangles.length - i < mostCorners) {
      split.push(a, b, m, b, c, m, c, a, m);
    } else {
      points.length -= 3;
      split.push(a, b, c);
    }
  }
  return split;
}

/** Flips edges and moves inner vertices in turns until nothing flips any more. */
function relax(triangles: number[], points: number[], rimCount: number): void {
  const turns = triangles.length / 3 > LARGE ? LARGE_RELAXINGS : RELAXINGS;
  for (let i = 0; i < turns; i++) {
    const flips = flipOnce(triangles, points, rimCount);
    smooth(triangles, points, rimCount);
    if (flips === 0 && i > 8) return;
  }
}

/** One pass over the inner edges; each triangle takes part in one flip at most. */
function flipOnce(triangles: number[], points: readonly number[], rimCount: number): number {
  const sideOf = new Map<number, number>();
  const vertexCount = points.length / 3;
  const key = (a: number, b: number): number => a * vertexCount + b;
  triangles.forEach((v, side) => sideOf.set(key(v, triangles[nextSide(side)]!), side));
  const isDone = new Uint8Array(triangles.length / 3);
  let flips = 0;
  for (let side = 0; side < triangles.length; side++) {
    const a = triangles[side]!;
    const b = triangles[nextSide(side)]!;
    const other = sideOf.get(key(b, a));
    if (other === undefined || a > b) continue;
    const [t, u] = [Math.floor(side / 3), Math.floor(other / 3)];
    const c = triangles[nextSide(nextSide(side))]!;
    const d = triangles[nextSide(nextSide(other))]!;
    // Two rim vertices may be joined by an edge of the mesh already.
    const isBarred = (c < rimCount && d < rimCount) || sideOf.has(key(c, d)) || sideOf.has(key(d, c));
    if (isDone[t] || isDone[u] || isBarred || t === u) continue;
    if (angleAt(points, c, a, b) + angleAt(points, d, a, b) <= Math.PI + 1e-9) continue;
    triangles.splice(3 * t, 3, c, a, d);
    triangles.splice(3 * u, 3, d, b, c);
    sideOf.set(key(c, d), -1);
    isDone[t] = 1;
    isDone[u] = 1;
    flips++;
  }
  return flips;
}

/** Every inner vertex to the mean of its neighbours, all at once. */
function smooth(triangles: readonly number[], points: number[], rimCount: number): void {
  const sums = new Float64Array(points.length);
  const counts = new Uint32Array(points.length / 3);
  triangles.forEach((v, side) => {
    const to = triangles[side % 3 === 2 ? side - 2 : side + 1]!;
    counts[v]!++;
    for (let k = 0; k < 3; k++) sums[3 * v + k]! += points[3 * to + k]!;
  });
  for (let v = rimCount; v < counts.length; v++)
    for (let k = 0; k < 3; k++) points[3 * v + k] = sums[3 * v + k]! / counts[v]!;
}

const nextSide = (side: number): number => (side % 3 === 2 ? side - 2 : side + 1);

function distance(points: ArrayLike<number>, a: number, b: number): number {
  return Math.hypot(
    points[3 * a]! - points[3 * b]!,
    points[3 * a + 1]! - points[3 * b + 1]!,
    points[3 * a + 2]! - points[3 * b + 2]!,
  );
}

/** Angle at c between the ways to a and b, rad. */
/* oxlint-disable-next-line max-params -- points and three indices */
function angleAt(points: ArrayLike<number>, c: number, a: number, b: number): number {
  const [p, q, r] = [distance(points, a, b), distance(points, c, a), distance(points, c, b)];
  return Math.acos(Math.min(1, Math.max(-1, (q * q + r * r - p * p) / (2 * q * r || 1))));
}
