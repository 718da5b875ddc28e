import type { TriangleMesh } from './triangle-mesh.ts';

/** Units that mesh files come in. */
export type MeshUnit = 'm' | 'cm' | 'mm' | 'inch';

/** Metres per unit; the inch is exact. @see ISO 80000-3; International yard and pound agreement, 1959. */
export const METRES_PER_MESH_UNIT: Readonly<Record<MeshUnit, number>> = {
  m: 1,
  cm: 0.01,
  mm: 0.001,
  inch: 0.0254,
};

/** A direction along an axis of a file. */
export type Axis = '+x' | '-x' | '+y' | '-y' | '+z' | '-z';

/** One named piece of a mesh file: an object, a group, a mesh hung from a node. */
export interface ScenePart {
  /** As the file has it; `part 3` where it has none. Not always unlike the others. */
  readonly name: string;
  /** In the file's own unit and axes, placed by the file's nodes; only vertices of this part, seams not joined. */
  readonly mesh: TriangleMesh;
}

/** What a mesh file holds, before anything is decided about it. */
export interface MeshScene {
  readonly format: 'obj' | 'gltf' | 'ply' | 'stl';
  /** At least one; each has triangles, finite coordinates, indices in range. */
  readonly parts: readonly ScenePart[];
  /** Where the format or the file states it; null otherwise. */
  readonly unit: MeshUnit | null;
  readonly up: Axis | null;
  readonly front: Axis | null;
  /** What the file holds beside the surface and is not used, each named once. */
  readonly passedOver: readonly PassedOver[];
}

export type PassedOver = 'colours' | 'textures' | 'normals' | 'points or lines' | 'animations' | 'shape keys';
