import type { Check } from './check.ts';
import { fleshBandChecks } from './flesh-bands.ts';
import { fleshEndlessChecks } from './flesh-endless.ts';
import { fleshHeldChecks } from './flesh-held.ts';
import { fleshHoopChecks } from './flesh-hoop.ts';
import { fleshWornChecks } from './flesh-worn.ts';

/** The nearly incompressible layer of flesh against another program and closed forms. */
export const fleshChecks = (): Check[] => [
  ...fleshEndlessChecks(),
  ...fleshHoopChecks(),
  ...fleshBandChecks(),
  ...fleshHeldChecks(),
  ...fleshWornChecks(),
];
