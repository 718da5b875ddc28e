/** Source: Kawabata, Matsuda, Tei & Kawai, Macromolecules 14 (1981) 154; rows in core/proof/data/kawabata-1981.ts. */
import { expect, it } from 'vitest';

import { missOfBiaxialRubber } from '../../core/proof/biaxial-rubber.ts';

it('misses the 52 biaxial rows to 1.3 by no more than the first study of the law did, plus a fifth', () => {
  const miss = missOfBiaxialRubber(1.3);
  expect(miss.count).toBe(52);
  expect(miss.along).toBeLessThan(1.2 * 0.016);
  expect(miss.across).toBeLessThan(1.2 * 0.055);
});
