import { guessImport } from '../../core/body/guess-import.ts';
import { importBody } from '../../core/body/import-body.ts';
import { Fault } from '../../core/fault/fault.ts';
import { readMeshScene } from '../../core/io/read-mesh-scene.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import { boxSkin, trianglesOf } from './box-person.ts';
import { gltfSample } from './gltf-sample.ts';
import { glbFile, gltfFile, objFile, plyFile, stlFile } from './mesh-files.ts';
import { seededRandom } from './shapes.ts';

/** A sound mesh file. */
export interface MeshFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Small sound files of all four formats, to be damaged. */
export function soundMeshFiles(): MeshFile[] {
  const skin = boxSkin(
    [
      [
        [-16, 80, -8],
        [16, 144, 8],
      ],
    ],
    16,
  );
  const mesh = { positions: skin.positions, triangles: trianglesOf(skin) };
  const strips = [skin.quads[0]!.concat(-1, ...skin.quads[1]!)];
  const gltf = (['plain', 'interleaved', 'sparse', 'skin', 'shape key', 'node transforms'] as const).flatMap(
    (feature): MeshFile[] => {
      const { json, binary } = gltfSample(skin, feature);
      const file = glbFile({ ...json, buffers: [{ byteLength: binary.length }] }, binary);
      return [
        { name: `${feature}.glb`, bytes: file },
        { name: `${feature}.gltf`, bytes: gltfFile(json, binary) },
      ];
    },
  );
  const obj = objFile(skin.positions, skin.quads);
  return [
    { name: 'quads.obj', bytes: obj },
    {
      name: 'triangles.obj',
      bytes: objFile(
        skin.positions,
        mesh.triangles.flatMap((_, i) => (i % 3 === 0 ? [mesh.triangles.slice(i, i + 3)] : [])),
      ),
    },
    { name: 'text.ply', bytes: plyFile(mesh, 'ascii', strips) },
    { name: 'little.ply', bytes: plyFile(mesh, 'binary_little_endian', strips) },
    { name: 'big.ply', bytes: plyFile(mesh, 'binary_big_endian', strips) },
    { name: 'text.stl', bytes: stlFile(mesh, 'text') },
    { name: 'binary.stl', bytes: stlFile(mesh, 'binary') },
    ...gltf,
  ];
}

/** What damage likes to be made of. */
const NASTY = [
  'nan',
  'inf',
  '-1',
  '7',
  '-0.5',
  '1e6',
  '0',
  '1e999',
  '4294967295',
  '4294967296',
  '999999999',
  '1,5',
  '""',
  '[',
  '{}',
  'null',
  '\n',
  ' ',
  '#',
  '\\\n',
  '\u0000',
];

/** A file with one or two kinds of damage; the same seed does the same. */
export function damaged(bytes: Uint8Array, seed: number): Uint8Array {
  const random = seededRandom(seed);
  const below = (end: number): number => Math.floor(random() * end);
  const utf8 = new TextEncoder();
  let result = bytes;
  const spliced = (at: number, gone: number, added: Uint8Array): Uint8Array => {
    const out = new Uint8Array(at + added.length + Math.max(0, result.length - at - gone));
    out.set(result.subarray(0, at));
    out.set(added, at);
    out.set(result.subarray(at + gone), at + added.length);
    return out;
  };
  for (let times = 1 + below(2); times > 0; times--) {
    // Half of it near the beginning, where headers and counts are.
    const at = below(random() < 0.5 ? Math.min(result.length, 400) : result.length);
    switch (below(7)) {
      case 0:
        result = spliced(at, 1, Uint8Array.of(below(256)));
        break;
      case 1:
        result = spliced(at, 0, utf8.encode(NASTY[below(NASTY.length)]));
        break;
      case 2:
        result = withNumber(result, at, NASTY[below(NASTY.length)]!, spliced);
        break;
      case 3:
        result = spliced(at, 1 + below(40), new Uint8Array());
        break;
      case 4:
        result = spliced(at, 0, result.slice(at, at + 1 + below(200)));
        break;
      case 5:
        result = result.slice(0, at);
        break;
      default:
        result = spliced(
          at,
          4,
          Uint8Array.from([0xff, 0xff, [0xff, 0x7f][below(2)]!, [0xff, 0x7f, 0][below(3)]!]),
        );
    }
  }
  return result;
}

const isDigit = (byte: number | undefined): boolean => byte !== undefined && byte >= 48 && byte <= 57;

/** Replaces the next number written in digits. */
/* oxlint-disable-next-line max-params -- one kind of damage */
function withNumber(
  bytes: Uint8Array,
  from: number,
  number: string,
  spliced: (at: number, gone: number, added: Uint8Array) => Uint8Array,
): Uint8Array {
  let at = from;
  while (at < bytes.length && !isDigit(bytes[at])) at++;
  let end = at;
  while (isDigit(bytes[end])) end++;
  return spliced(at, end - at, new TextEncoder().encode(number));
}

/** How a damaged file fared. */
export type Outcome = 'read' | 'refused' | 'imported' | 'not a body';

/** So many steps of progress are far more than a small file can need. */
const MOST_STEPS = 2000;

/**
 * Reads a file, and makes a body's mesh of it if it can be read.
 *
 * @throws whatever is thrown that is no Fault; and an error where a coordinate is not finite, an index is out of range,
 *   or the work does not end in steps that suit the size.
 */
export async function outcomeOf({ name, bytes }: MeshFile): Promise<Outcome> {
  let scene;
  try {
    scene = await readMeshScene(name, bytes);
  } catch (error) {
    if (error instanceof Fault) return 'refused';
    throw error;
  }
  for (const { mesh } of scene.parts) requireSound(mesh, 40 * bytes.length + 1000);
  try {
    const guess = inSteps(guessImport(scene));
    for (const value of Object.values(guess.choices))
      if (value === undefined) throw new Error('a choice is missing');
    const { mesh, report } = inSteps(importBody(scene, { ...guess.choices, refineEdgeMm: 100 }));
    requireSound(mesh, 1_100_000);
    for (const number of [...report.placing.turn, ...report.placing.shift, report.placing.scale]) {
      if (!Number.isFinite(number)) throw new Error('the placing is no number');
    }
    return 'imported';
  } catch (error) {
    if (error instanceof Fault) return 'not a body';
    throw error;
  }
}

function inSteps<Result>(work: Generator<unknown, Result>): Result {
  for (let steps = 0; steps < MOST_STEPS; steps++) {
    const next = work.next();
    if (next.done) return next.value;
  }
  throw new Error(`not done after ${MOST_STEPS} steps`);
}

function requireSound({ positions, triangles }: TriangleMesh, most: number): void {
  if (positions.length === 0 || triangles.length === 0) throw new Error('an empty mesh was let through');
  if (triangles.length / 3 > most) throw new Error(`${triangles.length / 3} triangles of so small a file`);
  if (!positions.every(Number.isFinite)) throw new Error('a coordinate that is no number was let through');
  if (!triangles.every((v) => v < positions.length / 3))
    throw new Error('an index out of range was let through');
}
