import { describe, expect, it } from 'vitest';
import { alike } from '../../../core/study/alike.ts';

describe('alike', () => {
  it.each<readonly [unknown, unknown]>([
    [1, 1],
    [{ a: [1, { b: 'x' }] }, { a: [1, { b: 'x' }] }],
    [
      { a: 1, b: 2 },
      { b: 2, a: 1 },
    ],
    [Float64Array.of(1, 2), Float64Array.of(1, 2)],
    [{ skin: { triangles: Uint32Array.of(0, 1, 2) } }, { skin: { triangles: Uint32Array.of(0, 1, 2) } }],
  ])('%j says the same as %j', (one, other) => {
    expect(alike(one, other)).toBe(true);
  });

  it.each<readonly [unknown, unknown]>([
    [1, 2],
    [0, null],
    ['1', 1],
    [{ a: 1 }, { a: 1, b: undefined }],
    [
      { a: 1, b: 1 },
      { a: 1, c: 1 },
    ],
    [
      [1, 2],
      [2, 1],
    ],
    [
      [1, 2],
      [1, 2, 3],
    ],
    [Float64Array.of(1, 2), Float64Array.of(1, 2, 3)],
    [Float64Array.of(1, 2), Float64Array.of(1, 3)],
  ])('%j does not say the same as %j', (one, other) => {
    expect(alike(one, other)).toBe(false);
    expect(alike(other, one)).toBe(false);
  });
});
