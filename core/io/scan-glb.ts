import { BufferUtils } from '@gltf-transform/core';
import { Fault } from '../fault/fault.ts';
import { broken, isObject, listIn, objectsIn, textOf, wholeBelow, type Json } from './glb-json.ts';
import { requireWithin } from './mesh-limits.ts';

/** A GLB file taken apart: its JSON, not yet trusted, and its binary chunk. */
export interface GlbParts {
  readonly json: Json;
  readonly binary: Uint8Array;
}

/** Extensions that change no shape, or only how numbers are stored, which the reader knows. */
const HARMLESS = /^(KHR_materials_|KHR_texture_|EXT_texture_|KHR_lights_|KHR_mesh_quantization$|KHR_xmp)/;

/**
 * Takes a GLB file apart and refuses what cannot be read: unknown extensions, data in other files.
 *
 * @throws {Fault} `mesh/too-large`, `mesh/not-glb`, `mesh/glb-feature`, `mesh/glb-broken`.
 * @see Khronos, glTF 2.0 specification (ISO/IEC 12113:2022), section 4.4.
 */
export function scanGlb(bytes: Uint8Array): GlbParts {
  requireWithin('bytes', bytes.length);
  const { text, binary } = chunksOf(bytes);
  const json = parsed(text);
  for (const name of listIn(json, 'extensionsRequired', 'extensionsRequired')) {
    if (typeof name === 'string' && HARMLESS.test(name)) continue;
    throw new Fault('mesh/glb-feature', { feature: 'extension', name: textOf(name) });
  }
  objectsIn(json, 'buffers').forEach((buffer, i) => requireOwnBuffer(buffer, i, binary));
  return { json, binary };
}

/** Only the file's own binary chunk may hold data. */
function requireOwnBuffer({ uri, byteLength }: Json, i: number, binary: Uint8Array): void {
  if (uri !== undefined) {
    throw new Fault('mesh/glb-feature', { feature: 'outside file', name: textOf(uri) });
  }
  if (i > 0) throw broken(`buffers[${i}]`, 'a GLB file has one buffer only');
  wholeBelow(binary.length + 1, byteLength, 'buffers[0].byteLength');
}

const notGlb = (problem: string): Fault<'mesh/not-glb'> => new Fault('mesh/not-glb', { problem });

function chunksOf(bytes: Uint8Array): { text: string; binary: Uint8Array } {
  if (bytes.length < 20) throw notGlb(`it is only ${bytes.length} bytes long`);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (view.getUint32(0, true) !== 0x46546c67) throw notGlb('it does not begin with "glTF"');
  const version = view.getUint32(4, true);
  if (version !== 2) throw notGlb(`its version is ${version}, not 2`);
  const length = view.getUint32(8, true);
  if (length > bytes.length) throw notGlb(`it should be ${length} bytes long but ends after ${bytes.length}`);
  const jsonLength = view.getUint32(12, true);
  if (view.getUint32(16, true) !== 0x4e4f534a) throw notGlb('its first chunk is not JSON');
  if (20 + jsonLength > length) throw notGlb('its JSON chunk runs past the end');
  const text = BufferUtils.decodeText(bytes.slice(20, 20 + jsonLength));
  const at = 20 + jsonLength;
  if (at + 8 > length || view.getUint32(at + 4, true) !== 0x004e4942)
    return { text, binary: new Uint8Array() };
  const binaryLength = view.getUint32(at, true);
  if (at + 8 + binaryLength > length) throw notGlb('its binary chunk runs past the end');
  return { text, binary: bytes.slice(at + 8, at + 8 + binaryLength) };
}

function parsed(text: string): Json {
  let file: unknown;
  try {
    file = JSON.parse(text);
  } catch {
    throw notGlb('its JSON cannot be read');
  }
  if (!isObject(file)) throw notGlb('its JSON is no object');
  return file;
}
