import { BufferUtils } from '@gltf-transform/core';
import { Fault } from '../fault/fault.ts';
import type { MeshScene, PassedOver } from '../mesh/mesh-scene.ts';
import { readCoordinate, requireUsableCoordinates, shortened } from './mesh-number.ts';
import { requireWithin } from './mesh-limits.ts';
import { partNames, splitIntoParts } from './scene-parts.ts';
import { asciiText } from './ascii-text.ts';
import { textLines } from './text-lines.ts';

/** Header and count of a binary file; bytes per triangle. */
const HEAD = 84;
const PER_TRIANGLE = 50;

/**
 * Reads an STL file, text or binary, in the file's own unit and axes; every triangle has its own three vertices.
 *
 * A file is binary if its length is what its count promises, even where it begins with "solid" as some programs write it;
 * otherwise the word decides. Normals are passed over: the order of the corners says which side is out.
 *
 * @throws {Fault} `mesh/too-large`, `mesh/not-its-kind`, `mesh/ends-early`, `mesh/not-finite`, `mesh/decimal-comma`,
 *   `mesh/unreadable-line`, `mesh/no-triangles`.
 * @see 3D Systems, StereoLithography interface specification (1989), from memory.
 */
export function readStl(bytes: Uint8Array): MeshScene {
  requireWithin('bytes', bytes.length);
  const isText = /^\s*solid/i.test(asciiText(bytes.subarray(0, 200)));
  if (bytes.length < HEAD) {
    if (isText) return textScene(BufferUtils.decodeText(Uint8Array.from(bytes)));
    throw new Fault('mesh/not-its-kind', {
      kind: 'STL',
      problem: `it is only ${bytes.length} bytes long and does not begin with "solid"`,
    });
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = view.getUint32(80, true);
  const isExact = bytes.length === HEAD + PER_TRIANGLE * count;
  return isText && !isExact
    ? textScene(BufferUtils.decodeText(Uint8Array.from(bytes)))
    : binaryScene(view, count);
}

const scene = (parts: MeshScene['parts'], passedOver: readonly PassedOver[]): MeshScene => ({
  format: 'stl',
  parts,
  unit: null,
  up: null,
  front: null,
  passedOver,
});

function binaryScene(view: DataView, count: number): MeshScene {
  if (count === 0) throw new Fault('mesh/no-triangles', { vertexCount: 0 });
  requireWithin('triangles', count);
  requireWithin('vertices', 3 * count);
  if (HEAD + PER_TRIANGLE * count > view.byteLength) {
    throw new Fault('mesh/ends-early', { what: 'triangles', promised: count, byteCount: view.byteLength });
  }
  const positions = new Float64Array(9 * count);
  let isColoured = false;
  for (let t = 0; t < count; t++) {
    const at = HEAD + PER_TRIANGLE * t;
    for (let i = 0; i < 9; i++) positions[9 * t + i] = view.getFloat32(at + 12 + 4 * i, true);
    isColoured ||= view.getUint16(at + 48, true) !== 0;
  }
  requireUsableCoordinates(positions);
  const triangles = Uint32Array.from({ length: 3 * count }, (_, corner) => corner);
  return scene([{ name: 'part 1', mesh: { positions, triangles } }], isColoured ? ['colours'] : []);
}

function textScene(text: string): MeshScene {
  const coordinates: number[] = [];
  const partOfTriangle: number[] = [];
  const parts = partNames();
  let name = '';
  let cornerCount = 0;
  for (const { line, content } of textLines(text)) {
    const said = content.trim();
    const unreadable = (expected: string): Fault =>
      new Fault('mesh/unreadable-line', { line, text: shortened(said), expected });
    if (/^vertex\s/i.test(said)) {
      cornerCount++;
      readVertex(said.split(/\s+/), line, coordinates, unreadable);
      requireWithin('vertices', coordinates.length / 3);
    } else if (/^endloop$/i.test(said)) {
      if (cornerCount !== 3) throw unreadable('the end of a loop of three vertices');
      partOfTriangle.push(parts.numberOf(name));
    } else if (/^outer\s+loop$/i.test(said)) cornerCount = 0;
    else if (/^solid(\s|$)/i.test(said)) name = said.slice(6);
    else if (!/^($|facet|endfacet|endsolid)/i.test(said)) {
      throw unreadable('facet, outer loop, vertex, endloop, endfacet or endsolid');
    }
  }
  if (coordinates.length !== 9 * partOfTriangle.length) {
    const promised = Math.floor(coordinates.length / 9) + 1;
    throw new Fault('mesh/ends-early', { what: 'triangles', promised, byteCount: text.length });
  }
  if (partOfTriangle.length === 0) throw new Fault('mesh/no-triangles', { vertexCount: 0 });
  const triangles = Uint32Array.from({ length: coordinates.length / 3 }, (_, corner) => corner);
  const mesh = { positions: Float64Array.from(coordinates), triangles };
  return scene(splitIntoParts(mesh, partOfTriangle, parts.names), []);
}

/* oxlint-disable-next-line max-params -- one statement, where it stands, where it goes, what to say of it */
function readVertex(
  words: readonly string[],
  line: number,
  into: number[],
  unreadable: (expected: string) => Fault,
): void {
  if (words.length !== 4) throw unreadable('vertex and three coordinates');
  for (let k = 1; k <= 3; k++) {
    const value = readCoordinate(words[k]!, { line, vertex: Math.floor(into.length / 3) + 1 });
    if (value === null) throw unreadable('vertex and three coordinates');
    into.push(value);
  }
}
