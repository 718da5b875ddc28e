import {
  GLB_BUFFER,
  Logger,
  Verbosity,
  WebIO,
  type Document,
  type GLTF,
  type Primitive,
} from '@gltf-transform/core';
import { Fault } from '../fault/fault.ts';
import { mergeMeshes } from '../mesh/merge-meshes.ts';
import type { MeshScene, PassedOver, ScenePart } from '../mesh/mesh-scene.ts';
import { requireUsable } from '../mesh/soundness.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { seamTolerance, weld } from '../mesh/weld.ts';
import { isObject, listIn, objectsIn, type Json } from './glb-json.ts';
import { isMirror, nodeMatrices, type Matrix } from './gltf-placing.ts';
import { jointMatrices, placedVertices } from './gltf-vertices.ts';
import { requireUsableCoordinates } from './mesh-number.ts';
import { requireWithin } from './mesh-limits.ts';
import { scanGlb } from './scan-glb.ts';
import { surfaceJson, type SurfaceJson } from './surface-json.ts';

/**
 * Reads the surface of a GLB file: all triangles of the scene as {@link readGltfScene} places them, as one mesh with its
 * seams joined. Positions keep the file's own unit and axes (by its standard metres, y up).
 *
 * @throws {Fault} as {@link readGltfScene}.
 */
export async function readGlb(bytes: Uint8Array): Promise<TriangleMesh> {
  const { parts } = await readGltfScene(bytes);
  const whole = mergeMeshes(parts.map(({ mesh }) => mesh)).mesh;
  const { mesh } = weld(whole, seamTolerance(whole.positions));
  requireUsable(mesh);
  return mesh;
}

/**
 * Reads a glTF file, binary or JSON with its data in it: a part for each mesh that a node shows, one for each material
 * where it has several. Nodes place their meshes, skins hold them at the rest pose, shape keys are drawn as far as the
 * file says. Materials, cameras, lights, animations and whatever is not triangles are passed over.
 *
 * @throws {Fault} `mesh/too-large`, `mesh/not-glb`, `mesh/not-its-kind`, `mesh/glb-feature`, `mesh/glb-broken`,
 *   `mesh/no-triangles`, `mesh/not-finite`, `mesh/bad-index`.
 * @see Khronos, glTF 2.0 specification (ISO/IEC 12113:2022).
 */
export async function readGltfScene(bytes: Uint8Array): Promise<MeshScene> {
  const taken = scanGlb(bytes);
  const surface = surfaceJson(taken);
  const document = await documentOf(surface, taken.binary);
  const parts = shownParts(taken.json, surface, document);
  if (parts.length === 0) {
    const vertexCount = (surface.accessors ?? []).reduce(
      (sum, { type, count }) => sum + (type === 'VEC3' ? count : 0),
      0,
    );
    throw new Fault('mesh/no-triangles', { vertexCount });
  }
  return {
    format: 'gltf',
    parts,
    unit: saysMillimetres(taken.json) ? 'mm' : 'm',
    up: '+y',
    front: '+z',
    passedOver: passedOver(taken.json),
  };
}

/** As this program writes it: glTF itself knows metres only. */
const saysMillimetres = ({ asset }: Json): boolean =>
  isObject(asset) && isObject(asset['extras']) && asset['extras']['lengthUnit'] === 'millimetre';

async function documentOf(json: GLTF.IGLTF, binary: Uint8Array): Promise<Document> {
  const io = new WebIO().setLogger(new Logger(Verbosity.SILENT));
  try {
    // Parts instead of the file: the library sees only what was looked at.
    return await io.readJSON({ json, resources: { [GLB_BUFFER]: Uint8Array.from(binary) } });
  } catch (error) {
    throw new Fault('mesh/glb-broken', {
      place: 'the file',
      problem: error instanceof Error ? error.message : String(error),
    });
  }
}

/** Everything that the scene shows, in its own axes. */
function shownParts(json: Json, surface: SurfaceJson, document: Document): ScenePart[] {
  const matrices = nodeMatrices(surface.nodes);
  const meshes = document.getRoot().listMeshes();
  const skins = document.getRoot().listSkins();
  const nameOf = partNamer(json);
  const skinMatrices = surface.skins.map((): Matrix[] | null => null);
  const parts: ScenePart[] = [];
  const counts = { vertices: 0, triangles: 0 };
  const open = surface.scenes[0].nodes.toReversed();
  while (open.length > 0) {
    const i = open.pop()!;
    const node = surface.nodes[i]!;
    open.push(...(node.children ?? []).toReversed());
    if (node.mesh === undefined) continue;
    const placing = {
      matrix: matrices[i]!,
      weights: node.weights ?? surface.meshes[node.mesh]!.weights ?? [],
      joints:
        node.skin === undefined
          ? null
          : (skinMatrices[node.skin] ??= jointMatrices(
              skins[node.skin]!,
              surface.skins[node.skin]!.joints,
              matrices,
            )),
    };
    const primitives = meshes[node.mesh]!.listPrimitives();
    primitives.forEach((primitive, p) => {
      const count = primitive.getAttribute('POSITION')?.getCount() ?? 0;
      if (count === 0) return;
      const isMirrored = placing.joints === null && isMirror(placing.matrix);
      const all = cornersOf(primitive, count, isMirrored);
      // Many primitives may share one list of vertices, and thousands of nodes one mesh.
      const { used, corners } = ownVertices(all, count);
      requireWithin('triangles', (counts.triangles += corners.length / 3));
      requireWithin('vertices', (counts.vertices += used.length));
      if (corners.length === 0) return;
      const positions = placedVertices(primitive, used, placing);
      requireUsableCoordinates(positions);
      const name = nameOf(i, node.mesh!, p);
      parts.push({ name: name || `part ${parts.length + 1}`, mesh: { positions, triangles: corners } });
    });
  }
  return parts;
}

/** What a part is called, by node, mesh and primitive: the node's name or the mesh's, with the material's where there are several. */
function partNamer(json: Json): (node: number, mesh: number, primitive: number) => string {
  const nodes = objectsIn(json, 'nodes');
  const meshes = objectsIn(json, 'meshes');
  const materials = objectsIn(json, 'materials');
  const primitivesOf = meshes.map((mesh) => objectsIn(mesh, 'primitives'));
  return (node, mesh, primitive) => {
    const name = nameIn(nodes[node]) || nameIn(meshes[mesh]);
    if (primitivesOf[mesh]!.length === 1) return name;
    const { material } = primitivesOf[mesh]![primitive]!;
    const ofMaterial = typeof material === 'number' ? nameIn(materials[material]) : '';
    return `${name} / ${ofMaterial || primitive + 1}`;
  };
}

const nameIn = (holder: Json | undefined): string =>
  typeof holder?.['name'] === 'string' ? holder['name'].trim().slice(0, 80) : '';

const STRIP = 5;
const FAN = 6;

/** Triangles of a list, a strip (every other one turned) or a fan. */
function cornersOf(primitive: Primitive, vertexCount: number, isMirrored: boolean): Uint32Array {
  const indices = primitive.getIndices()?.getArray() ?? null;
  const count = indices?.length ?? vertexCount;
  const into: number[] = [];
  const at = (i: number): number => {
    const v = indices === null ? i : indices[i]!;
    if (v < vertexCount) return v;
    const triangle = into.length / 3 + 1;
    throw new Fault('mesh/bad-index', { line: null, triangle, value: String(v + 1), vertexCount });
  };
  const add = (a: number, b: number, c: number): void => {
    const corners = isMirrored ? [at(a), at(c), at(b)] : [at(a), at(b), at(c)];
    into.push(corners[0]!, corners[1]!, corners[2]!);
  };
  const mode: number = primitive.getMode();
  if (mode === STRIP) {
    for (let i = 0; i + 2 < count; i++)
      if (i % 2 === 0) add(i, i + 1, i + 2);
      else add(i + 1, i, i + 2);
  } else if (mode === FAN) {
    for (let i = 1; i + 1 < count; i++) add(0, i, i + 1);
  } else {
    for (let i = 0; i + 2 < count; i += 3) add(i, i + 1, i + 2);
  }
  return Uint32Array.from(into);
}

/** The vertices that corners name, in the file's order, and the corners renumbered. */
function ownVertices(all: Uint32Array, vertexCount: number): { used: number[]; corners: Uint32Array } {
  // A list for few vertices of a long shared list, a table for many.
  if (all.length < vertexCount / 4) {
    const used = [...new Set(all)].sort((a, b) => a - b);
    const newIndex = new Map(used.map((v, i) => [v, i]));
    return { used, corners: all.map((v) => newIndex.get(v)!) };
  }
  const used: number[] = [];
  const newIndex = new Int32Array(vertexCount).fill(-1);
  for (const v of all) newIndex[v] = 0;
  newIndex.forEach((mark, v) => {
    if (mark === 0) newIndex[v] = used.push(v) - 1;
  });
  return { used, corners: all.map((v) => newIndex[v]!) };
}

function passedOver(json: Json): PassedOver[] {
  const primitives = objectsIn(json, 'meshes').flatMap((mesh) => objectsIn(mesh, 'primitives'));
  const has = (start: string): boolean =>
    primitives.some(
      ({ attributes }) =>
        isObject(attributes) && Object.keys(attributes).some((name) => name.startsWith(start)),
    );
  return [
    ...(has('COLOR_') ? (['colours'] as const) : []),
    ...(has('TEXCOORD_') ? (['textures'] as const) : []),
    ...(has('NORMAL') ? (['normals'] as const) : []),
    ...(primitives.some(({ mode }) => typeof mode === 'number' && mode < 4)
      ? (['points or lines'] as const)
      : []),
    ...(listIn(json, 'animations', 'animations').length > 0 ? (['animations'] as const) : []),
  ];
}
