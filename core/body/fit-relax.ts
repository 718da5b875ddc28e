/** Evening out the net of a fit body's skin without leaving the field's zero level. Lengths in mm. */
import type { Field } from './fit-field.ts';
import type { HalfSkin } from './fit-skin.ts';

/** Neighbours of every vertex, one after another: those of v stand at start[v] .. start[v + 1]. */
export interface Neighbours {
  readonly start: Uint32Array;
  readonly vertices: Uint32Array;
  /** 2 for a neighbour off the midline of a vertex on it (its mirror image counts too), else 1. */
  readonly weights: Uint8Array;
}

const ROUNDS = 8;
const STEP = 0.6;
/** Gradients hardly turn while vertices slide by a millimetre: they are refreshed only every third round. */
const REFRESH = 3;
/** Step of the difference quotients, mm. */
const DIFFERENCE = 0.05;

/**
 * The same net with its vertices on the zero level and evenly spread.
 *
 * Each round moves a vertex 0.6 of the way to the mean of its neighbours, along the skin only, then back onto it;
 * at the end Newton steps p -= F g / |g|^2 until |F| < 1e-6 mm. Midline vertices keep x = 0 exactly.
 */
export function relaxed(half: HalfSkin, field: Field, neighbours: Neighbours): HalfSkin {
  const { onMidline } = half;
  let here = half.positions.slice();
  let next = here.slice();
  const gradients = new Float64Array(here.length);
  settleOn({ positions: here, onMidline }, field, 1);
  for (let round = 0; round < ROUNDS; round++) {
    if (round % REFRESH === 0) readGradients({ positions: here, gradients, onMidline }, field);
    slide({ from: here, into: next, gradients, onMidline }, neighbours);
    for (let p = 0; p < next.length; p += 3) {
      const f = field(next[p]!, next[p + 1]!, next[p + 2]!);
      const [gx, gy, gz] = [gradients[p]!, gradients[p + 1]!, gradients[p + 2]!];
      const pull = f / (gx * gx + gy * gy + gz * gz);
      next[p]! -= pull * gx;
      next[p + 1]! -= pull * gy;
      next[p + 2]! -= pull * gz;
    }
    [here, next] = [next, here];
  }
  settleOn({ positions: here, onMidline }, field);
  return { ...half, positions: here };
}

/** Who is joined to whom by a side of a quad. */
export function neighboursOf({ quads, onMidline }: HalfSkin): Neighbours {
  const vertexCount = onMidline.length;
  const start = new Uint32Array(vertexCount + 1);
  // Inner sides are walked once each way; sides on the midline have one quad only and are entered for both ends.
  const eachLink = (enter: (from: number, to: number) => void): void => {
    for (let s = 0; s < quads.length; s++) {
      const from = quads[s]!;
      const to = quads[s % 4 === 3 ? s - 3 : s + 1]!;
      enter(from, to);
      if (onMidline[from] === 1 && onMidline[to] === 1) enter(to, from);
    }
  };
  eachLink((from) => {
    start[from + 1]!++;
  });
  for (let v = 0; v < vertexCount; v++) start[v + 1]! += start[v]!;
  const filled = start.slice();
  const vertices = new Uint32Array(start[vertexCount]!);
  const weights = new Uint8Array(vertices.length);
  eachLink((from, to) => {
    const at = filled[from]!++;
    vertices[at] = to;
    weights[at] = onMidline[from] === 1 && onMidline[to] === 0 ? 2 : 1;
  });
  return { start, vertices, weights };
}

interface Sliding {
  readonly from: Float64Array;
  readonly into: Float64Array;
  readonly gradients: Float64Array;
  readonly onMidline: Uint8Array;
}

/** Moves every vertex towards the mean of its neighbours, less the part of the move along the gradient. */
function slide({ from, into, gradients, onMidline }: Sliding, neighbours: Neighbours): void {
  const { start, vertices, weights } = neighbours;
  for (let v = 0; v < onMidline.length; v++) {
    let [x, y, z, total] = [0, 0, 0, 0];
    for (let n = start[v]!; n < start[v + 1]!; n++) {
      const p = 3 * vertices[n]!;
      const weight = weights[n]!;
      x += weight * from[p]!;
      y += weight * from[p + 1]!;
      z += weight * from[p + 2]!;
      total += weight;
    }
    const p = 3 * v;
    const moveX = onMidline[v] === 1 ? 0 : STEP * (x / total - from[p]!);
    const moveY = STEP * (y / total - from[p + 1]!);
    const moveZ = STEP * (z / total - from[p + 2]!);
    const [gx, gy, gz] = [gradients[p]!, gradients[p + 1]!, gradients[p + 2]!];
    const along = (moveX * gx + moveY * gy + moveZ * gz) / (gx * gx + gy * gy + gz * gz);
    into[p] = from[p]! + moveX - along * gx;
    into[p + 1] = from[p + 1]! + moveY - along * gy;
    into[p + 2] = from[p + 2]! + moveZ - along * gz;
  }
}

interface Gradients {
  readonly positions: Float64Array;
  readonly gradients: Float64Array;
  readonly onMidline: Uint8Array;
}

/** Gradients of all vertices by forward differences; no x part on the midline. */
function readGradients({ positions, gradients, onMidline }: Gradients, field: Field): void {
  for (let v = 0, p = 0; v < onMidline.length; v++, p += 3) {
    const [x, y, z] = [positions[p]!, positions[p + 1]!, positions[p + 2]!];
    const f = field(x, y, z);
    gradients[p] = onMidline[v] === 1 ? 0 : (field(x + DIFFERENCE, y, z) - f) / DIFFERENCE;
    gradients[p + 1] = (field(x, y + DIFFERENCE, z) - f) / DIFFERENCE;
    gradients[p + 2] = (field(x, y, z + DIFFERENCE) - f) / DIFFERENCE;
  }
}

/** Brings every vertex onto the zero level, by at most `mostSteps` Newton steps of at most 3 mm. */
function settleOn(
  { positions, onMidline }: Pick<Gradients, 'positions' | 'onMidline'>,
  field: Field,
  mostSteps = 12,
): void {
  for (let v = 0, p = 0; v < onMidline.length; v++, p += 3) {
    for (let step = 0; step < mostSteps; step++) {
      const [x, y, z] = [positions[p]!, positions[p + 1]!, positions[p + 2]!];
      const f = field(x, y, z);
      if (Math.abs(f) < 1e-6) break;
      const gx = onMidline[v] === 1 ? 0 : (field(x + DIFFERENCE, y, z) - f) / DIFFERENCE;
      const gy = (field(x, y + DIFFERENCE, z) - f) / DIFFERENCE;
      const gz = (field(x, y, z + DIFFERENCE) - f) / DIFFERENCE;
      const square = gx * gx + gy * gy + gz * gz;
      const pull = Math.min(Math.max(f / square, -3 / Math.sqrt(square)), 3 / Math.sqrt(square));
      positions[p] = x - pull * gx;
      positions[p + 1] = y - pull * gy;
      positions[p + 2] = z - pull * gz;
    }
  }
}
