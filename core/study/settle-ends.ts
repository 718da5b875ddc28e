import type { SettleProgress } from '../equilibrium/equilibrium.ts';
import { prolong, prolongScalar } from '../equilibrium/prolongation.ts';
import { settle } from '../equilibrium/settle.ts';
import type { LawPair } from '../fabric/fabric.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import type { EndMove, EndMoves } from '../fields/coupling-ends.ts';
import { levelRest, type LevelRest } from './level-rest.ts';
import { problemOf, told, type FabricQuestion, type FabricRest } from './settle-fabric.ts';

/** How many levels below the finest the ends are settled: how a garment sits otherwise varies slowly over it. */
const COARSER = 2;
/** What is carried up is a difference of two rests: they are settled better than a coarse level that only leads the way. */
const TOLERANCE = 3e-3;

/**
 * How the garment would sit otherwise at both ends of its coupling's band: settled with their laws on a coarse level and
 * carried to the finest as what they differ by from the law shown there.
 *
 * Against settling the ends on the finest level itself, a waist shaper on the fit body was told right within 0.3 to 0.7 %
 * of its mean pressure on the whole; at single places on the rim of a gap within an eighth (tests/core/study).
 *
 * @returns Null where the fabric bears no band, or where a search does not come to rest.
 */
export function* settleEnds(
  question: FabricQuestion,
  { equilibrium, levels: rests }: FabricRest,
  ends: LawPair | null,
): Generator<SettleProgress, EndMoves | null> {
  if (!ends || !equilibrium.atRest) return null;
  const { levels } = question.cloth.garment;
  const last = levels.length - 1;
  const level = Math.max(
    last - COARSER,
    rests.findIndex((rest) => rest !== undefined),
  );
  let from = rests[level];
  const settled: LevelRest[] = [];
  for (const law of [question.laws[0]!, ends.low, ends.high]) {
    const rest = yield* restWith(law, question, { level, from });
    if (!rest) return null;
    from ??= rest;
    settled.push(rest);
  }
  const [shown, low, high] = settled;
  const carried = (end: LevelRest): EndMove => {
    let shift: Float64Array = end.shift.map((moved, i) => moved - shown!.shift[i]!);
    let pressure: Float64Array = end.pressure.map((pascals, v) => pascals - shown!.pressure[v]!);
    for (let l = level + 1; l <= last; l++) {
      pressure = prolongScalar(levels[l]!, pressure);
      const finer = new Float64Array(3 * pressure.length);
      prolong(levels[l]!, shift, finer);
      shift = finer;
    }
    return { shift, pressure };
  };
  return { low: carried(low!), high: carried(high!) };
}

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
