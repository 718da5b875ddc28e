import { createTensionResponse, evaluateTension } from './evaluate-tension.ts';
import type { TensionLaw, TensionResponse } from './tension-law.ts';

/** Stretch and tension along the yarns at one deformation. */
export interface TensionState {
  /** lu, lv: length over unstretched length. */
  readonly stretchWarp: number;
  readonly stretchWeft: number;
  /** Force per CURRENT width across each yarn direction, N/m: what presses on a body. */
  readonly tensionWarp: number;
  readonly tensionWeft: number;
  readonly slackWarp: boolean;
  readonly slackWeft: boolean;
  readonly beyondReadings: boolean;
}

/**
 * Stretch ratios and tension per current width.
 *
 * The tension in the deformed sheet is N = (P_u fu' + P_v fv') / J, J = |fu x fv|; along the warp a'N a, a = fu/lu.
 * A bench reports force per ORIGINAL width; a strip that has narrowed to a share w carries T/w per current width.
 *
 * @param f - Warp column, then weft column; 6.
 * @param response - Working room, to spare an allocation in loops; overwritten.
 */
export function tensionState(
  law: TensionLaw,
  f: Float64Array,
  response: TensionResponse = createTensionResponse(),
): TensionState {
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
  return {
    stretchWarp: Math.sqrt(uu),
    stretchWeft: Math.sqrt(vv),
    tensionWarp: uu > 0 ? (puFu * uu + pvFu * uv) / (area * uu) : 0,
    tensionWeft: vv > 0 ? (puFv * uv + pvFv * vv) / (area * vv) : 0,
    slackWarp: response.slackWarp,
    slackWeft: response.slackWeft,
    beyondReadings: response.beyondReadings,
  };
}
