import { BufferUtils } from '@gltf-transform/core';
import { Fault } from '../fault/fault.ts';
import { bytesOfBase64 } from './base64.ts';
import { broken, isObject, listIn, objectsIn, textOf, wholeBelow, type Json } from './glb-json.ts';
import { requireWithin } from './mesh-limits.ts';

/** A glTF file taken apart: its JSON, not yet trusted, and all its binary data. */
export interface GlbParts {
  readonly json: Json;
  /** Its buffers end to end. */
  readonly binary: Uint8Array;
  /** Where each buffer begins in `binary`, on a multiple of 8, and how long it is. */
  readonly buffers: readonly { readonly start: number; readonly length: number }[];
}

/** Extensions that change no shape, or only how numbers are stored, which the reader knows. */
const HARMLESS = /^(KHR_materials_|KHR_texture_|EXT_texture_|KHR_lights_|KHR_mesh_quantization$|KHR_xmp)/;

/**
 * Takes a glTF file apart, binary (GLB) or JSON with its data in it, and refuses what cannot be read: unknown extensions,
 * data in other files.
 *
 * @throws {Fault} `mesh/too-large`, `mesh/not-glb`, `mesh/not-its-kind`, `mesh/glb-feature`, `mesh/glb-broken`.
 * @see Khronos, glTF 2.0 specification (ISO/IEC 12113:2022), sections 3.6.1 and 4.4.
 */
export function scanGlb(bytes: Uint8Array): GlbParts {
  requireWithin('bytes', bytes.length);
  const { text, own } = isJson(bytes)
    ? { text: BufferUtils.decodeText(Uint8Array.from(bytes)), own: null }
    : chunksOf(bytes);
  const json = parsed(text, own === null);
  for (const name of listIn(json, 'extensionsRequired', 'extensionsRequired')) {
    if (typeof name === 'string' && HARMLESS.test(name)) continue;
    throw new Fault('mesh/glb-feature', { feature: 'extension', name: textOf(name) });
  }
  const buffers = objectsIn(json, 'buffers');
  requireWithin('nodes', buffers.length);
  return { json, ...endToEnd(buffers.map((buffer, i) => bytesOfBuffer(buffer, i, own))) };
}

/** Whether a file is JSON text: its first character that is no blank or byte order mark opens an object. */
function isJson(bytes: Uint8Array): boolean {
  const start = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  return /^\s*\{/.test(String.fromCharCode(...bytes.subarray(start, start + 64)));
}

/** Data is in the file's own binary chunk, or written out in the JSON; nothing outside is ever looked for. */
function bytesOfBuffer({ uri, byteLength }: Json, i: number, own: Uint8Array | null): Uint8Array {
  const place = `buffers[${i}]`;
  let data = own;
  if (uri !== undefined) data = bytesOfUri(uri, place);
  else if (own === null || i > 0) throw broken(place, 'it names no data');
  return data!.subarray(0, wholeBelow(data!.length + 1, byteLength, `${place}.byteLength`));
}

function bytesOfUri(uri: unknown, place: string): Uint8Array {
  const head = typeof uri === 'string' ? /^data:[^,]{0,200};base64,/.exec(uri.slice(0, 220))?.[0] : undefined;
  if (typeof uri !== 'string' || head === undefined) {
    throw new Fault('mesh/glb-feature', { feature: 'outside file', name: textOf(uri) });
  }
  const bytes = bytesOfBase64(uri.slice(head.length));
  if (bytes === null) throw broken(`${place}.uri`, 'its data is not base64');
  return bytes;
}

function endToEnd(parts: readonly Uint8Array[]): Pick<GlbParts, 'binary' | 'buffers'> {
  let end = 0;
  const buffers = parts.map(({ length }) => {
    const start = end;
    end = Math.ceil((start + length) / 8) * 8;
    return { start, length };
  });
  // Buffers may all be one chunk, named again and again.
  requireWithin('bytes', end);
  const binary = new Uint8Array(end);
  parts.forEach((part, i) => binary.set(part, buffers[i]!.start));
  return { binary, buffers };
}

const notGlb = (problem: string): Fault<'mesh/not-glb'> => new Fault('mesh/not-glb', { problem });

function chunksOf(bytes: Uint8Array): { text: string; own: Uint8Array } {
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
  if (at + 8 > length || view.getUint32(at + 4, true) !== 0x004e4942) return { text, own: new Uint8Array() };
  const binaryLength = view.getUint32(at, true);
  if (at + 8 + binaryLength > length) throw notGlb('its binary chunk runs past the end');
  return { text, own: bytes.slice(at + 8, at + 8 + binaryLength) };
}

function parsed(text: string, isAlone: boolean): Json {
  const refuse = (problem: string): Fault =>
    isAlone ? new Fault('mesh/not-its-kind', { kind: 'glTF', problem }) : notGlb(problem);
  let file: unknown;
  try {
    file = JSON.parse(text.startsWith('\uFEFF') ? text.slice(1) : text);
  } catch {
    throw refuse('its JSON cannot be read');
  }
  if (!isObject(file)) throw refuse('its JSON is no object');
  return file;
}
