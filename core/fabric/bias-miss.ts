import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { percentFromRatio } from '../units/units.ts';
import type { ForceReading } from './bench-readings.ts';
import type { Branch } from './fabric.ts';
import type { TensionLaw } from './tension-law.ts';
import { pullStrips, STRIP_ANGLE } from './virtual-strip.ts';

const MISS_TO_NAME = 0.02;
const MISS_TO_REFUSE = 0.1;
/** ln of the stretch ratio, past where force sets in, from which a miss counts: before it forces are small. */
const FIRST_COUNTED = 0.05;

/** The bias strip's readings that a law is held against. */
export interface BiasReadings {
  readonly branch: Branch;
  readonly readings: readonly ForceReading[];
  /** Of the unstretched strip, m. */
  readonly width: number;
  /** ln of the stretch ratio at which force sets in. */
  readonly set: number;
}

/** A bias reading and what the fitted law pulls there. */
interface BiasMiss {
  readonly extensionPercent: number;
  readonly forceN: number;
  readonly lawN: number;
  /** lawN / forceN - 1. */
  readonly miss: number;
}

/**
 * Guard G6: refuses a bias strip that pulls less than warp, weft and their narrowing alone, without any shear; names the
 * reading that the law misses, if it does.
 *
 * @throws {Fault} `bench/bias-contradicts` on load.
 */
export function checkBiasMiss(bias: BiasReadings, law: TensionLaw): Finding[] {
  const worst = worstMiss(bias, law);
  if (worst === null || Math.abs(worst.miss) <= MISS_TO_NAME) return [];
  const { extensionPercent, forceN, lawN, miss } = worst;
  if (bias.branch === 'load' && miss > MISS_TO_REFUSE) {
    throw new Fault('bench/bias-contradicts', { extensionPercent, forceN, leastForceN: lawN });
  }
  return [{ code: 'bench/bias-missed', facts: { branch: bias.branch, extensionPercent, forceN, lawN } }];
}

/** Pulls the bias strip of a law over the readings; the one missed most. */
function worstMiss({ readings, width, set }: BiasReadings, law: TensionLaw): BiasMiss | null {
  const counted = readings.filter(
    ({ extension, force }) => Math.log(1 + extension) > set + FIRST_COUNTED && force > 0,
  );
  const strips = pullStrips(
    law,
    STRIP_ANGLE.bias,
    counted.map(({ extension }) => 1 + extension),
  );
  const misses = counted.map(({ extension, force }, i) => {
    const lawN = strips[i]!.tension * width;
    return { extensionPercent: percentFromRatio(extension), forceN: force, lawN, miss: lawN / force - 1 };
  });
  return misses.toSorted((a, b) => Math.abs(b.miss) - Math.abs(a.miss))[0] ?? null;
}
