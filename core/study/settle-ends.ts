import type { SettleProgress } from '../equilibrium/equilibrium.ts';
import { prolong, prolongScalar } from '../equilibrium/prolongation.ts';
import { settle } from '../equilibrium/settle.ts';
import type { LawPair } from '../fabric/fabric.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import type { EndMove, EndMoves } from '../fields/coupling-ends.ts';
import { canCarry, carriedRest, levelRest, type LevelRest } from './level-rest.ts';
import { problemOf, told, type FabricQuestion, type FabricRest, type RestBefore } from './settle-fabric.ts';

/** How many levels below the finest the ends are settled: how a garment sits otherwise varies slowly over it. */
const COARSER = 2;
/** What is carried up is a difference of two rests: they are settled better than a coarse level that only leads the way. */
const TOLERANCE = 3e-3;

/** Where a coarse level came to rest with the law shown and with those of both ends. */
export interface EndRests {
  readonly shown: LevelRest;
  readonly low: LevelRest;
  readonly high: LevelRest;
}

/** The same, and what the finest level would do otherwise at both ends. */
export interface SettledEnds {
  readonly rests: EndRests;
  readonly moves: EndMoves;
}

/**
 * How the garment would sit otherwise at both ends of its coupling's band: settled with their laws on a coarse level and
 * carried to the finest as what they differ by from the law shown there.
 *
 * Against settling the ends on the finest level itself, a waist shaper on the fit body was told right within 0.3 to 0.7 %
 * of its mean pressure on the whole; at single places on the rim of a gap within an eighth (tests/core/study).
 *
 * @param before - What an earlier run left: each end is looked for as far from the law shown as it lay then.
 * @returns Null where the fabric bears no band, or where a search does not come to rest.
 */
export function* settleEnds(
  question: FabricQuestion,
  { equilibrium, levels: rests }: FabricRest,
  ends: LawPair | null,
  before?: RestBefore,
): Generator<SettleProgress, SettledEnds | null> {
  if (!ends || !equilibrium.atRest) return null;
  const { levels } = question.cloth.garment;
  const last = levels.length - 1;
  const level = Math.max(
    last - COARSER,
    rests.findIndex((rest) => rest !== undefined),
  );
  const shown = yield* restWith(question.laws[0]!, question, { level, from: rests[level] });
  if (!shown) return null;
  const old = restsBefore(question, before, last - level);
  const end = (law: TensionLaw, rested: LevelRest | undefined) =>
    restWith(law, question, { level, from: rested ? asFarFrom(shown, rested, old!.shown) : shown });
  const low = yield* end(ends.low, old?.low);
  const high = low && (yield* end(ends.high, old?.high));
  if (!high) return null;
  const carried = (rest: LevelRest): EndMove => {
    let shift: Float64Array = rest.shift.map((moved, i) => moved - shown.shift[i]!);
    let pressure: Float64Array = rest.pressure.map((pascals, v) => pascals - shown.pressure[v]!);
    for (let l = level + 1; l <= last; l++) {
      pressure = prolongScalar(levels[l]!, pressure);
      const finer = new Float64Array(3 * pressure.length);
      prolong(levels[l]!, shift, finer);
      shift = finer;
    }
    return { shift, pressure };
  };
  return { rests: { shown, low, high }, moves: { low: carried(low), high: carried(high) } };
}

/** Where the ends rested in an earlier run, read at the vertices that the level has now. */
function restsBefore(
  { cloth: { garment } }: FabricQuestion,
  before: RestBefore | undefined,
  coarser: number,
): EndRests | null {
  const old = before?.rest.ends;
  if (!old || !canCarry({ from: before.garment, to: garment, coarser })) return null;
  const now = (rest: LevelRest) => carriedRest(rest, { from: before.garment, to: garment, coarser });
  return { shown: now(old.shown), low: now(old.low), high: now(old.high) };
}

/** The rest that differs from `now` as `end` did from `then`. */
const asFarFrom = (now: LevelRest, end: LevelRest, then: LevelRest): LevelRest => ({
  shift: now.shift.map((moved, i) => moved + end.shift[i]! - then.shift[i]!),
  pressure: now.pressure.map((pascals, v) => pascals + end.pressure[v]! - then.pressure[v]!),
});

function* restWith(
  law: TensionLaw,
  question: FabricQuestion,
  { level, from }: { readonly level: number; readonly from: LevelRest | undefined },
): Generator<SettleProgress, LevelRest | null> {
  const asked = { ...question, laws: [law, ...question.laws.slice(1)] };
  const problem = { ...problemOf(asked, level, from), tolerance: TOLERANCE };
  const { positions, normalForce, atRest } = yield* told(question, settle(problem));
  return atRest ? levelRest(question.cloth.garment.levels[level]!.mesh, positions, normalForce) : null;
}
