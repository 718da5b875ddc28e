import type { BenchReadings } from '../fabric/bench-readings.ts';
import { bendingLengths } from '../fabric/bending.ts';
import type { Direction, Fabric } from '../fabric/fabric.ts';
import { WEIGHTLESS_HEIGHT } from '../fabric/heart-loop.ts';
import { mean } from '../fabric/mean-of-repeats.ts';
import { degreesFromRadians, mmFromMetres, STANDARD_GRAVITY } from '../units/units.ts';
import { BENCH_SOURCES, type Source } from './bench-sources.ts';
import { AREAL_DENSITY } from './derived-weight.ts';
import {
  derivedNumber,
  givenInput,
  readInput,
  written,
  type DerivedInput,
  type DerivedNumber,
  type Writing,
} from './derived-number.ts';
import { fixed } from './number-format.ts';

const DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];
const MILLIMETRES: Writing = { unit: 'mm', fromSi: mmFromMetres, decimals: 1 };
/** Micronewton metres: the size of a knit's bending rigidity. Three figures tell all that an overhang can. */
const rigidityText = (rigidity: number): string =>
  written(rigidity, {
    unit: 'µN·m',
    fromSi: (value) => value * 1e6,
    decimals: rigidity < 1e-5 ? 2 : rigidity < 1e-4 ? 1 : 0,
  });
/** Peirce's unit: 1 mg·cm = 1e-6 kg * g0 * 0.01 m. */
const PEIRCE: Writing = { unit: 'mg·cm', fromSi: (value) => value / (1e-8 * STANDARD_GRAVITY), decimals: 1 };
/** The slope at which the bending length is half the overhang, degrees. */
const STANDARD_SLOPE = 41.5;

/** Overall rigidity, G0 = sqrt(G_warp G_weft), N*m. @see Peirce, J. Text. Inst. 21 (1930) T377; ISO 9073-7. */
export const overallRigidityOf = ({ bendingRigidity }: Pick<Fabric, 'bendingRigidity'>): number =>
  Math.sqrt(bendingRigidity.warp * bendingRigidity.weft);

/** Bending length and rigidity of each direction, and the overall rigidity. */
export function derivedBending(readings: BenchReadings, fabric: Fabric): DerivedNumber[] {
  const lengths = bendingLengths(readings);
  const lengthNumbers = DIRECTIONS.map((direction) =>
    derivedNumber({
      label: 'bendingLength',
      direction,
      value: written(lengths[direction], MILLIMETRES),
      amount: lengths[direction],
      ...bending(readings, direction, lengths[direction]),
    }),
  );
  const rigidities = DIRECTIONS.map((direction) =>
    derivedNumber({
      label: 'bendingRigidity',
      direction,
      value: rigidityText(fabric.bendingRigidity[direction]),
      also: written(fabric.bendingRigidity[direction], PEIRCE),
      amount: fabric.bendingRigidity[direction],
      formula: 'G = M g c³',
      inputs: [
        givenInput({ symbol: 'M', what: 'arealDensity' }, written(fabric.arealDensity, AREAL_DENSITY)),
        givenInput({ symbol: 'g', what: 'gravity' }, `${STANDARD_GRAVITY}\u00a0m/s²`),
        givenInput(
          { symbol: 'c', what: 'bendingLength', direction },
          written(lengths[direction], MILLIMETRES),
        ),
      ],
      sources: [BENCH_SOURCES.peirce],
    }),
  );
  return [...lengthNumbers, ...rigidities, overall(fabric)];
}

function overall(fabric: Fabric): DerivedNumber {
  const amount = overallRigidityOf(fabric);
  return derivedNumber({
    label: 'overallRigidity',
    value: rigidityText(amount),
    also: written(amount, PEIRCE),
    amount,
    formula: 'G₀ = √(G₁ G₂)',
    inputs: (['warp', 'weft'] as const).map((direction, index) =>
      givenInput(
        { symbol: ['G₁', 'G₂'][index]!, what: 'bendingRigidity', direction },
        rigidityText(fabric.bendingRigidity[direction]),
      ),
    ),
    sources: [BENCH_SOURCES.peirce],
  });
}

interface BendingMethod {
  readonly formula: string;
  readonly inputs: readonly DerivedInput[];
  readonly sources: readonly Source[];
}

/** How the bending length of one direction was come by. */
function bending({ bending }: BenchReadings, direction: Direction, length: number): BendingMethod {
  if (bending.kind === 'heartLoop') {
    return {
      formula: 'c = l₀ (cos θ / tan θ)^⅓, θ = 32.85° d / l₀, d = l − l₀, l₀ = 0.13386 L',
      inputs: [
        readInput({ symbol: 'l', what: 'loopHeight', direction }, bending.height[direction], MILLIMETRES),
        givenInput({ symbol: 'L', what: 'loopStrip' }, written(bending.stripLength, MILLIMETRES)),
        givenInput(
          { symbol: 'l₀', what: 'loopLength' },
          written(WEIGHTLESS_HEIGHT * bending.stripLength, MILLIMETRES),
        ),
      ],
      sources: [BENCH_SOURCES.peirce, BENCH_SOURCES.heartLoop],
    };
  }
  const overhang = bending.overhang[direction];
  const degrees = degreesFromRadians(bending.angle);
  const inputs = [
    readInput({ symbol: 'l', what: 'overhang', direction }, overhang, MILLIMETRES),
    givenInput({ symbol: 'θ', what: 'slope' }, `${fixed(degrees, 1)}°`),
  ];
  if (Math.abs(degrees - STANDARD_SLOPE) < 1e-6) {
    return { formula: 'c = l / 2', inputs, sources: [BENCH_SOURCES.cantilever] };
  }
  const share = length / mean(overhang);
  return {
    formula: 'c = f(θ) l',
    inputs: [...inputs, givenInput({ symbol: 'f(θ)', what: 'elasticaFactor' }, fixed(share, 4))],
    sources: [BENCH_SOURCES.elastica],
  };
}
