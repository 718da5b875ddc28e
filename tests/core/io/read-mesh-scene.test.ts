/**
 * Every feature of the four mesh formats on one invented person of boxes, whose volume is the sum of its boxes; the files
 * are made by the tests' own writers.
 */
import { validateBytes } from 'gltf-validator';
import { describe, expect, it } from 'vitest';
import { Fault } from '../../../core/fault/fault.ts';
import { readMeshScene } from '../../../core/io/read-mesh-scene.ts';
import { writeGlb } from '../../../core/io/write-glb.ts';
import { mergeMeshes } from '../../../core/mesh/merge-meshes.ts';
import type { MeshScene } from '../../../core/mesh/mesh-scene.ts';
import { enclosedVolume } from '../../../core/mesh/triangle-areas.ts';
import { extentOf } from '../../../core/mesh/extent.ts';
import { sayFault } from '../../../core/words/say.ts';
import { boxPerson, boxSkin, PERSON_BOXES, PERSON_VOLUME_CM3, trianglesOf } from '../../help/box-person.ts';
import { gltfSample, type GltfFeature } from '../../help/gltf-sample.ts';
import { glbFile, gltfFile, objFile, plyFile, stlFile } from '../../help/mesh-files.ts';

const person = boxPerson(2);
const triangles = trianglesOf(person);
const mesh = { positions: person.positions, triangles };
/** The trunk alone, for what comes in many forms. */
const TRUNK = [
  [-16, 80, -10],
  [16, 144, 10],
] as const;
const trunk = boxSkin([TRUNK], 4);
const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

const whole = ({ parts }: MeshScene) => mergeMeshes(parts.map((part) => part.mesh)).mesh;

const objText = textOf(objFile(person.positions, person.quads));
const vertexLines = objText.split('\n').filter((line) => line.startsWith('v '));
const faceLines = objText.split('\n').filter((line) => line.startsWith('f '));
const count = vertexLines.length;
/** Two squares that share two corners in one face of six corners: a longer one with a corner on its side. */
const lShaped = 'v 0 0 0\nv 2 0 0\nv 2 1 0\nv 1 1 0\nv 1 2 0\nv 0 2 0\nf 1 2 3 4 5 6\n';

type Sample = readonly [string, string, () => Uint8Array, number];
const objSamples: readonly Sample[] = [
  ['quads', 'a.obj', () => utf8(objText), triangles.length / 3],
  ['triangles', 'a.obj', () => objFile(person.positions, rowsOf(triangles)), triangles.length / 3],
  [
    'indices counted from the end',
    'a.obj',
    () =>
      utf8(
        [
          ...vertexLines,
          ...faceLines.map((line) => line.replaceAll(/\d+/g, (v) => String(Number(v) - count - 1))),
        ].join('\n'),
      ),
    triangles.length / 3,
  ],
  [
    'separate streams of vt and vn',
    'a.obj',
    () =>
      utf8(
        [
          ...vertexLines,
          'vt 0 0',
          'vt 1 1',
          'vn 0 0 1',
          ...faceLines.map((line) => line.replaceAll(/(\d+)/g, '$1/2/1')),
        ].join('\n'),
      ),
    triangles.length / 3,
  ],
  [
    'v and vn in turns, colours behind the coordinates, CR LF',
    'a.obj',
    () =>
      utf8(
        [
          ...vertexLines.flatMap((line) => [`${line} 0.5 0.4 0.3`, 'vn 0 0 1']),
          ...faceLines.map((line) => line.replaceAll(/(\d+)/g, '$1//$1')),
        ].join('\r\n'),
      ),
    triangles.length / 3,
  ],
];

function rowsOf(list: readonly number[]): number[][] {
  return Array.from({ length: list.length / 3 }, (_, i) => list.slice(3 * i, 3 * i + 3));
}

const plySamples: readonly Sample[] = (
  ['ascii', 'binary_little_endian', 'binary_big_endian'] as const
).flatMap((coding): Sample[] => [
  [`PLY ${coding}`, 'a.ply', () => plyFile(mesh, coding), triangles.length / 3],
  [
    `PLY ${coding}, as strips begun anew at -1`,
    'a.ply',
    () =>
      plyFile({ positions: person.positions, triangles: [] }, coding, [
        person.quads.flatMap(([a, b, c, d]) => [a!, b!, d!, c!, -1]),
      ]),
    triangles.length / 3,
  ],
]);

const stlSamples: readonly Sample[] = (['text', 'binary', 'binary solid'] as const).map((coding) => [
  `STL ${coding}`,
  'a.stl',
  () => stlFile(mesh, coding),
  triangles.length / 3,
]);

const gltfFeatures: readonly GltfFeature[] = [
  'plain',
  'node transforms',
  'strips',
  'fans',
  'non-indexed',
  'interleaved',
  'sparse',
  'quantised',
  'skin',
  'shape key',
];
const gltfSamples: readonly Sample[] = gltfFeatures.flatMap((feature): Sample[] => {
  const { json, binary } = gltfSample(trunk, feature);
  return [
    [
      `GLB, ${feature}`,
      'a.glb',
      () => glbFile({ ...json, buffers: [{ byteLength: binary.length }] }, binary),
      trianglesOf(trunk).length / 3,
    ],
    [`glTF JSON, ${feature}`, 'a.gltf', () => gltfFile(json, binary), trianglesOf(trunk).length / 3],
  ];
});

describe('what a mesh file holds comes out as it was put in', () => {
  it.each([...objSamples, ...plySamples, ...stlSamples, ...gltfSamples])(
    '%s',
    async (_, name, bytes, triangleCount) => {
      const scene = await readMeshScene(name, bytes());
      const read = whole(scene);
      expect(read.triangles.length / 3).toBe(triangleCount);
      const boxes = scene.format === 'gltf' ? [TRUNK] : PERSON_BOXES;
      const volume = scene.format === 'gltf' ? 32 * 64 * 20 : PERSON_VOLUME_CM3;
      // cm^3, or m^3 of a glTF; single precision of a position is 1e-5 of a cm, of a quantised one 1e-3.
      const unit = scene.unit === 'm' ? 0.01 : 1;
      expect(Math.abs(enclosedVolume(read) / unit ** 3 / volume - 1)).toBeLessThan(2e-4);
      const box = extentOf(read);
      [0, 1, 2].forEach((k) => {
        expect(box.low[k]! / unit).toBeCloseTo(Math.min(...boxes.map(([low]) => low[k]!)), 1);
        expect(box.high[k]! / unit).toBeCloseTo(Math.max(...boxes.map(([, high]) => high[k]!)), 1);
      });
    },
  );

  it('one mesh on two nodes comes out twice, each in its place and under its name', async () => {
    const { json, binary } = gltfSample(trunk, 'instanced');
    const scene = await readMeshScene('a.gltf', gltfFile(json, binary));
    expect(scene.parts.map(({ name }) => name)).toEqual(['left', 'right']);
    const [left, right] = scene.parts.map((part) => extentOf(part.mesh));
    expect(right!.low[0] - left!.low[0]).toBeCloseTo(3, 5);
    scene.parts.forEach((part) => expect(enclosedVolume(part.mesh) * 1e6).toBeCloseTo(32 * 64 * 20, 0));
  });

  it('a hollow face of six corners keeps its area of 3', async () => {
    const read = whole(await readMeshScene('l.obj', utf8(lShaped)));
    expect(read.triangles.length / 3).toBe(4);
  });

  it('objects and groups are parts; those of one name are one', async () => {
    const text = `${vertexLines.join('\n')}\no body\n${faceLines.slice(0, 10).join('\n')}\ng eye\n${faceLines.slice(10, 20).join('\n')}\no body\n${faceLines.slice(20).join('\n')}`;
    const scene = await readMeshScene('a.obj', utf8(text));
    expect(scene.parts.map(({ name, mesh: { triangles: own } }) => [name, own.length / 3])).toEqual([
      ['body', triangles.length / 3 - 20],
      ['body / eye', 20],
    ]);
  });

  it('a text STL of two solids has two parts', async () => {
    const one = textOf(stlFile(mesh, 'text'));
    const scene = await readMeshScene('a.stl', utf8(`${one}${one.replaceAll('made up', 'other')}`));
    expect(scene.parts.map(({ name }) => name)).toEqual(['made up', 'other']);
  });

  it('states the unit and axes where the format does: glTF is in metres, y up, facing z', async () => {
    const { json, binary } = gltfSample(trunk, 'plain');
    expect(await readMeshScene('a.gltf', gltfFile(json, binary))).toMatchObject({
      unit: 'm',
      up: '+y',
      front: '+z',
    });
    expect(await readMeshScene('a.stl', stlFile(mesh, 'binary'))).toMatchObject({ unit: null, up: null });
  });

  it('reads what it writes as millimetres, and the Khronos validator finds nothing wrong with it', async () => {
    const read = whole(await readMeshScene('a.stl', stlFile(mesh, 'binary')));
    const inMetres = { ...read, positions: read.positions.map((value) => value / 100) };
    const written = writeGlb(inMetres);
    const report = await validateBytes(written);
    expect(report.issues.numErrors + report.issues.numWarnings).toBe(0);
    const again = await readMeshScene('a.glb', written);
    expect(again.unit).toBe('mm');
    expect(Math.abs(enclosedVolume(whole(again)) / 1000 / PERSON_VOLUME_CM3 - 1)).toBeLessThan(1e-6);
  });
});

describe('what the samples are made of is glTF', () => {
  it.each(gltfFeatures)('%s: no error of the Khronos validator', async (feature) => {
    const { json, binary } = gltfSample(trunk, feature);
    const report = await validateBytes(
      glbFile({ ...json, buffers: [{ byteLength: binary.length }] }, binary),
    );
    expect(report.issues.messages.filter(({ severity }) => severity === 0)).toEqual([]);
  });
});

const { json: plain, binary: plainBinary } = gltfSample(trunk, 'plain');
const changed = (change: object): Uint8Array => gltfFile({ ...plain, ...change }, plainBinary);
const plyHead = (lines: string): Uint8Array => utf8(`ply\nformat ascii 1.0\n${lines}\nend_header\n`);
const ball = plyHead(
  'element vertex 3\nproperty float x\nproperty float y\nproperty float z\nelement face 1\nproperty list uchar int vertex_indices',
);
const plyBody = (body: string): Uint8Array => utf8(textOf(ball) + body);
const stlHead = (claimed: number): Uint8Array => {
  const bytes = new Uint8Array(184);
  new DataView(bytes.buffer).setUint32(80, claimed, true);
  return bytes;
};

describe('bad files are refused with place, value and remedy', () => {
  it.each<[string, string, () => Uint8Array, string, RegExp]>([
    ['an unknown kind', 'a.fbx', () => utf8('x'), 'file/unknown-kind', /\.fbx/],
    ['an empty OBJ', 'a.obj', () => utf8(''), 'mesh/no-triangles', /no surface/],
    [
      'faces of too many corners',
      'a.obj',
      () => utf8(`v 0 0 0\nv 1 0 0\nv 0 1 0\n${`f ${'1 2 3 '.repeat(300)}\n`.repeat(300)}`),
      'mesh/too-large',
      /corners of large faces/,
    ],
    ['an empty PLY', 'a.ply', () => utf8(''), 'mesh/not-its-kind', /ply/],
    ['an empty STL', 'a.stl', () => utf8(''), 'mesh/not-its-kind', /0 bytes/],
    ['an empty glTF', 'a.gltf', () => utf8(''), 'mesh/not-glb', /0 bytes/],
    [
      'a decimal comma in a PLY',
      'a.ply',
      () => plyBody('0 0 0\n1,5 0 0\n0 1 0\n3 0 1 2\n'),
      'mesh/decimal-comma',
      /Line 11.*1,5/,
    ],
    [
      'a decimal comma in an STL',
      'a.stl',
      () => utf8('solid a\nfacet normal 0 0 1\nouter loop\nvertex 1,5 0 0'),
      'mesh/decimal-comma',
      /Line 4/,
    ],
    [
      'NaN in a PLY',
      'a.ply',
      () => plyBody('0 0 0\n1 nan 0\n0 1 0\n3 0 1 2\n'),
      'mesh/not-finite',
      /Vertex 2 .line 11.*nan/,
    ],
    [
      'a number beyond all bounds',
      'a.ply',
      () => plyBody('0 0 0\n1 1e30 0\n0 1 0\n3 0 1 2\n'),
      'mesh/not-finite',
      /1e30/,
    ],
    [
      'a corner that is not there',
      'a.ply',
      () => plyBody('0 0 0\n1 0 0\n0 1 0\n3 0 1 3\n'),
      'mesh/bad-index',
      /Line 13 names vertex 3/,
    ],
    [
      'a word for a number',
      'a.ply',
      () => plyBody('0 0 0\n1 zero 0\n0 1 0\n3 0 1 2\n'),
      'mesh/unreadable-line',
      /Line 11.*zero/,
    ],
    [
      'a PLY cut short',
      'a.ply',
      () => plyFile(mesh, 'binary_big_endian').slice(0, -9),
      'mesh/ends-early',
      /promises/,
    ],
    [
      'vertices without z',
      'a.ply',
      () => plyHead('element vertex 1\nproperty float x\nproperty float y'),
      'mesh/not-its-kind',
      /no z/,
    ],
    [
      'a PLY of gigabytes',
      'a.ply',
      () => plyHead('element vertex 2000000\nproperty float x\nproperty float y\nproperty float z'),
      'mesh/ends-early',
      /2000000/,
    ],
    [
      'a table of gigabytes',
      'a.ply',
      () => plyHead('element thing 4000000000\nproperty float x'),
      'mesh/ends-early',
      /4000000000/,
    ],
    ['an STL of gigabytes', 'a.stl', () => stlHead(4e9), 'mesh/too-large', /4000000000/],
    ['an STL cut short', 'a.stl', () => stlHead(3), 'mesh/ends-early', /3 triangles/],
    [
      'an STL text cut short',
      'a.stl',
      () => stlFile(mesh, 'text').slice(0, 5000),
      'mesh/unreadable-line',
      /./,
    ],
    [
      'another file',
      'a.gltf',
      () => changed({ buffers: undefined }).slice(0, 40),
      'mesh/not-its-kind',
      /JSON/,
    ],
    [
      'data elsewhere',
      'a.gltf',
      () => utf8(JSON.stringify({ ...plain, buffers: [{ uri: 'body.bin', byteLength: 4 }] })),
      'mesh/glb-feature',
      /body\.bin/,
    ],
    [
      'data in itself',
      'a.gltf',
      () => utf8(JSON.stringify({ ...plain, buffers: [{ uri: 'a.gltf', byteLength: 4 }] })),
      'mesh/glb-feature',
      /a\.gltf/,
    ],
    [
      'data that is no base64',
      'a.gltf',
      () => utf8(JSON.stringify({ ...plain, buffers: [{ uri: 'data:;base64,*', byteLength: 4 }] })),
      'mesh/glb-broken',
      /base64/,
    ],
    [
      'an extension it needs',
      'a.gltf',
      () => changed({ extensionsRequired: ['EXT_meshopt_compression'] }),
      'mesh/glb-feature',
      /meshopt/,
    ],
    [
      'nodes in a ring',
      'a.gltf',
      () => changed({ nodes: [{ children: [1] }, { children: [0] }] }),
      'mesh/glb-broken',
      /nodes\[0\]/,
    ],
    [
      'thousands of copies',
      'a.gltf',
      () =>
        changed({
          nodes: Array.from({ length: 9000 }, () => ({ mesh: 0 })),
          scenes: [{ nodes: Array.from({ length: 9000 }, (_, i) => i) }],
        }),
      'mesh/too-large',
      /triangles/,
    ],
    [
      'more nodes than any body has',
      'a.gltf',
      () => changed({ nodes: Array.from({ length: 30_000 }, () => ({})) }),
      'mesh/too-large',
      /30000 nodes/,
    ],
    [
      'a weight that is none',
      'a.gltf',
      () => changed({ nodes: [{ mesh: 0, weights: [null] }] }),
      'mesh/glb-broken',
      /weights\[0\]/,
    ],
    [
      'lists nested without end',
      'a.gltf',
      () => utf8(`{"extensionsRequired":[${'['.repeat(5000)}${']'.repeat(5000)}]}`),
      'mesh/glb-feature',
      /a list/,
    ],
  ])('%s', async (...[, name, bytes, code, says]) => {
    let fault: unknown = null;
    try {
      await readMeshScene(name, bytes());
    } catch (error) {
      fault = error;
    }
    expect(fault).toBeInstanceOf(Fault);
    expect((fault as Fault).code).toBe(code);
    const said = sayFault(fault as Fault);
    expect(said.what).toMatch(says);
    expect(said.remedy.length).toBeGreaterThan(20);
  });
});
