import { Document, NodeIO, type Primitive, type vec3, type vec4 } from '@gltf-transform/core';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Fault } from '../../../core/fault/fault.ts';
import { readGlb } from '../../../core/io/read-glb.ts';
import { writeGlb } from '../../../core/io/write-glb.ts';
import { enclosedVolume } from '../../../core/mesh/triangle-areas.ts';
import type { TriangleMesh } from '../../../core/mesh/triangle-mesh.ts';
import { bodyFaultWords } from '../../../core/words/body-words.ts';
import { sphere } from '../../help/shapes.ts';

type Json = Record<string, unknown>;

/** A GLB file of any JSON and any bytes. */
const glbOf = (json: Json | string, binary: Uint8Array = new Uint8Array()): Uint8Array => {
  const text = new TextEncoder().encode(typeof json === 'string' ? json : JSON.stringify(json));
  const jsonLength = Math.ceil(text.length / 4) * 4;
  const bytes = new Uint8Array(28 + jsonLength + binary.length);
  const view = new DataView(bytes.buffer);
  [0x46546c67, 2, bytes.length, jsonLength, 0x4e4f534a].forEach((word, i) =>
    view.setUint32(4 * i, word, true),
  );
  bytes.fill(0x20, 20, 20 + jsonLength);
  bytes.set(text, 20);
  view.setUint32(20 + jsonLength, binary.length, true);
  view.setUint32(24 + jsonLength, 0x004e4942, true);
  bytes.set(binary, 28 + jsonLength);
  return bytes;
};

const partsOf = (bytes: Uint8Array): { json: Json; binary: Uint8Array } => {
  const length = new DataView(bytes.buffer).getUint32(12, true);
  const json = JSON.parse(new TextDecoder().decode(bytes.subarray(20, 20 + length))) as Json;
  return { json, binary: bytes.slice(28 + length) };
};

const faultOf = async (bytes: Uint8Array): Promise<Fault> => {
  try {
    await readGlb(bytes);
  } catch (error) {
    if (error instanceof Fault) return error;
    throw error;
  }
  throw new Error('no fault was raised');
};

const ball = sphere(0.5, 0.3);
const sound = partsOf(writeGlb(ball));
const changed = (change: Json): Uint8Array => glbOf({ ...sound.json, ...change }, sound.binary);

/** A document with the ball on one node, made by another writer. */
const byOther = async (
  shape: (primitive: Primitive, document: Document) => void,
  place: { translation?: vec3; rotation?: vec4; scale?: vec3 } = {},
): Promise<Uint8Array> => {
  const document = new Document();
  const buffer = document.createBuffer();
  const primitive = document.createPrimitive();
  const positions = document.createAccessor().setType('VEC3').setArray(Float32Array.from(ball.positions));
  primitive.setAttribute('POSITION', positions.setBuffer(buffer));
  shape(primitive, document);
  for (const accessor of document.getRoot().listAccessors()) accessor.setBuffer(buffer);
  const node = document.createNode().setMesh(document.createMesh().addPrimitive(primitive));
  if (place.translation) node.setTranslation(place.translation);
  if (place.rotation) node.setRotation(place.rotation);
  if (place.scale) node.setScale(place.scale);
  document.createScene().addChild(document.createNode().setTranslation([0, 0, 1]).addChild(node));
  return new NodeIO().writeBinary(document);
};
const withIndices = (triangles: Uint32Array) => (primitive: Primitive, document: Document) => {
  primitive.setIndices(document.createAccessor().setArray(Uint16Array.from(triangles)));
};
const centreOf = ({ positions }: TriangleMesh): number[] =>
  [0, 1, 2].map(
    (k) => (3 * positions.filter((_, i) => i % 3 === k).reduce((a, b) => a + b, 0)) / positions.length,
  );

describe('readGlb', () => {
  it('reads another writer: nested nodes, turned, scaled, moved; faces stay outward', async () => {
    const turn: vec4 = [0, 0, Math.SQRT1_2, Math.SQRT1_2];
    const mesh = await readGlb(
      await byOther(withIndices(ball.triangles), {
        translation: [1, 2, 3],
        rotation: turn,
        scale: [2, 1, 1],
      }),
    );
    // 4/3 pi a b c of the inscribed mesh: twice the ball's.
    expect(enclosedVolume(mesh)).toBeCloseTo(2 * enclosedVolume(ball), 6);
    centreOf(mesh).forEach((value, k) => expect(value).toBeCloseTo([1, 2, 4][k]!, 6));
    // A quarter turn about z takes the doubled x axis to y.
    const ys = mesh.positions.filter((_, i) => i % 3 === 1);
    expect(Math.max(...ys)).toBeCloseTo(3, 6);
  });

  it('keeps faces outward under a mirroring node', async () => {
    const mesh = await readGlb(await byOther(withIndices(ball.triangles), { scale: [-1, 1, 1] }));
    expect(enclosedVolume(mesh)).toBeCloseTo(enclosedVolume(ball), 6);
  });

  it('joins the seams of triangles without indices', async () => {
    const bytes = await byOther((primitive, document) => {
      const corners = [...ball.triangles].flatMap((v) =>
        Array.from(ball.positions.subarray(3 * v, 3 * v + 3)),
      );
      primitive.setAttribute(
        'POSITION',
        document.createAccessor().setType('VEC3').setArray(Float32Array.from(corners)),
      );
    });
    expect((await readGlb(bytes)).positions.length).toBe(ball.positions.length);
  });

  it('takes strips and fans: an octahedron as a fan above and a strip of its lower half', async () => {
    const octahedron = [1, 0, 0, 0, 0, 1, -1, 0, 0, 0, 0, -1, 0, 1, 0, 0, -1, 0];
    const document = new Document();
    const buffer = document.createBuffer();
    const positions = document
      .createAccessor()
      .setType('VEC3')
      .setArray(Float32Array.from(octahedron))
      .setBuffer(buffer);
    const part = (indices: number[], mode: 4 | 5 | 6): Primitive =>
      document
        .createPrimitive()
        .setAttribute('POSITION', positions)
        .setIndices(document.createAccessor().setArray(Uint16Array.from(indices)).setBuffer(buffer))
        .setMode(mode);
    const mesh = document.createMesh();
    // Above: round from the top. Below: a strip 0 1 5 2 has faces (0 1 5), (5 1 2): turned every other time.
    mesh.addPrimitive(part([4, 0, 3, 2, 1, 0], 6));
    mesh.addPrimitive(part([1, 0, 5, 3], 5)).addPrimitive(part([3, 2, 5, 1], 5));
    document.createScene().addChild(document.createNode().setMesh(mesh));
    const read = await readGlb(await new NodeIO().writeBinary(document));
    expect(read.triangles).toHaveLength(3 * 8);
    // Octahedron of half axes 1: 4/3.
    expect(Math.abs(enclosedVolume(read))).toBeCloseTo(4 / 3, 6);
  });

  const accessors = sound.json['accessors'] as Json[];
  const views = sound.json['bufferViews'] as Json[];
  const position = accessors[0]!;
  const node = { mesh: 0 };
  it.each<[string, Uint8Array, string, RegExp]>([
    ['nothing', new Uint8Array(), 'mesh/not-glb', /0 bytes/],
    ['another kind of file', new Uint8Array(64).fill(65), 'mesh/not-glb', /glTF/],
    ['a cut file', writeGlb(ball).slice(0, 900), 'mesh/not-glb', /ends after 900/],
    ['JSON that is none', glbOf('{"asset":'), 'mesh/not-glb', /JSON/],
    [
      'compression',
      changed({ extensionsRequired: ['KHR_draco_mesh_compression'] }),
      'mesh/glb-feature',
      /draco/,
    ],
    [
      'data elsewhere',
      changed({ buffers: [{ uri: 'body.bin', byteLength: 4 }] }),
      'mesh/glb-feature',
      /body\.bin/,
    ],
    [
      'sparse data without places',
      changed({ accessors: [{ ...position, sparse: { count: 1 } }, accessors[1]] }),
      'mesh/glb-broken',
      /sparse/,
    ],
    [
      'billions of numbers',
      changed({ accessors: [{ ...position, count: 4e9 }, accessors[1]] }),
      'mesh/too-large',
      /4000000000/,
    ],
    [
      'more numbers than there are',
      changed({ accessors: [{ ...position, count: 1e5 }, accessors[1]] }),
      'mesh/glb-broken',
      /accessors\[0\]/,
    ],
    [
      'a view past the end',
      changed({ bufferViews: [{ ...views[0], byteOffset: 1e6 }, views[1]] }),
      'mesh/glb-broken',
      /bufferViews\[0\]/,
    ],
    [
      'a scene in itself',
      changed({ nodes: [{ children: [1] }, { children: [0] }] }),
      'mesh/glb-broken',
      /nodes\[0\]/,
    ],
    [
      'a node on two',
      changed({ nodes: [{ children: [2] }, { children: [2] }, node] }),
      'mesh/glb-broken',
      /nodes\[2\]/,
    ],
    ['an unknown mesh', changed({ nodes: [{ mesh: 7 }] }), 'mesh/glb-broken', /nodes\[0\]\.mesh/],
    [
      'a place that is none',
      changed({ nodes: [{ mesh: 0, scale: [1, null, 1] }] }),
      'mesh/glb-broken',
      /scale/,
    ],
    ['no surface', changed({ nodes: [{}] }), 'mesh/no-triangles', /no surface/],
  ])('refuses %s in plain words', async (_, bytes, code, says) => {
    const fault = await faultOf(bytes);
    expect(fault.code).toBe(code);
    const said = bodyFaultWords[fault.code as 'mesh/open'](fault.facts as never);
    expect(said.what).toMatch(says);
    expect(said.remedy.length).toBeGreaterThan(20);
  });

  it('refuses NaN and indices beyond the vertices with their number', async () => {
    const odd = { ...ball, positions: ball.positions.map((value, i) => (i === 10 ? NaN : value)) };
    expect((await faultOf(writeGlb(odd))).facts).toEqual({ vertex: 4, line: null, value: 'NaN' });
    const beyond = { ...ball, triangles: ball.triangles.map((v, i) => (i === 5 ? 999 : v)) };
    expect((await faultOf(writeGlb(beyond))).facts).toMatchObject({ triangle: 2, value: '1000' });
  });

  it('never falls over and never lets a bad number or index through (300 mutated files, seed 6)', async () => {
    const whole = writeGlb(ball);
    const jsonEnd = whole.length - sound.binary.length;
    const change = fc.record({
      // Mostly in the JSON, where it hurts.
      at: fc.oneof(
        { weight: 3, arbitrary: fc.nat(jsonEnd - 1) },
        { weight: 1, arbitrary: fc.nat(whole.length - 1) },
      ),
      // Digits and brackets change meaning and stay JSON; any byte does the rest.
      byte: fc.oneof(
        fc.constantFrom(...'0123456789-.,[]{}":ne '.split('').map((c) => c.charCodeAt(0))),
        fc.nat(255),
      ),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(change, { minLength: 1, maxLength: 4 }), async (changes) => {
        const bytes = whole.slice();
        for (const { at, byte } of changes) bytes[at] = byte;
        try {
          const { positions, triangles } = await readGlb(bytes);
          expect(positions.every(Number.isFinite)).toBe(true);
          expect(triangles.every((v) => v < positions.length / 3)).toBe(true);
        } catch (error) {
          if (!(error instanceof Fault)) throw error;
        }
      }),
      { seed: 6, numRuns: 300 },
    );
  });
});
