import type { BenchReadings } from '../fabric/bench-readings.ts';
import type { Direction, Fabric } from '../fabric/fabric.ts';
import { gramsFromKilograms, kPaFromPascals, mmFromMetres } from '../units/units.ts';
import { BENCH_SOURCES, type Source } from './bench-sources.ts';
import {
  derivedNumber,
  givenInput,
  readInput,
  written,
  type DerivedInput,
  type DerivedNumber,
  type Writing,
} from './derived-number.ts';

const DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];
const GRAMS: Writing = { unit: 'g', fromSi: gramsFromKilograms, decimals: 3 };
const MILLIMETRES: Writing = { unit: 'mm', fromSi: mmFromMetres, decimals: 1 };
/** Thickness is read to a hundredth of a millimetre. */
const THICKNESS: Writing = { unit: 'mm', fromSi: mmFromMetres, decimals: 2 };
const PRESSURE: Writing = { unit: 'kPa', fromSi: kPaFromPascals, decimals: 2 };
const DENSITY: Writing = { unit: 'kg/m³', fromSi: (value) => value, decimals: 0 };
export const AREAL_DENSITY: Writing = { unit: 'g/m²', fromSi: gramsFromKilograms, decimals: 1 };

/**
 * Areal density with the strips it was weighed from, thickness with its foot pressure, and mass over thickness.
 *
 * @see ISO 3801:1977; ASTM D3776; ISO 5084:1996; ASTM D1777 (see {@link BENCH_SOURCES} for what was seen).
 */
export function derivedWeight(readings: BenchReadings, fabric: Fabric): DerivedNumber[] {
  const { values, pressure } = readings.thickness;
  const arealDensity = written(fabric.arealDensity, AREAL_DENSITY);
  const thickness = written(fabric.thickness, THICKNESS);
  return [
    derivedNumber({
      label: 'arealDensity',
      value: arealDensity,
      amount: fabric.arealDensity,
      ...weighing(readings),
      sources: [BENCH_SOURCES.massPieces, BENCH_SOURCES.massDies],
    }),
    derivedNumber({
      label: 'thickness',
      value: thickness,
      at: written(pressure, PRESSURE),
      amount: fabric.thickness,
      formula: 't = Σ tᵢ / n',
      inputs: [
        readInput({ symbol: 'tᵢ', what: 'thickness' }, values, THICKNESS),
        givenInput({ symbol: 'p', what: 'footPressure' }, written(pressure, PRESSURE)),
      ],
      sources: thicknessSources(readings),
    }),
    derivedNumber({
      label: 'bulkDensity',
      value: written(fabric.arealDensity / fabric.thickness, DENSITY),
      amount: fabric.arealDensity / fabric.thickness,
      formula: 'ρ = M / t',
      inputs: [
        givenInput({ symbol: 'M', what: 'arealDensity' }, arealDensity),
        givenInput({ symbol: 't', what: 'thickness' }, thickness),
      ],
      sources: [BENCH_SOURCES.quotient],
    }),
  ];
}

/** Formula and inputs of the areal density, as the strips lay on the pan. */
function weighing({ weighed }: BenchReadings): { formula: string; inputs: DerivedInput[] } {
  const { length, width, masses } = weighed;
  const size = [
    givenInput({ symbol: 'l', what: 'stripLength' }, written(length, MILLIMETRES)),
    givenInput({ symbol: 'w', what: 'stripWidth' }, written(width, MILLIMETRES)),
  ];
  if ('together' in masses) {
    return {
      formula: 'M = m / (n l w)',
      inputs: [
        readInput({ symbol: 'm', what: 'massTogether' }, masses.together, GRAMS),
        givenInput({ symbol: 'n', what: 'stripCount' }, String(DIRECTIONS.length)),
        ...size,
      ],
    };
  }
  const symbols: Readonly<Record<Direction, string>> = { warp: 'm₁', weft: 'm₂', bias: 'm₃' };
  return {
    formula: 'M = (m₁ + m₂ + m₃) / (n l w)',
    inputs: [
      ...DIRECTIONS.map((direction) =>
        readInput(
          { symbol: symbols[direction], what: 'stripMass', direction },
          masses.apart[direction],
          GRAMS,
        ),
      ),
      givenInput({ symbol: 'n', what: 'stripCount' }, String(DIRECTIONS.length)),
      ...size,
    ],
  };
}

function thicknessSources({ thickness }: BenchReadings): readonly Source[] {
  switch (thickness.standard) {
    case 'ISO 5084':
      return [BENCH_SOURCES.thicknessIso];
    case 'ASTM D1777':
      return [BENCH_SOURCES.thicknessAstm];
    case null:
      return [];
    default: {
      const never: never = thickness.standard;
      return never;
    }
  }
}

/** Pressures that differ by less are the same one, rounded differently: 0.60 psi is printed as 4.1 and 4.14 kPa. */
const SAME_PRESSURE = 0.02;

/** Whether two fabrics' thicknesses may stand side by side. */
export type ThicknessComparison =
  | { readonly comparable: true }
  /** Pressures of the foot, Pa. */
  | { readonly comparable: false; readonly pressures: readonly [number, number] };

/**
 * Whether two thicknesses may be compared: cloth gives under the foot, so only at like pressure.
 *
 * @see ASTM D1777-96(2019) 5.3 (seen in excerpts): thickness falls as pressure rises.
 */
export function comparableThickness(
  a: Pick<Fabric, 'thicknessPressure'>,
  b: Pick<Fabric, 'thicknessPressure'>,
): ThicknessComparison {
  const pressures = [a.thicknessPressure, b.thicknessPressure] as const;
  const ratio = Math.max(...pressures) / Math.min(...pressures);
  return ratio <= 1 + SAME_PRESSURE ? { comparable: true } : { comparable: false, pressures };
}
