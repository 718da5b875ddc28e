import type { DistanceField } from '../body/distance-field.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import type { ClothLevel } from '../garment/garment.ts';

/** A garment to be settled. */
export interface EquilibriumProblem {
  /** Coarsest first. */
  readonly levels: readonly ClothLevel[];
  readonly law: TensionLaw;
  readonly body: DistanceField;
  /** Foundation stiffness under each vertex of each level, Pa/m. */
  readonly foundation: readonly Float64Array[];
  /** Coulomb coefficient between cloth and skin; 0 slides freely. */
  readonly friction: number;
  /** Per level, 3*V: 1 where a coordinate is held. */
  readonly held?: readonly Uint8Array[];
  /** Finest positions to start from instead of the laid ones (a warm start skips the coarse levels); 3*V, m. */
  readonly start?: Float64Array;
  /** Residual at which the garment counts as at rest; 1e-4 if left out. */
  readonly tolerance?: number;
}

/** How far the search for rest has come. */
export interface SettleProgress {
  /** 0 = coarsest. */
  readonly level: number;
  readonly levelCount: number;
  readonly iteration: number;
  readonly residual: number;
}

/** Where the garment came to rest. */
export interface Equilibrium {
  /** Finest level; 3*V, m. */
  readonly positions: Float64Array;
  /** Unbalanced force over contact force (both root-sum-square). */
  readonly residual: number;
  /** The residual asked for. */
  readonly tolerance: number;
  readonly atRest: boolean;
  /** Newton steps and linear iterations, per level. */
  readonly newtonSteps: readonly number[];
  readonly linearIterations: readonly number[];
  /** Force of the body on the cloth per vertex; 3*V, N. */
  readonly contactForce: Float64Array;
  /** Signed distance from the undeformed skin per vertex; negative where the flesh has given way; V, m. */
  readonly distance: Float64Array;
}
