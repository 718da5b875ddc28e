import { Fault } from '../fault/fault.ts';
import type { MeshScene, PassedOver } from '../mesh/mesh-scene.ts';
import { isUsableCoordinate } from './mesh-number.ts';
import { LARGE_FACE, requireWithin } from './mesh-limits.ts';
import { readPlyHeader, type PlyElement, type PlyHeader, type PlyProperty } from './ply-header.ts';
import { EndOfPly, leastBytes, plyValues, type PlyValues } from './ply-values.ts';
import { splitFace } from './split-face.ts';

/**
 * Reads a PLY file, text or binary of either byte order, in the file's own unit and axes.
 *
 * Faces of any number of corners (`vertex_indices` or `vertex_index`) and triangle strips (`tristrips`, begun anew at -1)
 * become triangles; further properties, lists and tables are passed over.
 *
 * @throws {Fault} `mesh/too-large`, `mesh/not-its-kind`, `mesh/ends-early`, `mesh/not-finite`, `mesh/decimal-comma`,
 *   `mesh/unreadable-line`, `mesh/bad-index`, `mesh/no-triangles`.
 * @see Turk, The PLY polygon file format (1994), from memory.
 */
export function readPly(bytes: Uint8Array): MeshScene {
  requireWithin('bytes', bytes.length);
  const header = readPlyHeader(bytes);
  const values = plyValues(bytes, header);
  const surface: Surface = { positions: [], faces: [], triangles: [] };
  for (const element of header.elements) readElement(element, header, values, surface, bytes.length);
  const vertexCount = surface.positions.length / 3;
  let largeCorners = 0;
  for (const { corners, line, isStrip } of surface.faces) {
    requireKnown(corners, { vertexCount, line, isStrip, triangle: surface.triangles.length / 3 + 1 });
    if (!isStrip && corners.length > LARGE_FACE) {
      requireWithin('corners of large faces', (largeCorners += corners.length));
    }
    if (isStrip) addStrip(corners, surface.triangles);
    else addFace(corners, surface);
    requireWithin('triangles', surface.triangles.length / 3);
  }
  if (surface.triangles.length === 0) throw new Fault('mesh/no-triangles', { vertexCount });
  return {
    format: 'ply',
    parts: [
      {
        name: 'part 1',
        mesh: {
          positions: Float64Array.from(surface.positions),
          triangles: Uint32Array.from(surface.triangles),
        },
      },
    ],
    unit: null,
    up: null,
    front: null,
    passedOver: passedOver(header.elements),
  };
}

interface Surface {
  readonly positions: number[];
  /** Kept until all vertices are known: a file may have its faces first. */
  readonly faces: { readonly corners: number[]; readonly line: number | null; readonly isStrip: boolean }[];
  readonly triangles: number[];
}

const FACE_LISTS = ['vertex_indices', 'vertex_index'];

/* oxlint-disable-next-line max-params -- one table of the file into the surface */
function readElement(
  element: PlyElement,
  { coding }: PlyHeader,
  values: PlyValues,
  surface: Surface,
  byteCount: number,
): void {
  const { name, count, properties } = element;
  if (properties.length === 0) return;
  const early = new Fault('mesh/ends-early', {
    what: `entries of "${name.slice(0, 40)}"`,
    promised: count,
    byteCount,
  });
  if (name === 'vertex') {
    requireWithin('vertices', count);
    requirePlaces(properties);
  }
  // In text the last number needs no blank behind it.
  if (count * leastBytes(element, coding) > values.left() + 1) throw early;
  try {
    for (let i = 0; i < count; i++) {
      if (name === 'vertex') readVertex(properties, values, surface);
      else if (name === 'face') readFace(properties, values, surface, false);
      else if (name === 'tristrips') readFace(properties, values, surface, true);
      else for (const property of properties) readList(property, values, () => {});
    }
  } catch (error) {
    throw error instanceof EndOfPly ? early : error;
  }
}

function requirePlaces(properties: readonly PlyProperty[]): void {
  for (const name of ['x', 'y', 'z']) {
    if (properties.some((property) => property.name === name && property.countType === null)) continue;
    throw new Fault('mesh/not-its-kind', { kind: 'PLY', problem: `its vertices have no ${name}` });
  }
}

function readVertex(properties: readonly PlyProperty[], values: PlyValues, { positions }: Surface): void {
  const place: Record<string, number> = {};
  const vertex = positions.length / 3 + 1;
  for (const property of properties) {
    readList(property, values, (value) => {
      if (!['x', 'y', 'z'].includes(property.name) || property.countType !== null) return;
      place[property.name] = value;
      if (isUsableCoordinate(value)) return;
      throw new Fault('mesh/not-finite', { vertex, line: values.line(), value: values.asWritten() });
    });
  }
  positions.push(place['x']!, place['y']!, place['z']!);
}

/* oxlint-disable-next-line max-params -- one entry into the surface */
function readFace(
  properties: readonly PlyProperty[],
  values: PlyValues,
  { faces }: Surface,
  isStrip: boolean,
): void {
  const corners: number[] = [];
  let line: number | null = null;
  for (const property of properties) {
    const isCorners = property.countType !== null && FACE_LISTS.includes(property.name);
    readList(property, values, (value) => {
      if (isCorners) corners.push(value);
      line = values.line();
    });
  }
  if (!isStrip) requireWithin('corners of one face', corners.length);
  faces.push({ corners, line, isStrip });
}

/** Every number of a property. */
function readList({ type, countType }: PlyProperty, values: PlyValues, take: (value: number) => void): void {
  const count = countType === null ? 1 : values.next(countType);
  if (count < 0) {
    throw new Fault('mesh/not-its-kind', {
      kind: 'PLY',
      problem: `a list in it has the length ${values.asWritten()}`,
    });
  }
  for (let i = 0; i < count; i++) take(values.next(type));
}

/** Corners must be vertices; -1 ends a strip. */
function requireKnown(
  corners: readonly number[],
  place: { vertexCount: number; line: number | null; isStrip: boolean; triangle: number },
): void {
  const { vertexCount, line, isStrip, triangle } = place;
  const odd = corners.find(
    (v) => !(Number.isInteger(v) && v >= 0 && v < vertexCount) && !(isStrip && v === -1),
  );
  if (odd === undefined) return;
  throw new Fault('mesh/bad-index', {
    line,
    triangle: line === null ? triangle : null,
    value: `${odd} (counted from 0)`,
    vertexCount,
  });
}

function addFace(corners: readonly number[], { positions, triangles }: Surface): void {
  const distinct = corners.filter((v, i) => v !== corners[(i + 1) % corners.length]);
  if (distinct.length >= 3) splitFace(distinct, positions, triangles);
}

/** Every other triangle of a strip runs the other way round. */
function addStrip(corners: readonly number[], triangles: number[]): void {
  let first = 0;
  corners.forEach((c, i) => {
    if (c === -1) first = i + 1;
    if (c === -1 || i < first + 2) return;
    const [a, b] = [corners[i - 2]!, corners[i - 1]!];
    if (a === b || b === c || c === a) return;
    if ((i - first) % 2 === 0) triangles.push(a, b, c);
    else triangles.push(b, a, c);
  });
}

function passedOver(elements: readonly PlyElement[]): PassedOver[] {
  const names = new Set(elements.flatMap(({ properties }) => properties.map(({ name }) => name)));
  const has = (...some: readonly string[]): boolean => some.some((name) => names.has(name));
  return [
    ...(has('red', 'diffuse_red', 'r') ? (['colours'] as const) : []),
    ...(has('nx') ? (['normals'] as const) : []),
    ...(has('s', 'u', 'texture_u', 'texcoord') ? (['textures'] as const) : []),
    ...(elements.some(({ name, count }) => name === 'edge' && count > 0)
      ? (['points or lines'] as const)
      : []),
  ];
}
