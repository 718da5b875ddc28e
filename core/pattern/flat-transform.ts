import type { FlatPoint } from './pattern.ts';

/** x' = a x + c y + e, y' = b x + d y + f. */
export interface FlatTransform {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

export const UNCHANGED: FlatTransform = { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 };

export const transformed = ({ a, b, c, d, e, f }: FlatTransform, [x, y]: FlatPoint): FlatPoint => [
  a * x + c * y + e,
  b * x + d * y + f,
];

/** First `inner`, then `outer`. */
export const after = (outer: FlatTransform, inner: FlatTransform): FlatTransform => ({
  a: outer.a * inner.a + outer.c * inner.b,
  b: outer.b * inner.a + outer.d * inner.b,
  c: outer.a * inner.c + outer.c * inner.d,
  d: outer.b * inner.c + outer.d * inner.d,
  e: outer.a * inner.e + outer.c * inner.f + outer.e,
  f: outer.b * inner.e + outer.d * inner.f + outer.f,
});

export const moved = (e: number, f: number): FlatTransform => ({ ...UNCHANGED, e, f });
export const scaled = (a: number, d: number): FlatTransform => ({ ...UNCHANGED, a, d });

/** Counter-clockwise where y points up, rad. */
export const turnedBy = (angle: number): FlatTransform => {
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  return { a: cos, b: sin, c: -sin, d: cos, e: 0, f: 0 };
};

/** How much longer a line can become. */
export const growthOf = ({ a, b, c, d }: FlatTransform): number => Math.hypot(a, b, c, d);
