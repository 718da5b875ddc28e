import type { BenchReadings } from '../fabric/bench-readings.ts';
import type { Fabric } from '../fabric/fabric.ts';
import { derivedBending } from './derived-bending.ts';
import { derivedCoupling } from './derived-coupling.ts';
import type { DerivedNumber } from './derived-number.ts';
import { derivedRecovery } from './derived-recovery.ts';
import { derivedTension } from './derived-tension.ts';
import { derivedWeight } from './derived-weight.ts';

/**
 * Every number that the bench derives, each with its formula, what went into it, and the standard or paper behind it.
 *
 * @param readings - From which `fabric` was made.
 */
export function derivedNumbers(readings: BenchReadings, fabric: Fabric): DerivedNumber[] {
  const { strips } = fabric;
  return [
    ...derivedWeight(readings, fabric),
    ...derivedBending(readings, fabric),
    ...(strips === undefined
      ? []
      : [...derivedTension(readings, strips), ...derivedRecovery(fabric, strips)]),
    ...derivedCoupling(readings, fabric),
  ];
}
