import { LIES } from './hidden-length.ts';
import * as metric from './metric-energy.ts';
import { deriveSlack, isBelowRest, isHidden, letAllGo } from './slack-all-ways.ts';
import type { TensionLaw } from './tension-law.ts';
import { deriveOneWay, hideOneWay, ONE_WAY_SIZE } from './wrinkles-one-way.ts';

/** Length of the working array. */
export const FIELD_SIZE = ONE_WAY_SIZE;

/** In wrinkles: pulled along them only, or carrying nothing at all. */
export type Wrinkled = 'one way' | 'all ways';

/**
 * The energy of cloth that would be pushed, let go in wrinkles (a tension field):
 *
 * W(C) = min over D of W0(C + D) + ke |D|^2 / 8, D symmetric and not negative,
 *
 * C the metric of the cloth as it lies, C + D that of the cloth itself between the creases. Where one direction would be
 * pushed D = d n n', and what balances is (T + ke D / 2) n = 0 with T = 2 dW0/dC: only a pull along the wrinkles is
 * left. Where that would be a push too, D is whole and the cloth carries nothing. The term with ke (about c/1000) keeps
 * the system regular; as the minimum over a closed convex set the energy is once differentiable everywhere.
 *
 * First derivatives are those of W0 at C + D (envelope theorem), second ones follow by eliminating d and the angle of n.
 *
 * @param work - The metric of the cloth as it lies at A, B, M, where it was read and is not taut; energy and derivatives
 *   are left at the places of metric-energy.ts.
 * @see Pipkin, IMA J. Appl. Math. 36 (1986) 85; Steigmann, Proc. R. Soc. A 429 (1990) 141.
 */
export function relaxInWrinkles(law: TensionLaw, work: Float64Array): Wrinkled {
  for (let i = 0; i < 3; i++) work[LIES + i] = work[metric.A + i]!;
  if (isBelowRest(law, work) && slackens(law, work)) return 'all ways';
  for (let i = 0; i < 3; i++) work[metric.A + i] = work[LIES + i]!;
  if (hideOneWay(law, work)) {
    deriveOneWay(law, work);
    return 'one way';
  }
  letAllGo(law, work);
  deriveSlack(law, work);
  return 'all ways';
}

/** Whether nothing is left to pull once all is let go. */
function slackens(law: TensionLaw, work: Float64Array): boolean {
  letAllGo(law, work);
  if (!isHidden(work)) return false;
  deriveSlack(law, work);
  return true;
}
