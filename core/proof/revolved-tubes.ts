import type { Check } from './check.ts';
import { waistProfile, type Profile } from './smooth-bodies.ts';
import { compareTube, expectedRest, type TubeOfRevolution } from './tube-of-revolution.ts';

const SLOPE = Math.tan((14 * Math.PI) / 180);
const CONE: Profile = { radius: (y) => 0.1 + SLOPE * y, slope: () => SLOPE, bend: () => 0 };

/** A cone of 14 degrees, radii 80 to 120 mm. */
export const coneTube = (foundation: number): TubeOfRevolution => ({
  profile: CONE,
  height: 0.16,
  scale: 0.8,
  stiffness: 250,
  foundation,
});

/** A waist from R 130 down to 105 mm. */
export const waistTube = (foundation: number): TubeOfRevolution => ({
  profile: waistProfile(0.13, 0.025, 0.06),
  height: 0.24,
  scale: 0.8,
  stiffness: 400,
  foundation,
});

/** Cells of the coarsest mesh: halved four times, edges of 3 to 5 mm. */
export const REVOLVED_CELLS = { rowCount: 3, columnCount: 12 } as const;

const SOFT = 0.5e6;
const RIGID = 50e6;
const SOURCE =
  'Independent solver for membranes of revolution, 1536 pieces (core/proof/membrane-of-revolution.ts); frictionless, hems held in height';

/** Cones and waists, hard and soft, against the one-dimensional solver. */
export function* revolvedTubes(): Generator<void, Check[]> {
  const checks: Check[] = [];
  for (const [name, foundation] of [
    ['rigid', RIGID],
    ['soft', SOFT],
  ] as const) {
    checks.push(coneCheck(name, foundation));
    yield;
    checks.push(...waistChecks(name, foundation));
    yield;
  }
  return checks;
}

function coneCheck(name: string, foundation: number): Check {
  const tube = coneTube(foundation);
  const { pressureMiss } = compareTube(tube, expectedRest(tube), { ...REVOLVED_CELLS, halvings: 4 });
  return {
    id: `revolved.cone.${name}.pressure`,
    what: `pressure along a ${name} cone, edges of 3 mm`,
    source: `${SOURCE}; middle half, root-mean-square of the ring means`,
    expected: 0,
    got: 100 * pressureMiss,
    unit: '% rms',
    tolerance: 0.1,
  };
}

function waistChecks(name: string, foundation: number): Check[] {
  const tube = waistTube(foundation);
  const got = compareTube(tube, expectedRest(tube), { ...REVOLVED_CELLS, halvings: 4 });
  const mm = (
    id: string,
    what: string,
    [expected, reached]: readonly [number, number],
    tolerance: number,
  ): Check => ({
    id: `revolved.waist.${name}.${id}`,
    what: `${what}, ${name} body, edges of 4 mm`,
    source: SOURCE,
    expected: 1000 * expected,
    got: 1000 * reached,
    unit: 'mm',
    tolerance,
  });
  return [
    mm('gap', 'gap at the waist', [got.expectedGap, got.gap], 20 * got.expectedGap),
    mm('lift-off', 'height at which the cloth leaves the skin', [got.expectedLiftOff, got.liftOff], 2),
    {
      id: `revolved.waist.${name}.pressure`,
      what: `pressure along a waist, ${name} body, edges of 4 mm`,
      source: `${SOURCE}; middle half, root-mean-square of the ring means; on a rigid body pressure ends with a step where the cloth leaves, which no mesh places within less than half an edge`,
      expected: 0,
      got: 100 * got.pressureMiss,
      unit: '% rms',
      tolerance: name === 'rigid' ? 5 : 0.5,
    },
  ];
}
