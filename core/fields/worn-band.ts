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
  const now = shown[tension];
  const [atLow, atHigh] = [ends.low.pull[tension], ends.high.pull[tension]];
  const slackNow = shown[slack];
  const [slackLow, slackHigh] = [ends.low.pull[slack], ends.high.pull[slack]];
  const low = now.slice();
  const high = now.slice();
  for (let t = 0; t < low.length; t++) {
    if (slackNow[t] === 1 && slackLow[t] === 1 && slackHigh[t] === 1) continue;
    const form = STRUCTURAL_SHARE * Math.max(0, shown.tensionAlong[t]!, shown.tensionAcross[t]!);
    const least = Math.min(now[t]!, atLow[t]!, atHigh[t]!);
    low[t] = Math.min(now[t]!, Math.max(0, least - form));
    high[t] = Math.max(now[t]!, atLow[t]!, atHigh[t]!) + form;
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
