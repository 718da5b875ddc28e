import type { GLTF } from '@gltf-transform/core';
import { Fault } from '../fault/fault.ts';
import { broken, isObject, listIn, objectsIn, wholeBelow, type Json } from './glb-json.ts';
import { requireWithin } from './mesh-limits.ts';
import type { GlbParts } from './scan-glb.ts';

const COMPONENT_BYTES = { 5120: 1, 5121: 1, 5122: 2, 5123: 2, 5125: 4, 5126: 4 } as const;
const COMPONENT_COUNT = { SCALAR: 1, VEC3: 3 } as const;

/** A thousand nodes hanging from one another are no body but a trap. */
const DEEPEST_NODE = 1000;

/**
 * The glTF of the surface alone: scene, nodes, triangles with positions and indices, every number in it proved to lie
 * where it should. It is written anew, so that a library that reads it sees nothing that was not looked at: a file of
 * 500 bytes can ask for billions of numbers, or for a scene that hangs from itself.
 *
 * Skins, shape keys and materials are left out: the body stands as it was modelled.
 *
 * @throws {Fault} `mesh/too-large`, `mesh/glb-feature`, `mesh/glb-broken`.
 * @see Khronos, glTF 2.0 specification (ISO/IEC 12113:2022), sections 3.5 to 3.7.
 */
export function surfaceJson({ json, binary }: GlbParts): GLTF.IGLTF {
  const views = objectsIn(json, 'bufferViews').map((view, i) => viewOf(view, `bufferViews[${i}]`, binary));
  const accessors = accessorKeeper(objectsIn(json, 'accessors'), views);
  const meshes = objectsIn(json, 'meshes').map((mesh, i) => ({
    primitives: objectsIn(mesh, 'primitives', `meshes[${i}].primitives`).flatMap((primitive, p) =>
      primitiveOf(primitive, `meshes[${i}].primitives[${p}]`, accessors.keep),
    ),
  }));
  const read = objectsIn(json, 'nodes');
  const nodes = read.map((node, i) =>
    nodeOf(node, `nodes[${i}]`, { nodes: read.length, meshes: meshes.length }),
  );
  requireTree(nodes);
  return {
    asset: { version: '2.0' },
    scene: 0,
    scenes: [{ nodes: shownNodes(json, nodes) }],
    nodes,
    meshes,
    accessors: accessors.kept,
    bufferViews: views,
    buffers: [{ byteLength: binary.length }],
  };
}

function viewOf(view: Json, place: string, binary: Uint8Array): GLTF.IBufferView {
  wholeBelow(1, view['buffer'], `${place}.buffer`);
  const byteLength = wholeBelow(binary.length + 1, view['byteLength'], `${place}.byteLength`);
  const end = binary.length - byteLength + 1;
  const byteOffset = wholeBelow(end, view['byteOffset'] ?? 0, `${place}.byteOffset`);
  if (view['byteStride'] === undefined) return { buffer: 0, byteOffset, byteLength };
  const byteStride = wholeBelow(253, view['byteStride'], `${place}.byteStride`);
  if (byteStride < 4 || byteStride % 4 !== 0) {
    throw broken(`${place}.byteStride`, `${byteStride} is not 4, 8, ... 252`);
  }
  return { buffer: 0, byteOffset, byteLength, byteStride };
}

type Keep = (index: unknown, type: 'VEC3' | 'SCALAR', place: string) => number;

/** Keeps the accessors that are asked for, each once, proved, under a new number. */
function accessorKeeper(
  read: readonly Json[],
  views: readonly GLTF.IBufferView[],
): { keep: Keep; kept: GLTF.IAccessor[] } {
  const kept: GLTF.IAccessor[] = [];
  const newIndex = new Map<string, number>();
  const keep: Keep = (index, type, place) => {
    const old = wholeBelow(read.length, index, place);
    const key = `${old} ${type}`;
    if (!newIndex.has(key)) {
      newIndex.set(key, kept.length);
      kept.push(accessorOf(read[old]!, type, `accessors[${old}]`, views));
    }
    return newIndex.get(key)!;
  };
  return { keep, kept };
}

function accessorOf(
  accessor: Json,
  type: 'VEC3' | 'SCALAR',
  place: string,
  views: readonly GLTF.IBufferView[],
): GLTF.IAccessor {
  if (accessor['sparse'] !== undefined) {
    throw new Fault('mesh/glb-feature', { feature: 'sparse data', name: place });
  }
  if (accessor['type'] !== type) throw broken(`${place}.type`, `it should be ${type}`);
  const componentType = accessor['componentType'];
  if (!isComponentType(componentType)) throw broken(`${place}.componentType`, 'it is unknown');
  const componentBytes = COMPONENT_BYTES[componentType];
  const count = wholeBelow(2 ** 32, accessor['count'], `${place}.count`);
  if (type === 'VEC3') requireWithin('vertices', count);
  else requireWithin('triangles', count / 3);
  const bufferView = wholeBelow(views.length, accessor['bufferView'], `${place}.bufferView`);
  const view = views[bufferView]!;
  const byteOffset = wholeBelow(view.byteLength + 1, accessor['byteOffset'] ?? 0, `${place}.byteOffset`);
  const elementBytes = componentBytes * COMPONENT_COUNT[type];
  const stride = view.byteStride ?? elementBytes;
  const needed = byteOffset + (count > 0 ? (count - 1) * stride + elementBytes : 0);
  if (stride < elementBytes || needed > view.byteLength) {
    throw broken(place, `its ${count} entries do not fit into the data they name`);
  }
  if ((byteOffset + view.byteOffset!) % componentBytes !== 0) {
    throw broken(`${place}.byteOffset`, 'its numbers do not lie on whole steps');
  }
  const normalized = accessor['normalized'] === true && componentType < 5125;
  return { bufferView, byteOffset, componentType, count, type, normalized };
}

const isComponentType = (value: unknown): value is keyof typeof COMPONENT_BYTES =>
  typeof value === 'number' && value in COMPONENT_BYTES;

/** Positions and indices of a primitive of triangles; points and lines are passed over. */
function primitiveOf(primitive: Json, place: string, keep: Keep): GLTF.IMeshPrimitive[] {
  const mode = wholeBelow(7, primitive['mode'] ?? 4, `${place}.mode`);
  if (mode !== 4 && mode !== 5 && mode !== 6) return [];
  const { attributes, indices } = primitive;
  if (!isObject(attributes)) throw broken(`${place}.attributes`, 'it is no object');
  const kept = { POSITION: keep(attributes['POSITION'], 'VEC3', `${place}.attributes.POSITION`) };
  if (indices === undefined) return [{ attributes: kept, mode }];
  return [{ attributes: kept, mode, indices: keep(indices, 'SCALAR', `${place}.indices`) }];
}

/** Mesh, children and placing of a node. */
function nodeOf(node: Json, place: string, counts: { nodes: number; meshes: number }): GLTF.INode {
  const children = listIn(node, 'children', `${place}.children`).map((child, i) =>
    wholeBelow(counts.nodes, child, `${place}.children[${i}]`),
  );
  return {
    ...(node['mesh'] === undefined ? {} : { mesh: wholeBelow(counts.meshes, node['mesh'], `${place}.mesh`) }),
    ...(children.length === 0 ? {} : { children }),
    ...numbersIn(node, 'matrix', 16, place),
    ...numbersIn(node, 'translation', 3, place),
    ...numbersIn(node, 'rotation', 4, place),
    ...numbersIn(node, 'scale', 3, place),
  };
}

function numbersIn(node: Json, name: string, size: number, place: string): Record<string, number[]> {
  if (node[name] === undefined) return {};
  const numbers = listIn(node, name, `${place}.${name}`).filter(
    (value): value is number => typeof value === 'number' && Number.isFinite(value),
  );
  if (numbers.length !== size) throw broken(`${place}.${name}`, `it should be ${size} numbers`);
  return { [name]: numbers };
}

/** Every node hangs from at most one other and none from itself. */
function requireTree(nodes: readonly GLTF.INode[]): void {
  const parent = new Int32Array(nodes.length).fill(-1);
  nodes.forEach(({ children = [] }, i) => {
    for (const child of children) {
      if (parent[child] !== -1) throw broken(`nodes[${child}]`, 'it hangs from two nodes');
      parent[child] = i;
    }
  });
  for (let i = 0; i < nodes.length; i++) {
    let depth = 0;
    for (let up = parent[i]!; up !== -1; up = parent[up]!) {
      if (++depth > DEEPEST_NODE) throw broken(`nodes[${i}]`, 'it hangs from itself, or too deep');
    }
  }
}

/** The nodes of the scene to be shown; all that hang from no other where there is no scene. */
function shownNodes(json: Json, nodes: readonly GLTF.INode[]): number[] {
  const scenes = objectsIn(json, 'scenes');
  const hanging = new Set(nodes.flatMap(({ children = [] }) => children));
  if (scenes.length === 0) return nodes.map((_, i) => i).filter((i) => !hanging.has(i));
  const shown = wholeBelow(scenes.length, json['scene'] ?? 0, 'scene');
  const place = `scenes[${shown}].nodes`;
  const roots = listIn(scenes[shown]!, 'nodes', place).map((node, i) =>
    wholeBelow(nodes.length, node, `${place}[${i}]`),
  );
  const wrong = roots.findIndex((node) => {
    const isTaken = hanging.has(node);
    hanging.add(node);
    return isTaken;
  });
  if (wrong >= 0) throw broken(`${place}[${wrong}]`, 'it hangs from another node or is named twice');
  return roots;
}
