import type { Finding } from '../fault/finding.ts';
import { percentFromRatio } from '../units/units.ts';
import type { ForceReading } from './bench-readings.ts';
import type { Direction } from './fabric.ts';
import { forceAt } from './hysteresis.ts';
import type { StripMeans } from './strip-means.ts';

/** Stretches closer than this share are taken as alike. */
const ALIKE = 0.1;
/** Where the bias strip is held against the others, or at the last reading common to all. */
const COMPARED_AT = 0.3;

type LoadCurves = Readonly<Record<Direction, Pick<StripMeans, 'load'>>>;

/**
 * What gives swapped strips away: a direction said to stretch most that does not, and a bias strip stiffer than both
 * others. A sheet that does not state the direction of greatest stretch is told so.
 */
export function compareDirections(strips: LoadCurves, said: Direction | null): Finding[] {
  return [...checkGreatest(strips, said), ...checkBias(strips)];
}

/**
 * Extensions at half the force that the compared strips reach. The trade means warp or weft when it asks which way a
 * cloth stretches most, so the bias strip counts only where it was named.
 */
function checkGreatest(strips: LoadCurves, said: Direction | null): Finding[] {
  const compared: readonly Direction[] = said === 'bias' ? ['warp', 'weft', 'bias'] : ['warp', 'weft'];
  const forceN = Math.min(...compared.map((direction) => peakOf(strips[direction].load))) / 2;
  const extensions = compared.map((direction) => ({
    direction,
    extension: extensionAt(strips[direction].load, forceN),
  }));
  const greatest = extensions.reduce((most, at) => (at.extension > most.extension ? at : most));
  const found = greatest.direction;
  if (said === null) return [{ code: 'bench/greatest-stretch-not-said', facts: { found } }];
  const own = extensions.find(({ direction }) => direction === said)!;
  if (own.extension >= (1 - ALIKE) * greatest.extension) return [];
  const saidPercent = percentFromRatio(own.extension);
  const foundPercent = percentFromRatio(greatest.extension);
  return [
    { code: 'bench/greatest-stretch-differs', facts: { said, found, saidPercent, foundPercent, forceN } },
  ];
}

function checkBias({ warp, weft, bias }: LoadCurves): Finding[] {
  const at = Math.min(COMPARED_AT, ...[warp, weft, bias].map(({ load }) => load.at(-1)?.extension ?? 0));
  const biasN = forceAt(bias.load, at);
  const warpN = forceAt(warp.load, at);
  const weftN = forceAt(weft.load, at);
  if (biasN <= (1 + ALIKE) * Math.max(warpN, weftN)) return [];
  return [
    { code: 'bench/bias-stiffest', facts: { extensionPercent: percentFromRatio(at), biasN, warpN, weftN } },
  ];
}

const peakOf = (load: readonly ForceReading[]): number => Math.max(0, ...load.map(({ force }) => force));

/** Extension at which a force is first reached, by straight line. */
function extensionAt(load: readonly ForceReading[], force: number): number {
  let before: ForceReading = { extension: 0, force: 0 };
  for (const reading of load) {
    if (reading.force >= force) {
      const rise = reading.force - before.force;
      const share = rise > 0 ? (force - before.force) / rise : 1;
      return before.extension + share * (reading.extension - before.extension);
    }
    before = reading;
  }
  return before.extension;
}
