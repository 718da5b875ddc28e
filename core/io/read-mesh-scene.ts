import { BufferUtils } from '@gltf-transform/core';
import { Fault } from '../fault/fault.ts';
import type { MeshScene } from '../mesh/mesh-scene.ts';
import { requireWithin } from './mesh-limits.ts';
import { readGltfScene } from './read-glb.ts';
import { readObjScene } from './read-obj.ts';
import { readPly } from './read-ply.ts';
import { readStl } from './read-stl.ts';

/** Endings of the mesh files that are read. */
export const MESH_ENDINGS = ['.obj', '.glb', '.gltf', '.ply', '.stl'] as const;

/**
 * Reads a mesh file of any kind that is known, by the ending of its name. Whatever is in it, the work is bounded by its
 * size, and what comes out are finite coordinates and indices in range.
 *
 * @param name - What the user calls it.
 * @throws {Fault} `file/unknown-kind`, `mesh/...`.
 */
export async function readMeshScene(name: string, bytes: Uint8Array): Promise<MeshScene> {
  const ending = /\.[^./\\]*$/.exec(name)?.[0].toLowerCase() ?? '';
  switch (ending) {
    case '.obj':
      requireWithin('bytes', bytes.length);
      return readObjScene(BufferUtils.decodeText(Uint8Array.from(bytes)).replace(/^\uFEFF/, ''));
    case '.glb':
    case '.gltf':
      return readGltfScene(bytes);
    case '.ply':
      return readPly(bytes);
    case '.stl':
      return readStl(bytes);
    default:
      throw new Fault('file/unknown-kind', { value: ending, known: MESH_ENDINGS.join(', ') });
  }
}
