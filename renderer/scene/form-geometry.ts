import { BufferAttribute, BufferGeometry } from 'three';
import type { Field } from '../../core/fields/field.ts';

/** One fabric's cloth and the skin under it, resident on the graphics card. */
export interface WornForm {
  readonly cloth: BufferGeometry;
  readonly skin: BufferGeometry;
}

/** Cloth is drawn this far off the skin along its normal so that facets do not come through, m. */
const LIFT = 0.0012;

/**
 * Skin as triangles on the graphics card; single precision begins here.
 *
 * @param normals - Unit, 3·V; computed if left out.
 */
export function skinGeometry(
  positions: Float64Array,
  triangles: Uint32Array,
  normals?: Float64Array,
): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(positions), 3));
  geometry.setIndex(new BufferAttribute(triangles, 1));
  if (normals) geometry.setAttribute('normal', new BufferAttribute(new Float32Array(normals), 3));
  else geometry.computeVertexNormals();
  geometry.computeBoundingSphere();
  return geometry;
}

/** Cloth with room for the values that are painted on it. */
export function clothGeometry(
  positions: Float64Array,
  triangles: Uint32Array,
  edgeVertex: Uint8Array,
): BufferGeometry {
  const geometry = skinGeometry(positions, triangles);
  const drawn = geometry.getAttribute('position').array;
  const normals = geometry.getAttribute('normal').array;
  for (let i = 0; i < drawn.length; i++) drawn[i]! += LIFT * normals[i]!;
  const count = edgeVertex.length;
  geometry.setAttribute('value', new BufferAttribute(new Float32Array(count), 1));
  geometry.setAttribute('missing', new BufferAttribute(new Float32Array(count), 1));
  geometry.setAttribute('hem', new BufferAttribute(Float32Array.from(edgeVertex), 1));
  return geometry;
}

/**
 * Writes a field onto a cloth; a value that is no number is hatched, whatever the field says of it.
 *
 * @param margin - How far each vertex is from having a value, negative where it has one (for pressure: the distance
 *   from the skin), so that the border of the hatch runs smoothly between vertices; null where nothing tells.
 */
export function paintField(
  geometry: BufferGeometry,
  field: Pick<Field, 'values' | 'undefinedAt'>,
  margin: Float64Array | null,
): void {
  const value = geometry.getAttribute('value');
  const missing = geometry.getAttribute('missing');
  field.values.forEach((number, v) => {
    const isMissing = field.undefinedAt[v] === 1 || Number.isNaN(number);
    // Infinite values are beyond every range; the card would make a NaN of them between two vertices.
    value.array[v] = isMissing ? 0 : Math.max(-1e30, Math.min(1e30, number));
    const millimetres = margin === null ? 0.5 : Math.max(1e-3, Math.abs(1000 * margin[v]!));
    missing.array[v] = 0.5 + (isMissing ? millimetres : -millimetres);
  });
  value.needsUpdate = true;
  missing.needsUpdate = true;
}
