import { arealDensity } from '../fabric/areal-density.ts';
import type { ForceReading } from '../fabric/bench-readings.ts';
import { bendingLength, bendingRigidity, peirceFactor } from '../fabric/bending.ts';
import { heartLoopBendingLength } from '../fabric/heart-loop.ts';
import { elasticaAtChord, elasticaUnderLoad } from '../fabric/heavy-elastica.ts';
import { lossByEnergy, lossByForce } from '../fabric/hysteresis.ts';
import { loopTension, loopTravel } from '../fabric/loop-test.ts';
import { gramsFromKilograms, mmFromMetres, percentFromRatio, radiansFromDegrees } from '../units/units.ts';
import type { Check } from './check.ts';

/** wL^3/B at a chord angle: heavy elastica solved by an independent shooting program, five digits. */
const ELASTICA_CHORDS = [
  [20, 2.99437],
  [30, 4.92094],
  [40, 7.52332],
  [41.5, 8.0042],
  [43, 8.5163],
  [45, 9.25381],
  [60, 18.21689],
] as const;

/** Tip forward and down over the overhang, at wL^3/B; from the same program. */
const ELASTICA_TIPS = [
  [1, 0.991246, 0.123471],
  [2, 0.966893, 0.238507],
  [8, 0.724425, 0.640631],
  [20, 0.445232, 0.829881],
] as const;

/** Height of a heart loop over the strip's length, at wL^3/B; from the same equation solved by shooting. */
const HEART_LOOPS = [
  [5, 0.136721],
  [10, 0.13954],
  [20, 0.145057],
] as const;

/** Peirce's c/l by his printed formula, computed by hand from it. */
const PEIRCE_FACTORS = [
  [30, 0.5935693575648324],
  [41.5, 0.5093214861965117],
  [43, 0.49962483309686034],
  [45, 0.4869770034466079],
] as const;

const ELASTICA = 'Heavy elastica B th" = -w (L - s) cos th, solved independently by shooting';
const PEIRCE = 'Peirce, J. Text. Inst. 21 (1930) T377, c/l = (cos(t/2)/(8 tan t))^(1/3)';

/** A worked loop (constructed readings): N at 0, 20, 40, 60, 80 % extension. */
const readingsOf = (forces: readonly number[]): ForceReading[] =>
  forces.map((force, i) => ({ extension: i / 5, force }));
const LOAD = readingsOf([0, 1.8, 3.4, 5.1, 7.4]);
const BACK = readingsOf([0, 1, 2.3, 4, 7.4]);

/** Weighing, bending, loops and hysteresis against the standards' worked arithmetic and the exact elastica. */
export function benchArithmeticChecks(): Check[] {
  return [...weighing(), ...bending(), ...looping(), ...hysteresis()];
}

function weighing(): Check[] {
  return [
    {
      id: 'bench.areal-density',
      source: 'ISO 3801 / ASTM D3776 arithmetic: five strips 50 x 200 mm weigh 10.50 g',
      expected: 210,
      got: gramsFromKilograms(arealDensity(new Array<number>(5).fill(0.0021), 0.05 * 0.2)),
      unit: 'g/m2',
      tolerance: 2.1e-7,
    },
  ];
}

function bending(): Check[] {
  const slope = radiansFromDegrees(41.5);
  return [
    {
      id: 'bench.bending.rigidity',
      source: 'ISO 9073-7, G = M g c^3, c = l/2 at 41.5 degrees: 210 g/m2, overhang 28 mm',
      expected: 5.650983996,
      got: 1e6 * bendingRigidity(0.21, bendingLength(0.028, slope)),
      unit: 'uN m',
      tolerance: 5.7e-6,
    },
    ...PEIRCE_FACTORS.map(([degrees, expected]): Check => ({
      id: `bench.peirce.${degrees}`,
      source: PEIRCE,
      expected,
      got: peirceFactor(radiansFromDegrees(degrees)),
      unit: '1',
      tolerance: 1e-9,
    })),
    ...ELASTICA_CHORDS.map(([degrees, expected]): Check => ({
      id: `bench.elastica.chord-${degrees}`,
      source: ELASTICA,
      expected,
      got: elasticaAtChord(radiansFromDegrees(degrees)).load,
      unit: '1',
      tolerance: 1e-4 * expected,
    })),
    ...ELASTICA_TIPS.flatMap(([load, forward, down]): Check[] => {
      const elastica = elasticaUnderLoad(load);
      const tip = { source: ELASTICA, unit: '1', tolerance: 1e-4 };
      return [
        { id: `bench.elastica.tip-forward-${load}`, expected: forward, got: elastica.tipForward, ...tip },
        { id: `bench.elastica.tip-down-${load}`, expected: down, got: elastica.tipDown, ...tip },
      ];
    }),
    ...HEART_LOOPS.map(([load, height]): Check => ({
      id: `bench.heart-loop.${load}`,
      source:
        'Heart loop by the heavy elastica, solved independently by shooting: c / L = (w L^3 / B)^(-1/3)',
      expected: Math.cbrt(1 / load),
      got: heartLoopBendingLength(1, height),
      unit: '1',
      // A closed formula: 2.4 % of G, 0.8 % of c.
      tolerance: 0.008 * Math.cbrt(1 / load),
    })),
    {
      id: 'bench.bending.length-41.5',
      source: `${ELASTICA}; the standards take c = l/2 (ISO 9073-7)`,
      expected: 0.49991,
      got: bendingLength(1, slope),
      unit: '1',
      tolerance: 2e-4,
    },
  ];
}

function looping(): Check[] {
  return [
    {
      id: 'bench.loop.travel',
      source: 'ASTM D4964, L = E C / 200: 50 % on a loop of 250 mm',
      expected: 62.5,
      got: mmFromMetres(loopTravel(0.5, 0.25)),
      unit: 'mm',
      tolerance: 1e-9,
    },
    {
      id: 'bench.loop.tension',
      source: 'ASTM D4964, force of both legs: 12.0 N on a loop 75 mm wide is 12 / (2 x 0.075) N/m, not 160',
      expected: 80,
      got: loopTension(12, 0.075),
      unit: 'N/m',
      tolerance: 1e-9,
    },
  ];
}

function hysteresis(): Check[] {
  const source = 'Arithmetic by trapezoid on constructed readings, 0 to 80 % in steps of 20 %';
  return [
    {
      id: 'bench.hysteresis.energy',
      source,
      expected: 21.428571,
      got: percentFromRatio(lossByEnergy(LOAD, BACK)),
      unit: '%',
      tolerance: 2.2e-5,
    },
    {
      id: 'bench.hysteresis.force-40',
      source,
      expected: 32.352941,
      got: percentFromRatio(lossByForce(LOAD, BACK, 0.4)),
      unit: '%',
      tolerance: 3.3e-5,
    },
  ];
}
