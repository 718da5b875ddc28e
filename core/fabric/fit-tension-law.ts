import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { percentFromRatio } from '../units/units.ts';
import { assembleLaw, COUPLING_FADE } from './assemble-law.ts';
import type { LawParts } from './assemble-law.ts';
import type { AxisCurve } from './axis-curve.ts';
import { secantAt } from './axis-curve.ts';
import type { ForceReading } from './bench-readings.ts';
import { shearFromBias } from './bias-shear.ts';
import type { Branch } from './fabric.ts';
import { couplingFromHeldWidth, LARGEST_DISAGREEMENT, reciprocalCoupling } from './coupling.ts';
import type { CouplingEvidence, Reciprocity } from './coupling.ts';
import { unstableShare } from './stability.ts';
import type { ForceCurve } from './strip-curves.ts';
import type { TensionLaw } from './tension-law.ts';
import { pullStrips, STRIP_ANGLE } from './virtual-strip.ts';

/** The cleaned curves of one branch. */
export interface FitInput {
  readonly branch: Branch;
  readonly warp: AxisCurve & { readonly set: number };
  readonly weft: AxisCurve & { readonly set: number };
  readonly bias: ForceCurve;
  /** The bias strip's readings, and the width they are per, for words and for checking. */
  readonly biasReadings: readonly ForceReading[];
  readonly width: number;
  /** Strip with its width held; load branch only. */
  readonly held: { readonly direction: 'warp' | 'weft'; readonly load: readonly ForceReading[] } | null;
  /** Factor by which a held-width reading corrected reciprocity on the other branch. */
  readonly couplingFactor: number;
}

export interface FittedLaw {
  readonly law: TensionLaw;
  readonly coupling: CouplingEvidence;
  readonly findings: readonly Finding[];
}

/** Secants are compared at x = 0.1 (10.5 % extension); at 0.2 where the first 5 % hardly pulls. */
const SECANT_AT = 0.1;
const SECANT_AFTER_RUN_IN = 0.2;
/** The first 5 % is a run-in where its stiffness is below this share of that over 20 %. */
const RUN_IN_SHARE = 0.2;
const LARGEST_CONTRACTION_PRODUCT = 0.9;
/** Widths that disagree by more are named. */
const DISAGREEMENT_TO_NAME = 1.35;
const UNSTABLE_SHARE = 0.01;
const BIAS_MISS_TO_NAME = 0.02;
const BIAS_MISS_TO_REFUSE = 0.1;

/**
 * Fits the law to one branch of strip curves.
 *
 * Coupling from reciprocity of stiffness and narrowing (or from a strip of held width), both axes so that the strips
 * come back exactly, shear from the bias strip; the coupling is lowered in steps of 10 % while the law is unstable.
 *
 * @throws {Fault} `bench/gains-no-area`, `bench/held-below-free`, `bench/unstable`, `bench/bias-contradicts`.
 */
export function fitTensionLaw(input: FitInput): FittedLaw {
  const findings: Finding[] = [];
  const at = secantPlace(input, findings);
  const reciprocity = reciprocalCoupling(input.warp, input.weft, at);
  checkReciprocity(input, reciprocity, at, findings);
  const held = input.held === null ? null : heldCoupling(input, reciprocity.coupling);
  const wanted = held ?? reciprocity.coupling * input.couplingFactor;
  const { law, share } = stableLaw(input, wanted, findings);
  findings.push(...nameBiasMiss(input, law));
  return {
    law,
    coupling: {
      from: held === null && input.couplingFactor === 1 ? 'reciprocity' : 'held width',
      disagreement: reciprocity.disagreement,
      factor: reciprocity.coupling > 0 ? (wanted * share) / reciprocity.coupling : 1,
      secantAt: at,
    },
    findings,
  };
}

/** Where to compare secants; later where a strip hardly pulls at first. */
function secantPlace(input: FitInput, findings: Finding[]): number {
  let at = SECANT_AT;
  for (const direction of ['warp', 'weft'] as const) {
    const curve = input[direction];
    if (curve.measuredTo < SECANT_AFTER_RUN_IN) continue;
    const early = secantAt(curve, 0.05).stiffness;
    if (early >= RUN_IN_SHARE * secantAt(curve, SECANT_AFTER_RUN_IN).stiffness) continue;
    at = SECANT_AFTER_RUN_IN;
    const atPercent = percentFromRatio(Math.exp(at) - 1);
    if (input.branch === 'load')
      findings.push({ code: 'bench/slack-run-in', facts: { direction, atPercent } });
  }
  return Math.min(at, input.warp.measuredTo, input.weft.measuredTo);
}

/** Guards G3 and G4: widths that contradict each other or leave no gain in area. */
function checkReciprocity(input: FitInput, found: Reciprocity, at: number, findings: Finding[]): void {
  if (found.contractionProduct >= LARGEST_CONTRACTION_PRODUCT) {
    throw new Fault('bench/gains-no-area', {
      warpContraction: secantAt(input.warp, at).contraction,
      weftContraction: secantAt(input.weft, at).contraction,
      atPercent: percentFromRatio(Math.exp(at) - 1),
    });
  }
  if (input.branch !== 'load') return;
  const facts = { factor: found.disagreement };
  if (found.disagreement > LARGEST_DISAGREEMENT) findings.push({ code: 'bench/widths-contradict', facts });
  else if (found.disagreement > DISAGREEMENT_TO_NAME) findings.push({ code: 'bench/widths-disagree', facts });
}

/** The coupling that a strip of held width asks for. */
function heldCoupling(input: FitInput, expected: number): number {
  const { direction, load } = input.held!;
  const free = input[direction];
  const readings = load
    .filter(({ extension }) => extension > 0 && Math.log(1 + extension) <= free.measuredTo + 1e-9)
    .map(
      ({ extension, force }) => [Math.log(1 + extension), (force / input.width) * (1 + extension)] as const,
    );
  for (const [x, tau] of readings) {
    if (tau >= 0.97 * free.tau(x)) continue;
    throw new Fault('bench/held-below-free', {
      direction,
      extensionPercent: percentFromRatio(Math.exp(x) - 1),
      heldN: (tau / Math.exp(x)) * input.width,
      freeN: (free.tau(x) / Math.exp(x)) * input.width,
    });
  }
  return couplingFromHeldWidth({ free, readings, expected, fade: COUPLING_FADE });
}

/** Guard G5: lowers the coupling until the law is stable; at half of it the readings are refused. */
function stableLaw(
  input: FitInput,
  coupling: number,
  findings: Finding[],
): { law: TensionLaw; share: number } {
  let first = 0;
  for (let tenths = 10; tenths >= 5; tenths--) {
    const share = tenths / 10;
    const law = lawWith(input, coupling * share);
    if (tenths === 10) refuseWeakBias(input, law);
    const unstable = unstableShare(law);
    if (tenths === 10) first = unstable;
    if (unstable <= UNSTABLE_SHARE) {
      if (tenths < 10) {
        findings.push({
          code: 'bench/coupling-lowered',
          facts: { couplingPercent: percentFromRatio(share), sharePercent: percentFromRatio(first) },
        });
      }
      return { law, share };
    }
  }
  throw new Fault('bench/unstable', { sharePercent: percentFromRatio(first), couplingPercent: 50 });
}

/** The law with a given coupling: axes from the strips, then shear from the bias strip. */
function lawWith(input: FitInput, coupling: number): TensionLaw {
  const { warp, weft, bias } = input;
  const parts = { warp, weft, coupling, set: { warp: warp.set, weft: weft.set } } satisfies Omit<
    LawParts,
    'shear'
  >;
  const unsheared = assembleLaw({ ...parts, shear: () => 0 });
  return assembleLaw({ ...parts, shear: shearFromBias(unsheared, bias).slope });
}

/** A bias reading and what the fitted law pulls there. */
interface BiasMiss {
  readonly extensionPercent: number;
  readonly forceN: number;
  readonly lawN: number;
  /** lawN / forceN - 1. */
  readonly miss: number;
}

/** Pulls the bias strip of a law over the readings; the one missed most. */
function worstBiasMiss(input: FitInput, law: TensionLaw): BiasMiss | null {
  const pulled = input.biasReadings.filter(
    ({ extension }) => Math.log(1 + extension) > input.bias.set + 0.05,
  );
  const strips = pullStrips(
    law,
    STRIP_ANGLE.bias,
    pulled.map(({ extension }) => 1 + extension),
  );
  const misses = pulled.map(({ extension, force }, i) => {
    const lawN = strips[i]!.tension * input.width;
    return { extensionPercent: percentFromRatio(extension), forceN: force, lawN, miss: lawN / force - 1 };
  });
  return misses.toSorted((a, b) => Math.abs(b.miss) - Math.abs(a.miss))[0] ?? null;
}

/** Guard G6: a bias strip that pulls less than warp, weft and their narrowing alone, without any shear. */
function refuseWeakBias(input: FitInput, law: TensionLaw): void {
  const worst = worstBiasMiss(input, law);
  if (input.branch !== 'load' || worst === null || worst.miss <= BIAS_MISS_TO_REFUSE) return;
  throw new Fault('bench/bias-contradicts', {
    extensionPercent: worst.extensionPercent,
    forceN: worst.forceN,
    leastForceN: worst.lawN,
  });
}

/** Names the bias reading that the fitted law misses, if it does. */
function nameBiasMiss(input: FitInput, law: TensionLaw): Finding[] {
  const worst = worstBiasMiss(input, law);
  if (worst === null || Math.abs(worst.miss) <= BIAS_MISS_TO_NAME) return [];
  const { miss: _miss, ...facts } = worst;
  return [{ code: 'bench/bias-missed', facts: { branch: input.branch, ...facts } }];
}
