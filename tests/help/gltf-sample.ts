import { trianglesOf, type QuadMesh } from './box-person.ts';

/** One way in which a glTF file can hold the same surface. */
export type GltfFeature =
  | 'plain'
  | 'instanced'
  | 'node transforms'
  | 'strips'
  | 'fans'
  | 'non-indexed'
  | 'interleaved'
  | 'sparse'
  | 'quantised'
  | 'skin'
  | 'shape key';

type Json = Record<string, unknown>;

/** A binary chunk and the views and accessors on it, while they are being put together. */
interface Store {
  readonly views: Json[];
  readonly accessors: Json[];
  bytes: Uint8Array;
}

const FLOAT = 5126;
const UINT = 5125;

/**
 * A surface of quads in cm as glTF in metres, told in one of several ways that all come to the same surface.
 *
 * @see Khronos, glTF 2.0 specification (ISO/IEC 12113:2022).
 */
export function gltfSample(skin: QuadMesh, feature: GltfFeature): { json: Json; binary: Uint8Array } {
  const store: Store = { views: [], accessors: [], bytes: new Uint8Array() };
  const metres = skin.positions.map((value) => value / 100);
  const triangles = trianglesOf(skin);
  let nodes: Json[] = [{ mesh: 0, name: 'person' }];
  let primitive: Json = {};
  let more: Json = {};
  const positions = (values: readonly number[] = metres): number => addVec3(store, values);
  const indices = (values: readonly number[] = triangles): number => addScalars(store, values);
  switch (feature) {
    case 'plain':
      primitive = { attributes: { POSITION: positions() }, indices: indices() };
      break;
    case 'instanced':
      primitive = { attributes: { POSITION: positions() }, indices: indices() };
      nodes = [
        { mesh: 0, name: 'left' },
        { mesh: 0, name: 'right', translation: [3, 0, 0] },
      ];
      break;
    case 'node transforms':
      // Stored as z up, twice as large, 1 m off and mirrored; two nodes set it right again.
      primitive = {
        attributes: {
          POSITION: positions(rowsOf(metres).flatMap(([x, y, z]) => [-2 * x!, -2 * z!, 2 * y! - 1])),
        },
        indices: indices(triangles.map((_, i) => triangles[i % 3 === 0 ? i : i % 3 === 1 ? i + 1 : i - 1]!)),
      };
      nodes = [
        { children: [1], rotation: [-Math.SQRT1_2, 0, 0, Math.SQRT1_2], scale: [0.5, 0.5, 0.5] },
        { mesh: 0, matrix: [-1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 1, 1] },
      ];
      break;
    case 'strips':
      // All of them share one list of vertices.
      more = {
        meshes: [
          {
            primitives: stripsOf(skin).map((strip) => ({
              attributes: { POSITION: 0 },
              indices: 0,
              mode: 5,
              strip,
            })),
          },
        ],
      };
      positions();
      for (const one of (more['meshes'] as [{ primitives: Json[] }])[0].primitives) {
        one['indices'] = indices(one['strip'] as number[]);
        delete one['strip'];
      }
      break;
    case 'fans':
      positions();
      more = {
        meshes: [
          {
            primitives: [
              ...skin.quads.slice(0, 50).map((quad) => ({
                attributes: { POSITION: 0 },
                indices: indices(quad),
                mode: 6,
              })),
              { attributes: { POSITION: 0 }, indices: indices(triangles.slice(300)) },
            ],
          },
        ],
      };
      break;
    case 'non-indexed':
      primitive = {
        attributes: { POSITION: positions(triangles.flatMap((v) => metres.slice(3 * v, 3 * v + 3))) },
      };
      break;
    case 'interleaved': {
      const rows = rowsOf(metres).flatMap((row) => [...row, 0, 0, 1]);
      const view = addView(store, new Uint8Array(Float32Array.from(rows).buffer), 24);
      for (const byteOffset of [0, 12]) {
        store.accessors.push({
          bufferView: view,
          byteOffset,
          componentType: FLOAT,
          count: metres.length / 3,
          type: 'VEC3',
          ...(byteOffset === 0 ? extentOf(metres) : {}),
        });
      }
      primitive = { attributes: { POSITION: 0, NORMAL: 1 }, indices: indices() };
      break;
    }
    case 'sparse': {
      // Every tenth vertex lies elsewhere until the sparse entries set it right.
      const moved = metres.map((value, i) => (Math.floor(i / 3) % 10 === 0 ? 0 : value));
      const at = positions(moved);
      const listed = rowsOf(metres).flatMap((_, v) => (v % 10 === 0 ? [v] : []));
      const indexView = addView(store, new Uint8Array(Uint32Array.from(listed).buffer));
      const values = listed.flatMap((v) => metres.slice(3 * v, 3 * v + 3));
      const valueView = addView(store, new Uint8Array(Float32Array.from(values).buffer));
      Object.assign(store.accessors[at]!, extentOf(metres), {
        sparse: {
          count: listed.length,
          indices: { bufferView: indexView, componentType: UINT },
          values: { bufferView: valueView },
        },
      });
      primitive = { attributes: { POSITION: at }, indices: indices() };
      break;
    }
    case 'quantised': {
      // 16 bit over 2 m about the middle, normalised; four shorts a vertex.
      const shorts = rowsOf(metres).flatMap(([x, y, z]) => [
        Math.round(32767 * x!),
        Math.round(32767 * (y! - 0.86)),
        Math.round(32767 * z!),
        0,
      ]);
      const view = addView(store, new Uint8Array(Int16Array.from(shorts).buffer), 8);
      const kept = shorts.filter((_, i) => i % 4 !== 3);
      store.accessors.push({
        bufferView: view,
        componentType: 5122,
        normalized: true,
        count: metres.length / 3,
        type: 'VEC3',
        ...extentOf(kept),
      });
      primitive = { attributes: { POSITION: 0 }, indices: indices() };
      nodes = [{ mesh: 0, translation: [0, 0.86, 0] }];
      more = { extensionsUsed: ['KHR_mesh_quantization'], extensionsRequired: ['KHR_mesh_quantization'] };
      break;
    }
    case 'skin': {
      // Bound half a metre too high; the joints, 1 m apart, stand where they bring it back.
      const high = rowsOf(metres).flatMap(([x, y, z]) => [x!, y! + 0.5, z!]);
      const at = positions(high);
      const joints = addView(store, Uint8Array.from(rowsOf(metres).flatMap(() => [0, 1, 0, 0])));
      store.accessors.push({
        bufferView: joints,
        componentType: 5121,
        count: metres.length / 3,
        type: 'VEC4',
      });
      const weights = rowsOf(metres).flatMap(() => [0.25, 0.75, 0, 0]);
      const weightView = addView(store, new Uint8Array(Float32Array.from(weights).buffer));
      store.accessors.push({
        bufferView: weightView,
        componentType: FLOAT,
        count: metres.length / 3,
        type: 'VEC4',
      });
      const inverse = [0, -1].flatMap((y) => [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, y, 0, 1]);
      const inverseView = addView(store, new Uint8Array(Float32Array.from(inverse).buffer));
      store.accessors.push({ bufferView: inverseView, componentType: FLOAT, count: 2, type: 'MAT4' });
      primitive = { attributes: { POSITION: at, JOINTS_0: 1, WEIGHTS_0: 2 }, indices: indices() };
      nodes = [
        { children: [1], translation: [0, -0.5, 0] },
        { translation: [0, 1, 0] },
        // Where the mesh's own node stands does not count once a skin holds it.
        { mesh: 0, skin: 0, translation: [7, 7, 7] },
      ];
      more = { skins: [{ joints: [0, 1], inverseBindMatrices: 3 }], scenes: [{ nodes: [0, 2] }] };
      break;
    }
    case 'shape key': {
      const at = positions(metres.map((value, i) => (i % 3 === 0 ? value / 2 : value)));
      const wider = positions(metres.map((value, i) => (i % 3 === 0 ? value : 0)));
      const unused = positions(metres.map(() => 5));
      more = {
        meshes: [
          {
            weights: [0.5, 0],
            primitives: [
              {
                attributes: { POSITION: at },
                indices: indices(),
                targets: [{ POSITION: wider }, { POSITION: unused }],
              },
            ],
          },
        ],
      };
      break;
    }
  }
  const hanging = new Set(nodes.flatMap((node) => (node['children'] as number[] | undefined) ?? []));
  const json = {
    asset: { version: '2.0' },
    scene: 0,
    scenes: [{ nodes: nodes.map((_, i) => i).filter((i) => !hanging.has(i)) }],
    nodes,
    meshes: [{ primitives: [primitive] }],
    accessors: store.accessors,
    bufferViews: store.views,
    ...more,
  };
  return { json, binary: store.bytes };
}

const rowsOf = (list: readonly number[]): number[][] =>
  Array.from({ length: list.length / 3 }, (_, i) => list.slice(3 * i, 3 * i + 3));

/** Every quad as a strip of four. */
const stripsOf = ({ quads }: QuadMesh): number[][] => quads.map(([a, b, c, d]) => [a!, b!, d!, c!]);

function addView(store: Store, data: Uint8Array, byteStride?: number): number {
  const byteOffset = Math.ceil(store.bytes.length / 4) * 4;
  const bytes = new Uint8Array(byteOffset + data.length);
  bytes.set(store.bytes);
  bytes.set(data, byteOffset);
  store.bytes = bytes;
  store.views.push({ buffer: 0, byteOffset, byteLength: data.length, ...(byteStride && { byteStride }) });
  return store.views.length - 1;
}

function addVec3(store: Store, values: readonly number[]): number {
  const floats = Float32Array.from(values);
  const bufferView = addView(store, new Uint8Array(floats.buffer));
  store.accessors.push({
    bufferView,
    componentType: FLOAT,
    count: values.length / 3,
    type: 'VEC3',
    ...extentOf([...floats]),
  });
  return store.accessors.length - 1;
}

function addScalars(store: Store, values: readonly number[]): number {
  const bufferView = addView(store, new Uint8Array(Uint32Array.from(values).buffer));
  store.accessors.push({ bufferView, componentType: UINT, count: values.length, type: 'SCALAR' });
  return store.accessors.length - 1;
}

/** Of the numbers as they are stored, in single precision. */
function extentOf(values: readonly number[]): { min: number[]; max: number[] } {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  values.forEach((value, i) => {
    min[i % 3] = Math.min(min[i % 3]!, Math.fround(value));
    max[i % 3] = Math.max(max[i % 3]!, Math.fround(value));
  });
  return { min, max };
}
