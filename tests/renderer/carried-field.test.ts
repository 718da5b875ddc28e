import { expect, it } from 'vitest';
import { carriedField } from '../../renderer/worker/carried-field.ts';
import { pretendField } from '../help/pretend-result.ts';

it('a field goes on over its border as it was inside, and stays undefined there', () => {
  // Two triangles side by side and one beyond: 0 and 1 have values, 2 and 3 lie next to them, 4 and 5 farther out.
  const triangles = Uint32Array.of(0, 1, 2, 1, 3, 2, 3, 4, 5);
  const field = pretendField([0.4, 0.8, NaN, NaN, NaN, NaN], { id: 'gripUsed', unit: 'ratio' });
  const carried = carriedField(field, triangles);
  // Vertex 2: 0.4 and 0.8 of the first triangle, 0.8 of the second; vertex 3: 0.8 alone.
  expect(Array.from(carried.values)).toEqual(
    [0.4, 0.8, 2 / 3, 0.8, 0, 0].map((value) => expect.closeTo(value, 12)),
  );
  expect(carried.undefinedAt).toEqual(field.undefinedAt);
});
