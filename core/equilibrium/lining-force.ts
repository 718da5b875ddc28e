import type { TensionLaw } from '../fabric/tension-law.ts';
import type { ClothLevel, Lining } from '../garment/garment.ts';
import { triangleBlocks, type BlockPattern } from './block-matrix.ts';
import type { Force } from './force.ts';
import {
  addMembraneGradient,
  addMembraneStiffness,
  membraneRoom,
  type Membrane,
  type MembranePull,
} from './membrane-force.ts';

/**
 * A second cloth bonded to the first over some of its triangles: it follows the same vertices, and pulls by its own law
 * from its own unstretched shape.
 */
export function liningForce({ mesh }: ClothLevel, lining: Lining, laws: readonly TensionLaw[]): Force {
  const triangles = cornersOf(mesh.triangles, lining.triangles);
  const membrane: Membrane = {
    level: {
      mesh: { positions: mesh.positions, triangles },
      restInverse: lining.restInverse,
      restArea: lining.restArea,
    },
    laws: [laws[lining.fabric]!],
    room: membraneRoom(),
  };
  const pull: MembranePull = { energy: 0, cornerForceSquared: 0 };
  let blocks: { readonly of: BlockPattern; readonly at: Uint32Array } | null = null;
  return {
    addGradient: (positions, gradient) => {
      addMembraneGradient(membrane, positions, { gradient, pull });
      return pull.energy;
    },
    addStiffness: (positions, exact, { pattern, values }) => {
      if (blocks?.of !== pattern) blocks = { of: pattern, at: triangleBlocks(pattern, triangles) };
      addMembraneStiffness(membrane, positions, exact, { blocks: blocks.at, values });
    },
  };
}

/** Corners of the chosen triangles; 3*N. */
export function cornersOf(triangles: Uint32Array, chosen: Uint32Array): Uint32Array {
  const corners = new Uint32Array(3 * chosen.length);
  for (let i = 0; i < chosen.length; i++) {
    corners.set(triangles.subarray(3 * chosen[i]!, 3 * chosen[i]! + 3), 3 * i);
  }
  return corners;
}
