import { createTensionResponse, evaluateTension } from './evaluate-tension.ts';
import type { TensionLaw, TensionResponse } from './tension-law.ts';

/** Stretch and tension along the yarns at one deformation. Reuse one across a loop. */
export interface TensionState {
  /** lu, lv: length over unstretched length. */
  warpStretch: number;
  weftStretch: number;
  /** Force per CURRENT width across each yarn direction, N/m: what presses on a body. */
  warpTension: number;
  weftTension: number;
  /** True where some direction of the cloth carries nothing. */
  wrinkled: boolean;
  slackWarp: boolean;
  slackWeft: boolean;
  /** True beyond the last reading of either direction. */
  beyondReadings: boolean;
  /** Working room. */
  readonly response: TensionResponse;
}

/** A state to be filled by {@link tensionState}. */
export function createTensionState(): TensionState {
  return {
    warpStretch: 1,
    weftStretch: 1,
    warpTension: 0,
    weftTension: 0,
    wrinkled: false,
    slackWarp: false,
    slackWeft: false,
    beyondReadings: false,
    response: createTensionResponse(),
  };
}

/**
 * Stretch ratios and tension per current width.
 *
 * The tension in the deformed sheet is N = (P_u fu' + P_v fv') / J, J = |fu x fv|; along the warp a'N a, a = fu/lu.
 * A bench reports force per ORIGINAL width; a strip that has narrowed to a share w carries T/w per current width.
 *
 * @param f - Warp column, then weft column of the deformation; 6.
 * @param into - Overwritten.
 */
export function tensionState(law: TensionLaw, f: Float64Array, into: TensionState): void {
  const { response } = into;
  evaluateTension(law, f, false, response);
  const p = response.stress;
  const uu = f[0]! ** 2 + f[1]! ** 2 + f[2]! ** 2;
  const vv = f[3]! ** 2 + f[4]! ** 2 + f[5]! ** 2;
  const uv = f[0]! * f[3]! + f[1]! * f[4]! + f[2]! * f[5]!;
  const area = Math.sqrt(Math.max(uu * vv - uv * uv, 1e-24));
  const puFu = p[0]! * f[0]! + p[1]! * f[1]! + p[2]! * f[2]!;
  const pvFu = p[3]! * f[0]! + p[4]! * f[1]! + p[5]! * f[2]!;
  const puFv = p[0]! * f[3]! + p[1]! * f[4]! + p[2]! * f[5]!;
  const pvFv = p[3]! * f[3]! + p[4]! * f[4]! + p[5]! * f[5]!;
  into.warpStretch = Math.sqrt(uu);
  into.weftStretch = Math.sqrt(vv);
  into.warpTension = uu > 0 ? (puFu * uu + pvFu * uv) / (area * uu) : 0;
  into.weftTension = vv > 0 ? (puFv * uv + pvFv * vv) / (area * vv) : 0;
  into.wrinkled = response.wrinkled;
  into.slackWarp = response.slackWarp;
  into.slackWeft = response.slackWeft;
  into.beyondReadings = response.beyondReadings;
}
