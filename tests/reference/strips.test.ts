/** Source: neo-Hookean sheet (Treloar 1975) and off-axis moduli (Lekhnitskii 1968), stated at each check in core/proof. */
import { expect, it } from 'vitest';

import { passes } from '../../core/proof/check.ts';
import { virtualStripChecks } from '../../core/proof/virtual-strips.ts';

it.each(virtualStripChecks())('$id', (check) => {
  expect(passes(check), `${check.id}: expected ${check.expected}, got ${check.got} ${check.unit}`).toBe(true);
});
