import type { ClothLevel } from '../garment/garment.ts';
import { triangleBlocks } from './block-matrix.ts';
import { createMultigrid, type MatrixReach, type Multigrid } from './multigrid.ts';

/** What a search for rest lays out before any number is known; it depends on how the meshes hang together, and on nothing else. */
export interface PreparedCloth {
  readonly multigrid: Multigrid;
  /** Where each triangle's 9x9 goes, per level; 9*T each. */
  readonly blocks: readonly Uint32Array[];
}

/**
 * Lays out matrices and maps of all levels. Settling the same cloth again, in another fabric, cut otherwise or laid
 * elsewhere, may use them again (cloth that bends needs `reach.hinges`, or its bending slows the search); two searches at the same time may not.
 */
export function prepareCloth(levels: readonly ClothLevel[], reach: MatrixReach = {}): PreparedCloth {
  const multigrid = createMultigrid(levels, reach);
  return {
    multigrid,
    blocks: levels.map(({ mesh }, l) => triangleBlocks(multigrid.levels[l]!.matrix.pattern, mesh.triangles)),
  };
}
