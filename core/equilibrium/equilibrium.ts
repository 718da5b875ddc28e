import type { DistanceField } from '../body/distance-field.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import type { ClothLevel } from '../garment/garment.ts';
import type { BendingTensor } from './bending-force.ts';
import type { PreparedCloth } from './prepare-cloth.ts';

/** A garment to be settled. */
export interface EquilibriumProblem {
  /** Coarsest first. */
  readonly levels: readonly ClothLevel[];
  /** The garment's fabrics; the first is the main one. */
  readonly laws: readonly TensionLaw[];
  readonly body: DistanceField;
  /** Foundation stiffness under each vertex of each level, Pa/m. */
  readonly foundation: readonly Float64Array[];
  /** Coulomb coefficient between cloth and skin; 0 slides freely. */
  readonly friction: number;
  /** Per level, 3*V: 1 where a coordinate is held. */
  readonly held?: readonly Uint8Array[];
  /** Finest positions to start from instead of the laid ones (a warm start skips the coarse levels); 3*V, m. */
  readonly start?: Float64Array;
  /** Layouts of an earlier search on cloth of the same triangles; made anew if left out. */
  readonly prepared?: PreparedCloth;
  /** Normal forces to start the friction with, of an earlier rest of the same cloth, N; V of the finest level. */
  readonly startNormalForce?: Float64Array;
  /** How far the skin has moved in under each finest vertex for other reasons than its own press, m; V. 0 if left out. */
  readonly offset?: Float64Array;
  /** How far the middle of the cloth rides above the skin, m: half its thickness and whole layers below. 0 if left out. */
  readonly lift?: number;
  /** Rigidity of the main fabric against bending; left out, the cloth folds freely. */
  readonly bending?: BendingTensor;
  /** Areal density of the main fabric, kg/m^2; left out, it weighs nothing. */
  readonly arealDensity?: number;
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
  /** Signed distance of the cloth's inner side from the undeformed skin; negative where the flesh has given way; V, m. */
  readonly distance: Float64Array;
  /** The offset of the problem: without contact the skin stands this far in (a bulge: below 0); V, m. */
  readonly offset: Float64Array;
  /** Normal force on each vertex, N; V. With friction those that the friction was taken from. */
  readonly normalForce: Float64Array;
}
