import { mmHgFromPascals, NEWTON_PER_KGF, PASCAL_PER_MMHG } from '../units/units.ts';
import type { Check } from './check.ts';

/**
 * Conversions on which every printed number hangs.
 *
 * @see ISO 80000-4:2019 (mmHg, kgf); Thomas 2003, World Wide Wounds (the trade's P = 4620 T n / (C W)).
 */
export function conversionChecks(): Check[] {
  // P[mmHg] = 2 pi T / (C W) with T in kgf, C and W in cm.
  const thomasConstant = mmHgFromPascals((2 * Math.PI * NEWTON_PER_KGF) / 1e-4);
  return [
    {
      id: 'units.mmHg',
      source: 'Definition, ISO 80000-4: 13595.1 kg/m3 x 9.80665 m/s2 x 1 mm',
      expected: 133.322387415,
      got: PASCAL_PER_MMHG,
      unit: 'Pa',
      tolerance: 1e-7,
    },
    {
      id: 'units.kPa',
      source: 'Definition, ISO 80000-4: 1 kPa in mmHg',
      expected: 7.500615758,
      got: mmHgFromPascals(1000),
      unit: 'mmHg',
      tolerance: 1e-8,
    },
    {
      id: 'units.kgf',
      source: 'Definition, ISO 80000-4: 1 kgf',
      expected: 9.80665,
      got: NEWTON_PER_KGF,
      unit: 'N',
      tolerance: 1e-12,
    },
    {
      id: 'pressure.trade-constant',
      source:
        'Thomas 2003, P = 4620 T n / (C W); exact constant 2 pi g0 1e4 / mmHg = 4621.65; the printed one is 0.04 % low',
      expected: 4620,
      got: thomasConstant,
      unit: 'mmHg cm2/kgf',
      tolerance: 4.62,
    },
  ];
}
