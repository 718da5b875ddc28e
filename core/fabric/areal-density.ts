import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { gramsFromKilograms, mmFromMetres, percentFromRatio } from '../units/units.ts';
import type { BenchReadings } from './bench-readings.ts';
import type { Direction } from './fabric.ts';
import { mean } from './mean-of-repeats.ts';
import { likelySlip } from './unit-slips.ts';
import type { UnitSlip } from './unit-slips.ts';

/** Strips of one cloth agree to 2 %; a 0.5 mm cut error on 50 mm is 1 % (common practice). */
const DIFFERENCE_TO_NAME = 0.03;
const DIFFERENCE_TO_REFUSE = 0.1;
/** Solid polyester, the densest common fibre of stretch fabrics, kg/m^3 (textile handbooks, from memory). */
const FIBRE_DENSITY = 1380;
/** Where mass over thickness of knits mostly lies, kg/m^3 (textile handbooks, from memory). */
const USUAL_DENSITY = [250, 600] as const;
/** What stretch fabrics weigh, kg/m^2, and how thick they are, m (common practice, with room to spare). */
const USUAL_AREAL = [0.06, 0.7] as const;
const USUAL_THICKNESS = [0.15e-3, 4e-3] as const;
const MASS_SLIPS: readonly UnitSlip[] = [
  { factor: 1000, looksLike: 'mg read as g' },
  { factor: 1 / 1000, looksLike: 'kg read as g' },
  { factor: 100, looksLike: 'a strip size in cm read as mm' },
];
const THICKNESS_SLIPS: readonly UnitSlip[] = [
  { factor: 1 / 10, looksLike: 'a thickness in cm read as mm' },
  { factor: 1 / 25.4, looksLike: 'a thickness in inches read as mm' },
  { factor: 1 / 1000, looksLike: 'a thickness in m read as mm' },
];
const DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];

/**
 * Mass per unit area, M = m / A.
 *
 * @param masses - One per piece, kg.
 * @param area - Of one piece, m^2.
 * @returns kg/m^2.
 * @see ISO 3801:1977 method 5; ASTM D3776 option C.
 */
export function arealDensity(masses: readonly number[], area: number): number {
  return masses.reduce((sum, mass) => sum + mass, 0) / (masses.length * area);
}

/**
 * The areal density over all weighed strips, each direction counting the same.
 *
 * @returns kg/m^2, with what the strips leave in doubt.
 * @throws {Fault} `bench/masses-disagree`, `bench/denser-than-fibre`.
 */
export function weighStrips(readings: BenchReadings): { arealDensity: number; findings: Finding[] } {
  const { length, width, masses } = readings.weighed;
  const area = length * width;
  const { density, findings } =
    'together' in masses
      ? { density: arealDensity(masses.together, DIRECTIONS.length * area), findings: [] }
      : weighApart(masses.apart, area);
  return {
    arealDensity: density,
    findings: [
      ...findings,
      ...doubtMass(density, area),
      ...doubtDensity(density, mean(readings.thickness.values)),
    ],
  };
}

/** Strips weighed one by one: their directions must agree. */
function weighApart(
  masses: Readonly<Record<Direction, readonly number[]>>,
  area: number,
): { density: number; findings: Finding[] } {
  const means = DIRECTIONS.map((direction) => mean(masses[direction]));
  const middle = mean(means);
  const findings: Finding[] = [];
  for (const [i, direction] of DIRECTIONS.entries()) {
    const difference = means[i]! / middle - 1;
    const facts = {
      direction,
      massG: gramsFromKilograms(means[i]!),
      meanG: gramsFromKilograms(middle),
      differencePercent: percentFromRatio(difference),
    };
    if (Math.abs(difference) > DIFFERENCE_TO_REFUSE) throw new Fault('bench/masses-disagree', facts);
    if (Math.abs(difference) > DIFFERENCE_TO_NAME) findings.push({ code: 'bench/masses-differ', facts });
  }
  return { density: middle / area, findings };
}

/** Mass per area against what stretch fabrics weigh. */
function doubtMass(areal: number, area: number): Finding[] {
  if (areal >= USUAL_AREAL[0] && areal <= USUAL_AREAL[1]) return [];
  return [
    {
      code: 'bench/mass-unusual',
      facts: {
        massG: gramsFromKilograms(areal * area),
        arealDensityGM2: gramsFromKilograms(areal),
        looksLike: likelySlip(areal, USUAL_AREAL, MASS_SLIPS),
      },
    },
  ];
}

/** Mass over thickness against solid fibre and against what knits weigh. */
function doubtDensity(areal: number, thickness: number): Finding[] {
  const density = areal / thickness;
  if (density > FIBRE_DENSITY) {
    throw new Fault('bench/denser-than-fibre', {
      densityKgM3: density,
      fibreKgM3: FIBRE_DENSITY,
      arealDensityGM2: gramsFromKilograms(areal),
      thicknessMm: mmFromMetres(thickness),
      looksLike:
        areal > USUAL_AREAL[1]
          ? likelySlip(areal, USUAL_AREAL, MASS_SLIPS)
          : likelySlip(thickness, USUAL_THICKNESS, THICKNESS_SLIPS),
    });
  }
  if (density >= USUAL_DENSITY[0] && density <= USUAL_DENSITY[1]) return [];
  return [{ code: 'bench/density-unusual', facts: { densityKgM3: density } }];
}
