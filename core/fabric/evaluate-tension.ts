import * as metric from './metric-energy.ts';
import { metricStiffness, metricStress } from './metric-stress.ts';
import { addPackedFolds, PACKED_LOG } from './packed-folds.ts';
import { TAUT_SIZE, tautStiffness, tautStress } from './taut-stress.ts';
import { FIELD_SIZE, relaxInWrinkles } from './tension-field.ts';
import type { TensionLaw, TensionResponse } from './tension-law.ts';
import * as yarn from './yarn-energy.ts';

/** In wrinkled cloth a yarn direction that carries less than this share of the whole pull counts as slack. */
const SLACK_SHARE = 0.05;

/** A response to be filled by {@link evaluateTension}. */
export function createTensionResponse(): TensionResponse {
  return {
    energy: 0,
    stress: new Float64Array(6),
    stiffness: new Float64Array(36),
    wrinkled: false,
    slackWarp: false,
    slackWeft: false,
    beyondReadings: false,
    work: new Float64Array(Math.max(TAUT_SIZE, FIELD_SIZE)),
  };
}

/**
 * Energy, stress and (on request) stiffness of the law at one deformation, pulled or let go.
 *
 * P = dW/dF, K = d2W/dF2. Where the cloth would be pushed in any direction it lies in wrinkles instead and carries what
 * a tension field carries (tension-field.ts). K is exact and possibly indefinite: whoever solves with it projects it.
 *
 * @param f - Warp column, then weft column of the deformation; 6.
 * @param into - Overwritten; `stiffness` only when asked for.
 */
export function evaluateTension(
  law: TensionLaw,
  f: Float64Array,
  withStiffness: boolean,
  into: TensionResponse,
): void {
  const { work, stress, stiffness } = into;
  readDeformation(law, f, into);
  const warpPacked = work[yarn.X]! < PACKED_LOG;
  const weftPacked = work[yarn.Y]! < PACKED_LOG;
  if (metric.isTaut(work)) {
    into.energy = work[yarn.ENERGY]!;
    tautStress(work, f, stress);
    if (withStiffness) tautStiffness(work, stiffness);
  } else {
    const wrinkles = relaxInWrinkles(law, work);
    into.energy = work[metric.ENERGY]!;
    into.wrinkled = true;
    metricStress(work, f, stress);
    if (withStiffness) metricStiffness(work, f, stiffness);
    into.slackWarp = wrinkles === 'all ways' || carriesNothing(into, f, 0);
    into.slackWeft = wrinkles === 'all ways' || carriesNothing(into, f, 3);
  }
  if (warpPacked) addPackedFolds(law, f, { yarn: 0, withStiffness }, into);
  if (weftPacked) addPackedFolds(law, f, { yarn: 3, withStiffness }, into);
}

/**
 * Energy and stress of the law as it is written, also where it pushes: for whoever asks what a part of it does while
 * another keeps the cloth taut.
 *
 * @param f - Deformation; 6.
 * @param into - Overwritten but for its stiffness.
 */
export function evaluateUnrelaxed(law: TensionLaw, f: Float64Array, into: TensionResponse): void {
  readDeformation(law, f, into);
  into.energy = into.work[yarn.ENERGY]!;
  tautStress(into.work, f, into.stress);
}

/** Reads the law at a deformation; taut until shown otherwise. */
function readDeformation(law: TensionLaw, f: Float64Array, into: TensionResponse): void {
  const { work } = into;
  work[metric.A] = f[0]! * f[0]! + f[1]! * f[1]! + f[2]! * f[2]!;
  work[metric.B] = f[3]! * f[3]! + f[4]! * f[4]! + f[5]! * f[5]!;
  work[metric.M] = f[0]! * f[3]! + f[1]! * f[4]! + f[2]! * f[5]!;
  metric.readMetric(law, work);
  into.wrinkled = false;
  into.slackWarp = false;
  into.slackWeft = false;
  into.beyondReadings = work[metric.LU]! > law.measuredTo.warp || work[metric.LV]! > law.measuredTo.weft;
}

/**
 * Whether the yarn whose column begins at `at` carries next to nothing: a' N a against the trace of N, N = P F'.
 */
function carriesNothing({ stress }: TensionResponse, f: Float64Array, at: 0 | 3): boolean {
  let trace = 0;
  for (let i = 0; i < 6; i++) trace += stress[i]! * f[i]!;
  const along = (column: number): number =>
    stress[column]! * f[at]! + stress[column + 1]! * f[at + 1]! + stress[column + 2]! * f[at + 2]!;
  const across = (column: number): number =>
    f[column]! * f[at]! + f[column + 1]! * f[at + 1]! + f[column + 2]! * f[at + 2]!;
  const pull = along(0) * across(0) + along(3) * across(3);
  return pull < SLACK_SHARE * trace * across(at);
}
