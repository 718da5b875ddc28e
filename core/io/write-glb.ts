import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { mmFromMetres } from '../units/units.ts';

/** A mesh with numbers at its vertices. */
export interface GlbContent extends TriangleMesh {
  /** One list per quantity, one number per vertex; glTF wants own names to begin with `_` and be in capitals. */
  readonly attributes?: Readonly<Record<`_${string}`, Float32Array>>;
  /** Whatever the reader should know; plain JSON. */
  readonly extras?: Readonly<Record<string, unknown>>;
}

const FLOAT = 5126;
const UNSIGNED_INT = 5125;
const VERTEX_DATA = 34962;
const INDEX_DATA = 34963;

/**
 * A mesh as binary glTF 2.0, one primitive, positions in millimetres: `asset.extras` and `scenes[0].extras` say so,
 * since glTF itself would take them for metres.
 *
 * @param content - Positions in m.
 * @see Khronos, glTF 2.0 specification (ISO/IEC 12113:2022), sections 3.6 (accessors), 4.4 (GLB layout).
 */
export function writeGlb({ positions, triangles, attributes = {}, extras = {} }: GlbContent): Uint8Array {
  const millimetres = Float32Array.from(positions, mmFromMetres);
  const lists: readonly [string, Float32Array][] = [['POSITION', millimetres], ...Object.entries(attributes)];
  const parts = [...lists.map(([, values]) => values), triangles];
  const starts = parts.map((_, i) => parts.slice(0, i).reduce((sum, part) => sum + part.byteLength, 0));
  const byteLength = parts.reduce((sum, part) => sum + part.byteLength, 0);
  const vertexCount = positions.length / 3;
  const said = { ...extras, lengthUnit: 'millimetre' };
  const json = {
    asset: { version: '2.0', generator: 'Snugfield', extras: said },
    scene: 0,
    scenes: [{ nodes: [0], extras: said }],
    nodes: [{ mesh: 0 }],
    meshes: [
      {
        primitives: [
          {
            attributes: Object.fromEntries(lists.map(([name], i) => [name, i])),
            indices: lists.length,
            mode: 4,
          },
        ],
      },
    ],
    accessors: [
      ...lists.map(([name], i) => ({
        bufferView: i,
        componentType: FLOAT,
        count: vertexCount,
        type: name === 'POSITION' ? 'VEC3' : 'SCALAR',
        ...(name === 'POSITION' ? extentOf(millimetres) : {}),
      })),
      { bufferView: lists.length, componentType: UNSIGNED_INT, count: triangles.length, type: 'SCALAR' },
    ],
    bufferViews: parts.map((part, i) => ({
      buffer: 0,
      byteOffset: starts[i],
      byteLength: part.byteLength,
      target: i < lists.length ? VERTEX_DATA : INDEX_DATA,
    })),
    buffers: [{ byteLength }],
  };
  return assembled(asciiOf(JSON.stringify(json)), parts, byteLength);
}

/** Header, JSON chunk padded with spaces, binary chunk; every part is a multiple of four bytes long. */
function assembled(
  json: Uint8Array,
  parts: readonly (Float32Array | Uint32Array)[],
  byteLength: number,
): Uint8Array {
  const jsonLength = Math.ceil(json.length / 4) * 4;
  const bytes = new Uint8Array(12 + 8 + jsonLength + 8 + byteLength);
  const view = new DataView(bytes.buffer);
  const words = [0x46546c67, 2, bytes.length, jsonLength, 0x4e4f534a];
  words.forEach((word, i) => view.setUint32(4 * i, word, true));
  bytes.fill(0x20, 20, 20 + jsonLength);
  bytes.set(json, 20);
  let at = 20 + jsonLength;
  view.setUint32(at, byteLength, true);
  view.setUint32(at + 4, 0x004e4942, true);
  at += 8;
  for (const part of parts)
    for (const value of part) {
      if (part instanceof Float32Array) view.setFloat32(at, value, true);
      else view.setUint32(at, value, true);
      at += 4;
    }
  return bytes;
}

/** Smallest and largest position, as glTF demands it, of the very numbers that are written. */
function extentOf(positions: Float32Array): { min: number[]; max: number[] } {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  positions.forEach((value, i) => {
    min[i % 3] = Math.min(min[i % 3]!, value);
    max[i % 3] = Math.max(max[i % 3]!, value);
  });
  return { min, max };
}

/** JSON text as bytes; what is not ASCII is escaped, so one character is one byte. */
function asciiOf(json: string): Uint8Array {
  const escaped = json.replaceAll(
    /[^\u0020-\u007e]/g,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
  return Uint8Array.from(escaped, (character) => character.charCodeAt(0));
}
