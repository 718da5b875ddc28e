import {
  GLB_BUFFER,
  Logger,
  Verbosity,
  WebIO,
  type Document,
  type GLTF,
  type Node,
  type Primitive,
} from '@gltf-transform/core';
import { Fault } from '../fault/fault.ts';
import { requireUsable } from '../mesh/soundness.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { seamTolerance, weld } from '../mesh/weld.ts';
import { requireWithin } from './mesh-limits.ts';
import { scanGlb } from './scan-glb.ts';
import { surfaceJson } from './surface-json.ts';

/**
 * Reads the surface of a GLB file: all triangles of the scene, placed by their nodes, as one mesh with its seams joined.
 *
 * Positions keep the file's own unit and axes (by its standard metres, y up). Skins, shape keys, materials and whatever
 * is not triangles are passed over.
 *
 * @throws {Fault} `mesh/too-large`, `mesh/not-glb`, `mesh/glb-feature`, `mesh/glb-broken`, `mesh/no-triangles`,
 *   `mesh/not-finite`, `mesh/bad-index`.
 * @see Khronos, glTF 2.0 specification (ISO/IEC 12113:2022).
 */
export async function readGlb(bytes: Uint8Array): Promise<TriangleMesh> {
  const parts = scanGlb(bytes);
  const whole = mergedTriangles(await documentOf(surfaceJson(parts), parts.binary));
  requireUsableParts(whole);
  const { mesh } = weld(whole, seamTolerance(whole.positions));
  requireUsable(mesh);
  return mesh;
}

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

/** All triangles of the scene, in the scene's own axes. */
function mergedTriangles(document: Document): TriangleMesh {
  const root = document.getRoot();
  const nodes: Node[] = [];
  root.listScenes()[0]!.traverse((node) => nodes.push(node));
  const positions: number[] = [];
  const triangles: number[] = [];
  for (const node of nodes) {
    const primitives = node.getMesh()?.listPrimitives() ?? [];
    const matrix = primitives.length > 0 ? node.getWorldMatrix() : [];
    for (const primitive of primitives) {
      const first = positions.length / 3;
      addPlaced(primitive, matrix, positions);
      addTriangles(primitive, { first, end: positions.length / 3, isMirrored: isMirror(matrix) }, triangles);
      requireWithin('vertices', positions.length / 3);
      requireWithin('triangles', triangles.length / 3);
    }
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

/** Positions of a primitive under a column-major 4x4 matrix. */
function addPlaced(primitive: Primitive, m: readonly number[], into: number[]): void {
  const accessor = primitive.getAttribute('POSITION');
  if (accessor === null) return;
  const point: number[] = [0, 0, 0];
  for (let i = 0; i < accessor.getCount(); i++) {
    const [x, y, z] = accessor.getElement(i, point);
    for (let k = 0; k < 3; k++) into.push(m[k]! * x! + m[4 + k]! * y! + m[8 + k]! * z! + m[12 + k]!);
  }
}

/** A mirroring place turns faces inside out: a negative determinant. */
function isMirror(m: readonly number[]): boolean {
  const minor = (a: number, b: number): number => m[4 + a]! * m[8 + b]! - m[4 + b]! * m[8 + a]!;
  return m.length > 0 && m[0]! * minor(1, 2) - m[1]! * minor(0, 2) + m[2]! * minor(0, 1) < 0;
}

const STRIP = 5;
const FAN = 6;

/** Triangles of a list, a strip (every other one turned) or a fan, with their places in the whole mesh. */
function addTriangles(
  primitive: Primitive,
  { first, end, isMirrored }: { first: number; end: number; isMirrored: boolean },
  into: number[],
): void {
  const indices = primitive.getIndices()?.getArray() ?? null;
  const count = indices?.length ?? end - first;
  const at = (i: number): number => first + (indices === null ? i : indices[i]!);
  const add = (a: number, b: number, c: number): void => {
    const corners = isMirrored ? [at(a), at(c), at(b)] : [at(a), at(b), at(c)];
    const beyond = corners.find((v) => v >= end);
    if (beyond !== undefined) {
      const value = String(beyond - first + 1);
      throw new Fault('mesh/bad-index', {
        line: null,
        triangle: into.length / 3 + 1,
        value,
        vertexCount: end - first,
      });
    }
    into.push(...corners);
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
}

/** Before seams are joined: something to join, all of it numbers. */
function requireUsableParts({ positions, triangles }: TriangleMesh): void {
  if (triangles.length === 0) throw new Fault('mesh/no-triangles', { vertexCount: positions.length / 3 });
  const odd = positions.findIndex((value) => !Number.isFinite(value));
  if (odd < 0) return;
  throw new Fault('mesh/not-finite', {
    vertex: Math.floor(odd / 3) + 1,
    line: null,
    value: String(positions[odd]),
  });
}
