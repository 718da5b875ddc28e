import { triple, type Triple } from '../mesh/triple.ts';
import type { ClothLevel } from './garment.ts';
import { setRestShape } from './rest-shape.ts';

/** A piece knit to the body's own shape, only smaller: how much, round the body and along it. */
export interface KnitScaling {
  /** Relaxed over body girth at a height above the mesh's origin. */
  readonly around: (height: number) => number;
  /** Relaxed over body length. */
  readonly along: number;
}

/** Cloth that lies flatter than this (sine of its slope) has no level direction of its own: across the body then. */
const LEVEL = 0.1;

/**
 * Cloth knit to shape: each triangle unstretched is as it lies on the body, scaled along its level direction and across it.
 * Wales run up the body (warp), courses round it (weft).
 *
 * Kinder than a cut garment: no panel's own shape strains it. Right for seamless pieces only.
 */
export const mouldedLevels = (levels: readonly ClothLevel[], scaling: KnitScaling): ClothLevel[] =>
  levels.map((level) => ({ ...level, ...mouldedShape(level, scaling) }));

function mouldedShape({ mesh: { positions, triangles } }: ClothLevel, { around, along }: KnitScaling) {
  const count = triangles.length / 3;
  const shape = { restInverse: new Float64Array(4 * count), restArea: new Float64Array(count) };
  for (let t = 0; t < count; t++) {
    const [a, b, c] = triple((k) => 3 * triangles[3 * t + k]!);
    const e = triple((k) => positions[b + k]! - positions[a + k]!);
    const f = triple((k) => positions[c + k]! - positions[a + k]!);
    const { course, wale } = directions(e, f);
    const height = (positions[a + 1]! + positions[b + 1]! + positions[c + 1]!) / 3;
    const ratio = around(height);
    const flat = (edge: Triple) => ({ warp: along * dot(edge, wale), weft: ratio * dot(edge, course) });
    const [one, other] = [flat(e), flat(f)];
    setRestShape({ ax: one.warp, ay: one.weft, bx: other.warp, by: other.weft }, t, shape);
  }
  return shape;
}

/** Level and uphill directions in a triangle's plane; unit vectors. */
function directions(e: Triple, f: Triple): { course: Triple; wale: Triple } {
  const normal = unit(cross(e, f));
  const level = cross([0, 1, 0], normal);
  const size = Math.hypot(...level);
  const across: Triple = [1 - normal[0] ** 2, -normal[0] * normal[1], -normal[0] * normal[2]];
  const course = unit(size > LEVEL ? level : across);
  return { course, wale: cross(normal, course) };
}

const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Triple, b: Triple): Triple => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const unit = (a: Triple): Triple => {
  const length = Math.hypot(...a);
  return [a[0] / length, a[1] / length, a[2] / length];
};
