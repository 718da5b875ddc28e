import type { EnergyTable } from './energy-table.ts';

/**
 * A knit's energy per rest area under stretch along warp and weft and under shear between them:
 *
 * W = phi_u(x) + phi_v(y) + psi(z) + S(g), with x = ln lu, y = ln lv (lu, lv: stretch ratios along warp and weft),
 * g the angle by which the two have left the right angle, z = x + y + ln cos g = ln of the area ratio,
 * psi'' = c exp(-r z). Where the cloth would be pushed it is let go in wrinkles instead (see tension-field.ts).
 *
 * For any c and r the phi can be chosen so that strip forces and strip widths come back exactly; they are tabled here.
 * Plain data: numbers and typed arrays, so that it crosses a worker's border.
 */
export interface TensionLaw {
  /** Stretch ratios beyond which the law is extrapolated. */
  readonly measuredTo: { readonly warp: number; readonly weft: number };
  /** ln of the stretch ratio at which force sets in: 0 on load, the growth (set) on return. */
  readonly set: { readonly warp: number; readonly weft: number };
  /** c, N/m: how strongly the law resists a change of area. 0 for a fabric that does not narrow. */
  readonly coupling: number;
  /** r, how fast that resistance fades as the area grows. */
  readonly couplingFade: number;
  /** Stiffness left across wrinkles so that equilibrium stays findable, N/m; about a thousandth of c. */
  readonly slackStiffness: number;
  /** A stiffness typical of the fabric, N/m; tolerances are taken from it. */
  readonly typicalStiffness: number;
  /** phi_u and phi_v against ln of the stretch ratio; S against |g| (rad). N/m. */
  readonly warp: EnergyTable;
  readonly weft: EnergyTable;
  readonly shear: EnergyTable;
}

/** What the fabric answers to one deformation. Reuse one across a loop. */
export interface TensionResponse {
  /** Energy per rest area, N/m. */
  energy: number;
  /** dW/dF, 6: by warp column (3), by weft column (3). Force per rest width, N/m. */
  readonly stress: Float64Array;
  /** d2W/dF2, row-major 6x6, N/m. */
  readonly stiffness: Float64Array;
  /** True where the cloth lies in wrinkles: some direction, of the yarns or between them, carries nothing. */
  wrinkled: boolean;
  /** True where a yarn direction of wrinkled cloth carries nothing, or next to nothing. */
  slackWarp: boolean;
  slackWeft: boolean;
  /** True beyond the last reading of either direction. */
  beyondReadings: boolean;
  /** Working room of the evaluation; its content means nothing outside. */
  readonly work: Float64Array;
}
