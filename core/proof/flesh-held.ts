import { stiffened } from '../equilibrium/flesh-kernel.ts';
import type { Check } from './check.ts';
import { FLESH_CASES } from './data/flesh-reference.ts';
import { DEEP_INDENTS, HELD_SKIN } from './data/flesh-special-cases.ts';
import { pressRing } from './flesh-ring.ts';

/** Of what is expected. Held skin is one end of a bracket, so it need not be as near as sliding skin. */
const SHARE = 0.1;
const DEEP_SHARE = { indent: 0.16, bulge: 0.14 };
const DEEPEST_IN_RANGE = 0.15;
const STIFFENING_SHARE = 0.05;

/** Bands whose skin is held along the limb, small displacements: the other end of the bracket that sliding skin opens. */
export const fleshHeldChecks = (): Check[] => [...heldChecks(), ...deepChecks()];

function heldChecks(): Check[] {
  return HELD_SKIN.flatMap(({ id, linear }) => {
    const free = FLESH_CASES.find((one) => one.id === id)!;
    const ours = pressRing(free, { large: false, held: true });
    const check = (what: 'centre' | 'maxindent' | 'bulge'): Check => ({
      id: `flesh.held.${id}.${what}`,
      source: 'CalculiX ccx 2.20, CAX8R, small displacements, u_z = 0 under the band',
      expected: linear![what],
      got: ours[what],
      unit: 'mm',
      tolerance: SHARE * linear![what],
    });
    return [check('centre'), check('maxindent'), check('bulge')];
  });
}

function deepChecks(): Check[] {
  return DEEP_INDENTS.flatMap((row) => {
    const { id, linearIn, linearBulge, R, H, E, nu, b, p, soft } = row;
    const inputs = { kind: 'pressure', R, H, E, nu, b, p, soft, edge: 'soft' } as const;
    const ours = pressRing({ inputs }, { large: false, held: true });
    const source = 'CalculiX ccx 2.20, CAX8R, small displacements, u_z = 0 under band and soft edge';
    return [
      {
        id: `flesh.held.${id}.maxindent`,
        source,
        expected: linearIn,
        got: ours.maxindent,
        unit: 'mm',
        tolerance: DEEP_SHARE.indent * linearIn,
      },
      {
        id: `flesh.held.${id}.bulge`,
        source,
        expected: linearBulge,
        got: ours.bulge,
        unit: 'mm',
        tolerance: DEEP_SHARE.bulge * linearBulge,
      },
      ...stiffeningChecks(row),
    ];
  });
}

/** How much less a deep indent gives than a small one, within the range the layer is trusted in. */
function stiffeningChecks({ id, H, linearIn, rows }: (typeof DEEP_INDENTS)[number]): Check[] {
  return rows
    .filter(([, indent]) => indent / H <= DEEPEST_IN_RANGE)
    .map(([share, indent]) => ({
      id: `flesh.deep.${id}.at-${share}-of-E`,
      source:
        'CalculiX ccx 2.20, neo-Hooke, large displacements under a dead load; from its small displacements',
      expected: indent,
      got: stiffened(share * linearIn, H),
      unit: 'mm',
      tolerance: STIFFENING_SHARE * indent,
    }));
}
