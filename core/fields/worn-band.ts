import { STRUCTURAL_SHARE } from '../fabric/coupling-band.ts';
import type { CouplingEnd, CouplingEnds } from './coupling-ends.ts';
import type { FieldBand } from './field.ts';
import { skinPressure, type Contact } from './skin-pressure.ts';
import type { ClothPull } from './stretch-and-tension.ts';

/**
 * The band of a tension, triangle by triangle: the tensions of both ends and the one shown, and beyond them what the
 * law's form may miss.
 *
 * low = min(T, T_low, T_high) - s T_max, high = max(...) + s T_max, with T_max the greater tension of both directions at
 * the place: what the form misses across was measured as a share of the pull along. Where the direction is slack under
 * every law it carries nothing, and its band is nothing. Cloth does not push: low stops at zero.
 *
 * @returns N/m; T each.
 */
export function tensionBand(direction: 'along' | 'across', shown: ClothPull, ends: CouplingEnds): FieldBand {
  const [tension, slack] =
    direction === 'along'
      ? (['tensionAlong', 'slackAlong'] as const)
      : (['tensionAcross', 'slackAcross'] as const);
  const pulls = [shown, ends.low.pull, ends.high.pull];
  const low = shown[tension].slice();
  const high = shown[tension].slice();
  for (let t = 0; t < low.length; t++) {
    let isSlack = true;
    let least = Infinity;
    let most = -Infinity;
    for (const pull of pulls) {
      if (pull[slack][t] !== 1) isSlack = false;
      least = Math.min(least, pull[tension][t]!);
      most = Math.max(most, pull[tension][t]!);
    }
    if (isSlack) continue;
    const form = STRUCTURAL_SHARE * Math.max(0, shown.tensionAlong[t]!, shown.tensionAcross[t]!);
    low[t] = Math.min(shown[tension][t]!, Math.max(0, least - form));
    high[t] = most + form;
  }
  return { low, high };
}

/**
 * The band of the pressure on skin, vertex by vertex: what the body would have to press at both ends and what it does,
 * and beyond them what the law's form may miss, as a share of the pressure itself.
 *
 * @param pressure - As shown, Pa; V.
 * @returns Pa; V each. Zero off the skin: where nothing touches, the shape as it stands says nothing of another coupling.
 */
export function skinPressureBand(pressure: Float64Array, contact: Contact, ends: CouplingEnds): FieldBand {
  const atEnd = ({ press }: CouplingEnd): Float64Array =>
    'force' in press
      ? skinPressure({ ...contact, force: press.force })
      : pressure.map((value, v) => Math.max(0, value + press.change[v]!));
  const atLow = atEnd(ends.low);
  const atHigh = atEnd(ends.high);
  const low = pressure.map((value, v) =>
    value > 0 ? (1 - STRUCTURAL_SHARE) * Math.min(value, atLow[v]!, atHigh[v]!) : 0,
  );
  const high = pressure.map((value, v) =>
    value > 0 ? (1 + STRUCTURAL_SHARE) * Math.max(value, atLow[v]!, atHigh[v]!) : 0,
  );
  return { low, high };
}
