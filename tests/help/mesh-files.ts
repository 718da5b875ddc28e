/** Writers of mesh files for tests, each of the shape that a format's specification gives; none is the program's own. */

/** A flat mesh in whatever unit. */
export interface FileMesh {
  readonly positions: readonly number[];
  readonly triangles: readonly number[];
}

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

const rows = (list: readonly number[], width: number): (readonly number[])[] =>
  Array.from({ length: list.length / width }, (_, i) => list.slice(width * i, width * i + width));

/** OBJ text: vertices, then faces of any number of corners. */
export const objFile = (positions: readonly number[], faces: readonly (readonly number[])[]): Uint8Array =>
  utf8(
    [
      ...rows(positions, 3).map((row) => `v ${row.join(' ')}`),
      ...faces.map((face) => `f ${face.map((v) => v + 1).join(' ')}`),
      '',
    ].join('\n'),
  );

/** A PLY file; binary ones carry a colour, a list beside the corners and a table that nobody knows. */
export function plyFile(
  { positions, triangles }: FileMesh,
  coding: 'ascii' | 'binary_little_endian' | 'binary_big_endian',
  strips: readonly (readonly number[])[] = [],
): Uint8Array {
  const vertexRows = rows(positions, 3);
  const faceRows = rows(triangles, 3);
  const header = [
    'ply',
    `format ${coding} 1.0`,
    'comment made by a test',
    'obj_info nothing',
    'element marker 2',
    'property double weight',
    `element vertex ${vertexRows.length}`,
    'property uchar red',
    'property float x',
    'property float y',
    'property float z',
    `element face ${faceRows.length}`,
    'property list uchar float quality',
    'property list uchar int vertex_indices',
    `element tristrips ${strips.length}`,
    'property list int int vertex_indices',
    'end_header',
    '',
  ].join('\n');
  if (coding === 'ascii') {
    return utf8(
      header +
        [
          '0.5',
          '1.5',
          ...vertexRows.map((row) => `7 ${row.join(' ')}`),
          ...faceRows.map((row) => `2 0.1 0.2 3 ${row.join(' ')}`),
          ...strips.map((strip) => `${strip.length} ${strip.join(' ')}`),
          '',
        ].join('\n'),
    );
  }
  const isLittle = coding === 'binary_little_endian';
  const length =
    16 +
    13 * vertexRows.length +
    22 * faceRows.length +
    strips.reduce((sum, strip) => sum + 4 + 4 * strip.length, 0);
  const view = new DataView(new ArrayBuffer(length));
  let at = 0;
  const byte = (value: number): void => view.setUint8(at++, value);
  const float = (value: number): void => {
    view.setFloat32(at, value, isLittle);
    at += 4;
  };
  const int = (value: number): void => {
    view.setInt32(at, value, isLittle);
    at += 4;
  };
  for (const weight of [0.5, 1.5]) {
    view.setFloat64(at, weight, isLittle);
    at += 8;
  }
  for (const row of vertexRows) {
    byte(7);
    row.forEach(float);
  }
  for (const row of faceRows) {
    byte(2);
    float(0.1);
    float(0.2);
    byte(3);
    row.forEach(int);
  }
  for (const strip of strips) {
    int(strip.length);
    strip.forEach(int);
  }
  return joined([utf8(header), new Uint8Array(view.buffer)]);
}

/** An STL file; the binary one may begin with "solid", as some programs write it. */
export function stlFile(
  { positions, triangles }: FileMesh,
  coding: 'text' | 'binary' | 'binary solid',
): Uint8Array {
  const corners = triangles.map((v) => positions.slice(3 * v, 3 * v + 3));
  if (coding === 'text') {
    const facets = rows(
      corners.map((_, i) => i),
      3,
    ).map((three) =>
      [
        'facet normal 0 0 0',
        '  outer loop',
        ...three.map((i) => `    vertex ${corners[i]!.map((value) => value.toExponential(6)).join(' ')}`),
        '  endloop',
        'endfacet',
      ].join('\n'),
    );
    return utf8(['solid made up', ...facets, 'endsolid made up', ''].join('\n'));
  }
  const bytes = new Uint8Array(84 + (50 * triangles.length) / 3);
  if (coding === 'binary solid') bytes.set(utf8('solid says one thing and does another'));
  const view = new DataView(bytes.buffer);
  view.setUint32(80, triangles.length / 3, true);
  corners.forEach((corner, i) => {
    const at = 84 + 50 * Math.floor(i / 3) + 12 + 12 * (i % 3);
    corner.forEach((value, k) => view.setFloat32(at + 4 * k, value, true));
  });
  return bytes;
}

/** GLB of any JSON and binary chunk. */
export function glbFile(json: object, binary: Uint8Array): Uint8Array {
  const text = utf8(JSON.stringify(json));
  const jsonLength = Math.ceil(text.length / 4) * 4;
  const binaryLength = Math.ceil(binary.length / 4) * 4;
  const head = new DataView(new ArrayBuffer(20));
  [0x46546c67, 2, 28 + jsonLength + binaryLength, jsonLength, 0x4e4f534a].forEach((word, i) =>
    head.setUint32(4 * i, word, true),
  );
  const middle = new DataView(new ArrayBuffer(8));
  middle.setUint32(0, binaryLength, true);
  middle.setUint32(4, 0x004e4942, true);
  const chunk = new Uint8Array(jsonLength).fill(0x20);
  chunk.set(text);
  const data = new Uint8Array(binaryLength);
  data.set(binary);
  return joined([new Uint8Array(head.buffer), chunk, new Uint8Array(middle.buffer), data]);
}

/** glTF as JSON with its one buffer written out in it. */
export const gltfFile = (json: object, binary: Uint8Array): Uint8Array =>
  utf8(
    JSON.stringify({
      ...json,
      buffers: [
        {
          byteLength: binary.length,
          uri: `data:application/octet-stream;base64,${Buffer.from(binary).toString('base64')}`,
        },
      ],
    }),
  );

export function joined(parts: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}
