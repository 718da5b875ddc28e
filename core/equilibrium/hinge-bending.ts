import type { ClothLevel } from '../garment/garment.ts';
import type { BendingTensor } from './bending-force.ts';
import type { BlockPattern } from './block-matrix.ts';
import type { Force } from './force.ts';
import { readHinges, type HingeAngles } from './hinge-angles.ts';
import { layHinges, NO_HINGE, type Hinges } from './hinge-layout.ts';
import { addHingeStiffness, patchBlocks } from './hinge-stiffness.ts';

/**
 * Resistance of a garment to bending, at hinges: the angles at the three sides of a triangle tell its curvature, whatever
 * the mesh.
 *
 * E = 1/2 sum over triangles of A0 j' S j, S = (M D^-1 M')^-1, with j the angles at the sides, M the angles that a unit of
 * each curvature (along warp, along weft, mixed) would make on the flat cloth, and D = diag(D11, D22, 4 D66): the plate's
 * energy of the curvature that makes these angles, exact for a cloth rolled up gently in any direction. A free side has
 * no angle and none is made up: along a hem the curvature across it counts as 0, as where no moment holds it.
 *
 * Two simpler ways were tried. A sum over single hinges, 3 l^2 / (A1 + A2) per squared angle, has 1.5 times the plate's
 * energy on equilateral triangles and 3 times on a grid, however fine. Kinks as vectors in space (Bergou et al. 2006)
 * make the energy quadratic, but it falls where cloth is pushed together, and garment cloth does not resist that: a
 * cantilever shrank by a quarter. Angles do not change when cloth is pushed together.
 *
 * The cloth counts as flat where nothing bends it. Second derivatives are those of Gauss and Newton, never negative;
 * what they leave out grows with the angles.
 *
 * @see Grinspun, Gingold, Reisman & Zorin, Computing discrete shape operators on general meshes, Eurographics 2006.
 */
export function hingeBending(
  level: Pick<ClothLevel, 'mesh' | 'restInverse' | 'restArea'>,
  tensor: BendingTensor,
): Force {
  const hinges = layHinges(level, tensor);
  const moments = new Float64Array(hinges.angles.angle.length);
  let blocks: { readonly of: BlockPattern; readonly at: Uint32Array } | null = null;
  return {
    addGradient: (positions, gradient) => {
      readHinges(hinges.angles, positions);
      const energy = setMoments(hinges, moments);
      addMoments(hinges.angles, moments, gradient);
      return energy;
    },
    addStiffness: (positions, _exact, into) => {
      if (blocks?.of !== into.pattern) {
        blocks = { of: into.pattern, at: patchBlocks(hinges.patches, into.pattern) };
      }
      readHinges(hinges.angles, positions);
      addHingeStiffness(hinges, blocks.at, into);
    },
  };
}

/** Moment at every hinge, N*m; overwrites `moments` and returns the energy, J. */
function setMoments({ ofSide, metric, angles: { angle } }: Hinges, moments: Float64Array): number {
  moments.fill(0);
  let energy = 0;
  for (let t = 0; 3 * t < ofSide.length; t++) {
    for (let e = 0; e < 3; e++) {
      const hinge = ofSide[3 * t + e]!;
      if (hinge === NO_HINGE) continue;
      let moment = 0;
      for (let f = 0; f < 3; f++) {
        const other = ofSide[3 * t + f]!;
        if (other !== NO_HINGE) moment += metric[9 * t + 3 * e + f]! * angle[other]!;
      }
      moments[hinge]! += moment;
      energy += (moment * angle[hinge]!) / 2;
    }
  }
  return energy;
}

function addMoments({ vertices, slopes }: HingeAngles, moments: Float64Array, gradient: Float64Array): void {
  for (let h = 0; h < moments.length; h++) {
    for (let i = 0; i < 4; i++) {
      const v = 3 * vertices[4 * h + i]!;
      const s = 12 * h + 3 * i;
      gradient[v]! += moments[h]! * slopes[s]!;
      gradient[v + 1]! += moments[h]! * slopes[s + 1]!;
      gradient[v + 2]! += moments[h]! * slopes[s + 2]!;
    }
  }
}
