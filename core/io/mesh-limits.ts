import { Fault } from '../fault/fault.ts';

/** The most a mesh file may hold: ten times what a fine body scan has, and little enough to stay in memory. */
export const MESH_LIMITS = {
  bytes: 256 * 2 ** 20,
  vertices: 3_000_000,
  triangles: 4_000_000,
  'corners of one face': 1000,
  'corners of large faces': 200_000,
  /** Of a glTF file, in all lists that are used, and in all sums over shape keys. */
  numbers: 60_000_000,
  nodes: 20_000,
} as const;

/** Faces of more corners count as large: splitting one takes the square of its corners. */
export const LARGE_FACE = 16;

/**
 * Stops a file that would fill the memory.
 *
 * @throws {Fault} `mesh/too-large`.
 */
export function requireWithin(what: keyof typeof MESH_LIMITS, found: number): void {
  const limit = MESH_LIMITS[what];
  if (found > limit) throw new Fault('mesh/too-large', { what, found, limit });
}
