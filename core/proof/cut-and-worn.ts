import { NEAR_RIGID } from '../body/body.ts';
import { deformationOf } from '../garment/deformation.ts';
import { mmHgFromPascals, NEWTON_PER_KGF } from '../units/units.ts';
import type { Check } from './check.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { innerRows, linearLaw, mean, settleTube, type SettledTube } from './settled-tube.ts';
import { cylinderBody } from './smooth-bodies.ts';

const HEIGHT = 0.04;
const ROWS = 8;
const COLUMNS = 128;

/** A tube of linear cloth on a hard round bar. */
function worn(girth: number, relaxed: number, stiffness: number): SettledTube {
  const radius = girth / (2 * Math.PI);
  const levels = proofTube({
    rowCount: ROWS / 4,
    columnCount: COLUMNS / 4,
    halvings: 2,
    place: (around, along) => onRing(radius, HEIGHT * along, around),
    relaxed: { girth: relaxed, length: HEIGHT },
  });
  const laws = [linearLaw(stiffness)];
  const body = cylinderBody(radius);
  return settleTube({ levels, laws, body, foundation: NEAR_RIGID, friction: 0 }, COLUMNS);
}

/** What a pattern cutter reckons with: stretch from reduction, and the trade's formula for a bandage. */
export function cutAndWorn(): Check[] {
  return [...[5, 10, 20, 30].map(stretchOf), bandage()];
}

function stretchOf(reductionPercent: number): Check {
  const girth = 0.6;
  const { level, equilibrium } = worn(girth, girth * (1 - reductionPercent / 100), 100);
  const deformation = new Float64Array(6);
  const stretches = level.restArea.map((_, t) => {
    deformationOf(level, equilibrium.positions, t, deformation);
    return Math.hypot(deformation[0]!, deformation[1]!, deformation[2]!) - 1;
  });
  const expected = 100 * (1 / (1 - reductionPercent / 100) - 1);
  return {
    id: `worn.stretch.${String(reductionPercent)}-percent`,
    what: `stretch of a tube cut ${String(reductionPercent)} % smaller than the bar`,
    source: 'Trade formula (common practice): worn stretch = 1 / (1 - reduction) - 1',
    expected,
    got: 100 * mean(stretches),
    unit: '%',
    tolerance: 0.15,
  };
}

/** 0.5 kgf over 10 cm, two layers, 22 cm of girth: two layers pull as one that is twice as stiff. */
function bandage(): Check {
  const girth = 0.22;
  const tension = (2 * 0.5 * NEWTON_PER_KGF) / 0.1;
  // So soft that the hair's breadth by which the bar gives way does not count.
  const stiffness = tension;
  const tube = worn(girth, girth / (1 + tension / stiffness), stiffness);
  return {
    id: 'worn.bandage',
    what: 'pressure of a bandage, 0.5 kgf over 10 cm in two layers on 22 cm',
    source:
      'Thomas 2003, World Wide Wounds (constant from memory): P = 4620 T n / (C W); the constant is 0.04 % low',
    expected: 21,
    got: mmHgFromPascals(mean(innerRows(tube, tube.pressure))),
    unit: 'mmHg',
    tolerance: 0.005 * 21,
  };
}
