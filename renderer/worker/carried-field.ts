import type { Field } from '../../core/fields/field.ts';

/**
 * A field that does not run out to nothing where it ends: vertices without a value take the mean of their neighbours
 * that have one, so that the last triangles before the border are painted, and read, as what lies inside it.
 *
 * @param triangles - 3·T.
 */
export function carriedField(field: Field, triangles: Uint32Array): Field {
  const { values, undefinedAt } = field;
  const sums = new Float64Array(values.length);
  const counts = new Uint32Array(values.length);
  for (let corner = 0; corner < triangles.length; corner++) {
    const v = triangles[corner]!;
    if (undefinedAt[v] !== 1) continue;
    const first = corner - (corner % 3);
    for (let c = first; c < first + 3; c++) {
      const neighbour = triangles[c]!;
      if (undefinedAt[neighbour] === 1) continue;
      sums[v]! += values[neighbour]!;
      counts[v]!++;
    }
  }
  return { ...field, values: values.map((value, v) => (counts[v]! > 0 ? sums[v]! / counts[v]! : value)) };
}
