import { createTensionResponse, evaluateTension } from '../fabric/evaluate-tension.ts';
import { lawFromStrips } from '../fabric/law-from-strips.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import type { Check } from './check.ts';

const WAGNER =
  'Wagner 1929; Kuhn, Peterson & Levin, NACA TN 2661, 1952 (from memory), and derived here: a web of rigid flanges in pure ' +
  'diagonal tension, E g / 2 at 45 degrees, so that shear and pull on the flanges are E g / 4';
const PULLED =
  'derived here from small strains of an isotropic sheet: tension E e1 along the greater principal strain e1, wrinkled ' +
  'where e2 < -nu e1';

const STIFFNESS = 1000;
/** So small that squares of strains do not count. */
const SHEAR = 0.002;

/** For small strains a sheet alike in all directions: G = E / (2 (1 + nu)), c = nu E / (1 - nu^2). */
export function isotropicLaw(stiffness: number, nu: number): TensionLaw {
  const stretches = [1.05, 1.1, 1.15];
  const strip = {
    load: stretches.map((l) => [l, stiffness * (l - 1)] as const),
    width: stretches.map((l) => [l, l ** -nu] as const),
  };
  return lawFromStrips({
    warp: strip,
    weft: strip,
    shear: { modulus: stiffness / (2 * (1 + nu)) },
    coupling: (nu * stiffness) / (1 - nu * nu),
  });
}

/** A panel between flanges, stretched along and across them and sheared: what it does to a flange, N/m. */
function panel(law: TensionLaw, [along, across, shear]: readonly [number, number, number]) {
  const response = createTensionResponse();
  evaluateTension(law, Float64Array.of(1 + along, 0, 0, shear, 1 + across, 0), false, response);
  return { shear: response.stress[3]!, pull: response.stress[4]!, wrinkled: response.wrinkled };
}

/** Cloth between two stiff edges, one pushed along the other: it wrinkles at once and resists by a pull at 45 degrees. */
export function shearedPanels(): Check[] {
  return [...[0, 0.3].flatMap(unpulled), ...[0, 0.3].flatMap(pulledAcross), onset()];
}

function unpulled(nu: number): Check[] {
  const { shear, pull } = panel(isotropicLaw(STIFFNESS, nu), [0, 0, SHEAR]);
  const row = (id: string, got: number): Check => ({
    id: `panel.unpulled.${id}.nu-${nu}`,
    source: WAGNER,
    expected: STIFFNESS / 4,
    got: got / SHEAR,
    unit: 'N/m',
    tolerance: 0.01 * (STIFFNESS / 4),
  });
  return [row('shear', shear), row('pull', pull)];
}

/** Pulled across by half the shear: the tension lies steeper. tan 2a = g / (e_x - e_y), measured from the flange. */
function pulledAcross(nu: number): Check[] {
  const across = SHEAR / 2;
  const { shear, pull } = panel(isotropicLaw(STIFFNESS, nu), [0, across, SHEAR]);
  const radius = Math.hypot(across, SHEAR) / 2;
  const tension = STIFFNESS * (across / 2 + radius);
  const row = (id: string, got: number, expected: number): Check => ({
    id: `panel.pulled.${id}.nu-${nu}`,
    source: PULLED,
    expected,
    got,
    unit: 'N/m',
    tolerance: 0.01 * expected,
  });
  return [
    row('shear', shear, (tension * SHEAR) / (4 * radius)),
    row('pull', pull, (tension * (1 + across / (2 * radius))) / 2),
  ];
}

/** Stretched alike both ways by e it stays smooth up to g = 2 e (1 + nu) / (1 - nu). */
function onset(): Check {
  const nu = 0.3;
  const law = isotropicLaw(STIFFNESS, nu);
  const expected = (2 * (1 + nu)) / (1 - nu);
  let smooth = 0;
  let wrinkled = 2 * expected;
  while (wrinkled - smooth > 1e-9) {
    const middle = (smooth + wrinkled) / 2;
    if (panel(law, [SHEAR, SHEAR, middle * SHEAR]).wrinkled) wrinkled = middle;
    else smooth = middle;
  }
  return {
    id: 'panel.onset',
    source: PULLED,
    expected,
    got: smooth,
    unit: 'shear / stretch',
    tolerance: 0.02 * expected,
  };
}
