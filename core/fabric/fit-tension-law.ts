import { Fault } from '../fault/fault.ts';
import type { FaultFacts } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { percentFromRatio } from '../units/units.ts';
import { COUPLING_FADE, sampleAxes } from './assemble-law.ts';
import type { AxisCurve } from './axis-curve.ts';
import { secantAt } from './axis-curve.ts';
import type { ForceReading } from './bench-readings.ts';
import { checkBiasMiss } from './bias-miss.ts';
import type { BiasReadings } from './bias-miss.ts';
import { couplingFromHeldWidth, LARGEST_DISAGREEMENT, reciprocalCoupling } from './coupling.ts';
import type { CouplingEvidence, Reciprocity } from './coupling.ts';
import type { Branch } from './fabric.ts';
import { loweredToStable, lawWith } from './stable-law.ts';
import type { LawSource } from './stable-law.ts';
import type { ForceCurve } from './strip-curves.ts';
import type { MeanForce } from './strip-means.ts';
import type { TensionLaw } from './tension-law.ts';

/** The cleaned curves of one branch. */
export interface FitInput {
  readonly branch: Branch;
  readonly warp: AxisCurve & { readonly set: number };
  readonly weft: AxisCurve & { readonly set: number };
  readonly bias: ForceCurve;
  /** Extension of the first force reading beyond 0 on warp or weft, whichever is later. */
  readonly firstRead: number;
  /** The bias strip's readings, and the width they are per, for words and for checking. */
  readonly biasReadings: readonly ForceReading[];
  readonly width: number;
  /** A step in the force readings, as of a strip that slipped, if there is one. */
  readonly suspect: FaultFacts['bench/unstable']['suspect'];
  /** Strip with its width held; load branch only. */
  readonly held: { readonly direction: 'warp' | 'weft'; readonly load: readonly MeanForce[] } | null;
  /** Factor by which a held-width reading corrected reciprocity on the other branch. */
  readonly couplingFactor: number;
}

export interface FittedLaw {
  readonly law: TensionLaw;
  /** The strips behind the law, for laws of another coupling. */
  readonly source: LawSource;
  readonly coupling: CouplingEvidence;
  /** True where the first force was read beyond 5 %, or a strip hardly pulled before. */
  readonly lateStart: boolean;
  readonly findings: readonly Finding[];
}

/** A way back that describes no stable fabric: it is left out, and the way out stands. */
export interface NoLaw {
  readonly law: null;
  readonly findings: readonly Finding[];
}

/** Extension after which a first force reading counts as late. */
const LATE_START = 0.05 + 1e-9;
/** Secants are compared at x = 0.1 (10.5 % extension); at 0.2 where the first 5 % hardly pulls. */
const SECANT_AT = 0.1;
const SECANT_AFTER_RUN_IN = 0.2;
/** The first 5 % is a run-in where its stiffness is below this share of that over 20 %. */
const RUN_IN_SHARE = 0.2;
const LARGEST_CONTRACTION_PRODUCT = 0.9;
/** Widths that disagree by more are named. */
const DISAGREEMENT_TO_NAME = 1.35;

/**
 * Fits the law to one branch of strip curves.
 *
 * Coupling from reciprocity of stiffness and narrowing (or from a strip of held width), both axes so that the strips
 * come back exactly, shear from the bias strip; the coupling is lowered in steps of 10 % while the law is unstable.
 * A way back that stays unstable is left out.
 *
 * @throws {Fault} `bench/gains-no-area`, `bench/held-below-free`, `bench/unstable`, `bench/bias-contradicts`.
 */
export function fitTensionLaw(input: FitInput): FittedLaw | NoLaw {
  const findings: Finding[] = [];
  const at = secantPlace(input, findings);
  const reciprocity = reciprocalCoupling(input.warp, input.weft, at);
  checkReciprocity(input, reciprocity, at, findings);
  const held = input.held === null ? null : heldCoupling(input, reciprocity.coupling);
  const wanted = held ?? reciprocity.coupling * input.couplingFactor;
  const source: LawSource = {
    axes: sampleAxes(input.warp, input.weft, { warp: input.warp.set, weft: input.weft.set }),
    bias: input.bias,
  };
  const { law, share, unstableShare } = loweredToStable(source, wanted);
  const sharePercent = percentFromRatio(unstableShare);
  if (law === null) {
    checkBiasMiss(biasOf(input), lawWith(source, wanted));
    const facts = { sharePercent, couplingPercent: 50 };
    if (input.branch === 'load') throw new Fault('bench/unstable', { ...facts, suspect: input.suspect });
    return { law: null, findings: [{ code: 'bench/return-unstable', facts }] };
  }
  if (share < 1) {
    const facts = { branch: input.branch, couplingPercent: percentFromRatio(share), sharePercent };
    findings.push({ code: 'bench/coupling-lowered', facts });
  }
  findings.push(...checkBiasMiss(biasOf(input), law));
  return {
    law,
    source,
    coupling: {
      from: held === null && input.couplingFactor === 1 ? 'reciprocity' : 'held width',
      ...(input.held === null ? {} : { heldDirection: input.held.direction }),
      disagreement: reciprocity.disagreement,
      factor: reciprocity.coupling > 0 ? (wanted * share) / reciprocity.coupling : 1,
      secantAt: at,
    },
    lateStart: at > SECANT_AT || input.firstRead > LATE_START,
    findings,
  };
}

const biasOf = ({ branch, biasReadings, width, bias }: FitInput): BiasReadings => ({
  branch,
  readings: biasReadings,
  width,
  set: bias.set,
});

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
    .map(({ extension, force, deviation }) => {
      const tau = (force / input.width) * (1 + extension);
      const x = Math.log(1 + extension) - free.set;
      return [x, tau, force > 0 ? (deviation ?? 0) / force : 0] as const;
    })
    .filter(([x]) => x > 0 && x <= free.measuredTo + 1e-9);
  for (const [x, tau] of readings) {
    if (tau >= 0.97 * free.tau(x)) continue;
    throw new Fault('bench/held-below-free', {
      direction,
      extensionPercent: percentFromRatio(Math.exp(x + free.set) - 1),
      heldN: (tau / Math.exp(x + free.set)) * input.width,
      freeN: (free.tau(x) / Math.exp(x + free.set)) * input.width,
    });
  }
  return couplingFromHeldWidth({ free, readings, expected, fade: COUPLING_FADE });
}
