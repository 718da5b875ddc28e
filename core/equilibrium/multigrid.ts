import type { ClothLevel } from '../garment/garment.ts';
import { blockAt, patternOf, zeroMatrix, type BlockMatrix, type BlockPattern } from './block-matrix.ts';
import { backwardSweep, forwardSweep, invertDiagonal } from './block-gauss-seidel.ts';
import { envelopeOf, factorise, solveFactor, type EnvelopeFactor } from './envelope-cholesky.ts';
import { hingePatches, patchRows } from './hinge-patches.ts';
import { patternOfPatches } from './patch-pattern.ts';
import { prolong, restrict, type Parents } from './prolongation.ts';
import {
  coarsenWeighted,
  patternOfProduct,
  weightedProduct,
  type WeightedParents,
  type WeightedProduct,
} from './weighted-product.ts';

/** Beyond this many vertices the coarsest level is swept, not factorised: a direct solution would cost more. */
const MOST_FACTORISED = 800;

/** One level of the hierarchy: its matrix and the room to smooth on it. */
export interface MultigridLevel {
  readonly matrix: BlockMatrix;
  /** 9*V. */
  readonly inverseDiagonal: Float64Array;
  /** As in the cloth level; empty on the coarsest. */
  readonly follow: Parents;
  /** Where each block goes on the next coarser level. */
  readonly carry: BlockCarry;
  /** Room, 3*V each. */
  readonly force: Float64Array;
  readonly shift: Float64Array;
  readonly left: Float64Array;
  readonly carried: Float64Array;
}

/** Where the blocks of a fine matrix go in the coarse one: a quarter of each to four, or shares of it; null on the coarsest. */
type BlockCarry =
  | { readonly kind: 'quarters'; readonly to: Uint32Array }
  | { readonly kind: 'weighted'; readonly product: WeightedProduct }
  | null;

/** Levels, coarsest first, and the factor of the coarsest. */
export interface Multigrid {
  readonly levels: readonly MultigridLevel[];
  /** Null where the coarsest level is too large for it. */
  readonly factor: EnvelopeFactor | null;
}

/** What else a matrix must have room for. */
export interface MatrixReach {
  /** Bending: each triangle's corners pull at the far corners of its neighbours. */
  readonly hinges?: boolean;
}

/** Lays out patterns and maps of all levels; done once per garment, before any number is known. */
export function createMultigrid(
  levels: readonly ClothLevel[],
  { hinges = false }: MatrixReach = {},
): Multigrid {
  const patterns = patternsOf(levels, hinges);
  const made = levels.map((level, l): MultigridLevel => {
    const size = level.mesh.positions.length;
    return {
      matrix: zeroMatrix(patterns[l]!),
      inverseDiagonal: new Float64Array(3 * size),
      follow: level,
      carry: l > 0 ? blockCarry(patterns[l]!, level, patterns[l - 1]!) : null,
      force: new Float64Array(size),
      shift: new Float64Array(size),
      left: new Float64Array(size),
      carried: new Float64Array(size),
    };
  });
  const coarsest = made[0]!.matrix.pattern;
  const factor = coarsest.diagonal.length <= MOST_FACTORISED ? envelopeOf(coarsest) : null;
  return { levels: made, factor };
}

/**
 * Which blocks each level's matrix has. Where levels nest, a coarse mesh's own are all that the product P' A P makes; where
 * they do not, the product may join vertices that are no neighbours, so its own blocks are added.
 */
function patternsOf(levels: readonly ClothLevel[], hinges: boolean): BlockPattern[] {
  const patterns: BlockPattern[] = [];
  for (let l = levels.length - 1; l >= 0; l--) {
    const level = levels[l]!;
    const vertexCount = level.mesh.positions.length / 3;
    const finer = levels[l + 1];
    const own = hinges
      ? patternOfPatches(patchRows(hingePatches(level)), vertexCount)
      : patternOf(level.mesh.triangles, vertexCount);
    patterns.unshift(finer && isWeighted(finer) ? patternOfProduct(patterns[0]!, finer, own) : own);
  }
  return patterns;
}

const isWeighted = (parents: Parents): parents is WeightedParents => parents.parentWeights !== undefined;

/** Both ends of a fine block have two parents each: a quarter of the block goes to each pair; or three with weights. */
const blockCarry = (fine: BlockPattern, parents: Parents, coarse: BlockPattern): BlockCarry =>
  isWeighted(parents)
    ? { kind: 'weighted', product: weightedProduct(fine, parents, coarse) }
    : { kind: 'quarters', to: quarterBlocks(fine, parents.parents, coarse) };

function quarterBlocks(fine: BlockPattern, parents: Uint32Array, coarse: BlockPattern): Uint32Array {
  const quarters = new Uint32Array(4 * fine.columns.length);
  for (let row = 0; row < fine.diagonal.length; row++) {
    for (let b = fine.rowStart[row]!; b < fine.rowStart[row + 1]!; b++) {
      const column = fine.columns[b]!;
      for (let m = 0; m < 2; m++) {
        for (let n = 0; n < 2; n++) {
          quarters[4 * b + 2 * m + n] = blockAt(coarse, parents[2 * row + m]!, parents[2 * column + n]!);
        }
      }
    }
  }
  return quarters;
}

/**
 * Carries the matrix of level `top` down to all coarser levels (A_c = P' A P) and prepares smoothing and factor.
 *
 * @returns False where some level's matrix is not positive definite as far as this can tell.
 */
export function updateMultigrid({ levels, factor }: Multigrid, top: number): boolean {
  for (let l = top; l > 0; l--) {
    if (!invertDiagonal(levels[l]!.matrix, levels[l]!.inverseDiagonal)) return false;
    coarsen(levels[l]!, levels[l - 1]!.matrix.values);
  }
  const coarsest = levels[0]!;
  if (factor) return factorise(coarsest.matrix, factor);
  return invertDiagonal(coarsest.matrix, coarsest.inverseDiagonal);
}

/** P' A P, block by block. */
function coarsen({ matrix: { pattern, values }, carry }: MultigridLevel, into: Float64Array): void {
  if (carry?.kind === 'weighted') coarsenWeighted(pattern, values, carry.product, into);
  else if (carry) coarsenQuarters(values, carry.to, into);
}

function coarsenQuarters(values: Float64Array, quarters: Uint32Array, into: Float64Array): void {
  into.fill(0);
  for (let b = 0; 9 * b < values.length; b++) {
    const a = 9 * b;
    const v0 = 0.25 * values[a]!;
    const v1 = 0.25 * values[a + 1]!;
    const v2 = 0.25 * values[a + 2]!;
    const v3 = 0.25 * values[a + 3]!;
    const v4 = 0.25 * values[a + 4]!;
    const v5 = 0.25 * values[a + 5]!;
    const v6 = 0.25 * values[a + 6]!;
    const v7 = 0.25 * values[a + 7]!;
    const v8 = 0.25 * values[a + 8]!;
    for (let q = 4 * b; q < 4 * b + 4; q++) {
      const c = 9 * quarters[q]!;
      into[c]! += v0;
      into[c + 1]! += v1;
      into[c + 2]! += v2;
      into[c + 3]! += v3;
      into[c + 4]! += v4;
      into[c + 5]! += v5;
      into[c + 6]! += v6;
      into[c + 7]! += v7;
      into[c + 8]! += v8;
    }
  }
}

/**
 * One V-cycle: forward sweep, coarse correction, backward sweep; a symmetric approximation of A^-1 b.
 *
 * @param b - 3*V of level `top`.
 * @param into - Overwritten.
 * @see Briggs, Henson & McCormick, A Multigrid Tutorial, 2nd ed. (2000), ch. 3.
 */
export function vCycle(
  { levels, factor }: Multigrid,
  top: number,
  b: Float64Array,
  into: Float64Array,
): void {
  for (let l = top; l > 0; l--) {
    const { matrix, inverseDiagonal, follow, force, shift, left } = levels[l]!;
    const given = l === top ? b : force;
    forwardSweep(matrix, inverseDiagonal, given, { into: l === top ? into : shift, residual: left });
    restrict(follow, left, levels[l - 1]!.force);
  }
  const coarsest = levels[0]!;
  const given = top === 0 ? b : coarsest.force;
  const found = top === 0 ? into : coarsest.shift;
  if (factor) solveFactor(factor, given, found);
  else {
    forwardSweep(coarsest.matrix, coarsest.inverseDiagonal, given, { into: found, residual: coarsest.left });
    backwardSweep(coarsest.matrix, coarsest.inverseDiagonal, given, found);
  }
  for (let l = 1; l <= top; l++) {
    const { matrix, inverseDiagonal, follow, force, shift, carried } = levels[l]!;
    const own = l === top ? into : shift;
    prolong(follow, levels[l - 1]!.shift, carried);
    for (let i = 0; i < own.length; i++) own[i]! += carried[i]!;
    backwardSweep(matrix, inverseDiagonal, l === top ? b : force, own);
  }
}
