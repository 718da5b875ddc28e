import type { GLTF } from '@gltf-transform/core';
import { broken, isObject, listIn, objectsIn, wholeBelow, type Json } from './glb-json.ts';
import { keptAccessors, type KeptAccessors } from './gltf-accessors.ts';
import { requireWithin } from './mesh-limits.ts';
import type { GlbParts } from './scan-glb.ts';

/** A thousand nodes hanging from one another are no body but a trap. */
const DEEPEST_NODE = 1000;
/** Sets of four joints at a vertex. */
const MOST_JOINT_SETS = 4;

/** The glTF of the surface alone, all of it looked at. */
export interface SurfaceJson extends GLTF.IGLTF {
  readonly nodes: GLTF.INode[];
  readonly meshes: GLTF.IMesh[];
  readonly skins: GLTF.ISkin[];
  readonly scenes: [{ nodes: number[] }];
}

/**
 * The glTF of the surface alone: scene, nodes, triangles with positions and indices, shape keys in use, skins; every
 * number in it proved to lie where it should. It is written anew, so that a library that reads it sees nothing that was
 * not looked at: a file of 500 bytes can ask for billions of numbers, or for a scene that hangs from itself.
 *
 * @throws {Fault} `mesh/too-large`, `mesh/glb-broken`.
 * @see Khronos, glTF 2.0 specification (ISO/IEC 12113:2022), sections 3.5 to 3.7.
 */
export function surfaceJson(parts: GlbParts): SurfaceJson {
  const { json, binary } = parts;
  const kept = keptAccessors(parts);
  const readNodes = objectsIn(json, 'nodes');
  const readMeshes = objectsIn(json, 'meshes');
  const readSkins = objectsIn(json, 'skins');
  requireWithin('nodes', readNodes.length);
  requireWithin('nodes', readMeshes.length);
  const counts = { nodes: readNodes.length, meshes: readMeshes.length, skins: readSkins.length };
  const nodes = readNodes.map((node, i) => nodeOf(node, `nodes[${i}]`, counts));
  requireTree(nodes);
  const meshes = readMeshes.map((mesh, i) => meshOf(mesh, i, nodes, kept));
  const skins = readSkins.map((skin, i) => skinOf(skin, `skins[${i}]`, counts.nodes, kept));
  return {
    asset: { version: '2.0' },
    scene: 0,
    scenes: [{ nodes: shownNodes(json, nodes) }],
    nodes,
    meshes,
    skins,
    accessors: [...kept.accessors],
    bufferViews: [...kept.bufferViews],
    buffers: [{ byteLength: binary.length }],
  };
}

/* oxlint-disable-next-line max-params -- a mesh, its number, who shows it, what it may keep */
function meshOf(mesh: Json, i: number, nodes: readonly GLTF.INode[], kept: KeptAccessors): GLTF.IMesh {
  const weights = weightsIn(mesh, `meshes[${i}]`) ?? [];
  // Shape keys that nobody uses are left where they are.
  const used = new Set<number>();
  for (const list of [weights, ...nodes.map((node) => (node.mesh === i ? (node.weights ?? []) : []))]) {
    list.forEach((weight, key) => {
      if (weight !== 0) used.add(key);
    });
  }
  const read = objectsIn(mesh, 'primitives', `meshes[${i}].primitives`);
  requireWithin('nodes', read.length);
  return {
    weights,
    primitives: read.map((primitive, p) => primitiveOf(primitive, { i, p, kept, used })),
  };
}

/** Positions, indices, shape keys and joints of a primitive of triangles; points and lines become nothing. */
function primitiveOf(
  primitive: Json,
  { i, p, kept, used }: { i: number; p: number; kept: KeptAccessors; used: ReadonlySet<number> },
): GLTF.IMeshPrimitive {
  const place = `meshes[${i}].primitives[${p}]`;
  const mode = wholeBelow(7, primitive['mode'] ?? 4, `${place}.mode`);
  if (mode !== 4 && mode !== 5 && mode !== 6) return { attributes: {}, mode: 0 };
  const { attributes, indices } = primitive;
  if (!isObject(attributes)) throw broken(`${place}.attributes`, 'it is no object');
  const position = kept.keep(attributes['POSITION'], 'positions', `${place}.attributes.POSITION`);
  const count = kept.countOf(position);
  const keepAlike = (index: unknown, use: 'positions' | 'joints' | 'weights', at: string): number => {
    const alike = kept.keep(index, use, at);
    if (kept.countOf(alike) === count) return alike;
    throw broken(at, `it has ${kept.countOf(alike)} entries for ${count} vertices`);
  };
  const all: Record<string, number> = { POSITION: position };
  for (let set = 0; set < MOST_JOINT_SETS; set++) {
    const [joints, weights] = [`JOINTS_${set}`, `WEIGHTS_${set}`];
    if (attributes[joints] === undefined || attributes[weights] === undefined) continue;
    all[joints] = keepAlike(attributes[joints], 'joints', `${place}.attributes.${joints}`);
    all[weights] = keepAlike(attributes[weights], 'weights', `${place}.attributes.${weights}`);
  }
  const targets = objectsIn(primitive, 'targets', `${place}.targets`).map((target, t) => {
    const at = `${place}.targets[${t}].POSITION`;
    if (target['POSITION'] === undefined || !used.has(t)) return {};
    return { POSITION: keepAlike(target['POSITION'], 'positions', at) };
  });
  return {
    attributes: all,
    mode,
    ...(targets.length > 0 && { targets }),
    ...(indices !== undefined && { indices: kept.keep(indices, 'indices', `${place}.indices`) }),
  };
}

/* oxlint-disable-next-line max-params -- a skin, its place, how many nodes there are, what it may keep */
function skinOf(skin: Json, place: string, nodeCount: number, kept: KeptAccessors): GLTF.ISkin {
  const joints = listIn(skin, 'joints', `${place}.joints`).map((joint, i) =>
    wholeBelow(nodeCount, joint, `${place}.joints[${i}]`),
  );
  requireWithin('nodes', joints.length);
  if (skin['inverseBindMatrices'] === undefined) return { joints };
  const at = `${place}.inverseBindMatrices`;
  const inverseBindMatrices = kept.keep(skin['inverseBindMatrices'], 'matrices', at);
  if (kept.countOf(inverseBindMatrices) < joints.length) {
    throw broken(at, `it has ${kept.countOf(inverseBindMatrices)} matrices for ${joints.length} joints`);
  }
  return { joints, inverseBindMatrices };
}

/** Mesh, skin, children and placing of a node. */
function nodeOf(
  node: Json,
  place: string,
  counts: { nodes: number; meshes: number; skins: number },
): GLTF.INode {
  const children = listIn(node, 'children', `${place}.children`).map((child, i) =>
    wholeBelow(counts.nodes, child, `${place}.children[${i}]`),
  );
  const weights = weightsIn(node, place);
  return {
    ...(node['mesh'] === undefined ? {} : { mesh: wholeBelow(counts.meshes, node['mesh'], `${place}.mesh`) }),
    ...(node['skin'] === undefined ? {} : { skin: wholeBelow(counts.skins, node['skin'], `${place}.skin`) }),
    ...(children.length === 0 ? {} : { children }),
    ...(weights === null ? {} : { weights }),
    ...numbersIn(node, 'matrix', 16, place),
    ...numbersIn(node, 'translation', 3, place),
    ...numbersIn(node, 'rotation', 4, place),
    ...numbersIn(node, 'scale', 3, place),
  };
}

/** How far each shape key is drawn; null where nothing is said. */
function weightsIn(holder: Json, place: string): number[] | null {
  if (holder['weights'] === undefined) return null;
  return listIn(holder, 'weights', `${place}.weights`).map((value, i) => {
    if (typeof value === 'number' && Math.abs(value) <= 1e6) return value;
    throw broken(`${place}.weights[${i}]`, 'it is no number');
  });
}

/* oxlint-disable-next-line max-params -- where, which, how many, and what it is called in a fault */
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
