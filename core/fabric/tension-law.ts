import type { EnergyTable } from './energy-table.ts';

/** Equally spaced values to start a search from; straight between and beyond them. */
export interface StartTable {
  readonly start: number;
  readonly step: number;
  readonly values: Float64Array;
}

/**
 * A knit's energy per rest area under stretch along warp and weft and under shear between them:
 *
 * W = phi_u(x) + phi_v(y) + psi(z) + S(g), with x = ln lu, y = ln lv (lu, lv: stretch ratios along warp and weft),
 * g the angle by which the two have left the right angle, z = x + y + ln cos g = ln of the area ratio,
 * psi'' = c exp(-r z). Where a yarn direction would be pushed it is let go instead (see relaxed-energy.ts).
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
  /** Stiffness left in a slack direction so that equilibrium stays findable, N/m; about a thousandth of c. */
  readonly slackStiffness: number;
  /** A stiffness typical of the fabric, N/m; tolerances are taken from it. */
  readonly typicalStiffness: number;
  /** phi_u and phi_v against ln of the stretch ratio; S against |g| (rad). N/m. */
  readonly warp: EnergyTable;
  readonly weft: EnergyTable;
  readonly shear: EnergyTable;
  /** Where the searches for a slack direction's own length start. */
  readonly natural: {
    /** ln lu of a slack warp against y + k (k = ln cos g), and ln lv of a slack weft against x + k. */
    readonly warp: StartTable;
    readonly weft: StartTable;
    /** Both slack: ln lu and ln lv against k. */
    readonly bothWarp: StartTable;
    readonly bothWeft: StartTable;
  };
}

/** What the fabric answers to one deformation. Reuse one across a loop. */
export interface TensionResponse {
  /** Energy per rest area, N/m. */
  energy: number;
  /** dW/dF, 6: by warp column (3), by weft column (3). Force per rest width, N/m. */
  readonly stress: Float64Array;
  /** d2W/dF2, row-major 6x6, N/m. */
  readonly stiffness: Float64Array;
  /** True where a yarn direction carries nothing. */
  slackWarp: boolean;
  slackWeft: boolean;
  /** True beyond the last reading of either direction. */
  beyondReadings: boolean;
  /** Working room of the evaluation; its content means nothing outside. */
  readonly work: Float64Array;
}
