import type { BenchReadings, ForceReading } from '../fabric/bench-readings.ts';
import type { Direction } from '../fabric/fabric.ts';
import { forceAt } from '../fabric/hysteresis.ts';
import { loopTravel } from '../fabric/loop-test.ts';
import type { CurveEvidence, Modulus, StripEvidence } from '../fabric/strip-evidence.ts';
import { mmFromMetres, percentFromRatio } from '../units/units.ts';
import { BENCH_SOURCES } from './bench-sources.ts';
import {
  derivedNumber,
  givenInput,
  readInput,
  written,
  type DerivedInput,
  type DerivedNumber,
  type Writing,
} from './derived-number.ts';
import { tapeUnits } from './display-unit.ts';
import { fixed, withUnit } from './number-format.ts';

const DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];
const NEWTONS: Writing = { unit: 'N', fromSi: (value) => value, decimals: 2 };
const MILLIMETRES: Writing = { unit: 'mm', fromSi: mmFromMetres, decimals: 1 };
/** A reading at exactly the asked extension may come back from its logarithm a hair off. */
const SLACK = 1e-9;

/**
 * The load at which stretch is stated, N/m: 4 N per cm of width.
 *
 * @see EN 14704-1 (now ISO 20932-1), weft knit with more than 5 % elastane (seen in excerpts).
 */
export const STATED_LOAD = 400;

type Strips = Readonly<Record<Direction, StripEvidence>>;

/** `61 N/m`: force per original width. */
export const tensionText = (tension: number): string =>
  withUnit(tension, tapeUnits('N/m').first, tension < 100 ? 1 : 0);

/** `47.5 to 94.9 N/m` */
export const tensionRangeText = (low: number, high: number): string =>
  `${fixed(low, low < 100 ? 1 : 0)} to ${tensionText(high)}`;

/** `3.06 N/50 mm`, as the trade writes it. */
const stripForceText = (tension: number): string => withUnit(tension, tapeUnits('N/m').second!);

/** `20 %` */
export const extensionText = (extension: number, decimals = 0): string =>
  `${fixed(percentFromRatio(extension), decimals)}\u00a0%`;

/** Tension at 20/40/60/80 % out and back, and the stretch at a stated load, in each direction. */
export function derivedTension(readings: BenchReadings, strips: Strips): DerivedNumber[] {
  const of = (branch: 'load' | 'return') =>
    DIRECTIONS.flatMap((direction) =>
      strips[direction].modulus.flatMap((modulus) => tensionAt({ readings, direction, branch, modulus })),
    );
  const common = comparedLoad(strips, readings.greatestStretch);
  return [
    ...of('load'),
    ...of('return'),
    ...[common, STATED_LOAD].flatMap((load) =>
      DIRECTIONS.map((direction) => stretchNumber(strips[direction].load, direction, load)),
    ),
    greatestStretch(readings, strips, common),
  ];
}

interface TensionPlace {
  readonly readings: BenchReadings;
  readonly direction: Direction;
  readonly branch: 'load' | 'return';
  readonly modulus: Modulus;
}

/** One tension, or none where that branch was not read. */
function tensionAt({ readings, direction, branch, modulus }: TensionPlace): DerivedNumber[] {
  const tension = modulus[branch];
  if (tension === null) return [];
  const { test } = readings.stretched;
  return [
    derivedNumber({
      label: branch === 'load' ? 'tension' : 'returnTension',
      direction,
      at: extensionText(modulus.extension),
      value: tensionText(tension),
      also: stripForceText(tension),
      amount: tension,
      beyondReadings: modulus.beyondReadings,
      formula: test === 'loop' ? 'T = F / (2 w), L = E C / 2' : 'T = F / w',
      inputs: tensionInputs({ readings, direction, branch, modulus }),
      sources: [test === 'loop' ? BENCH_SOURCES.loopTest : BENCH_SOURCES.stripTest],
    }),
  ];
}

function tensionInputs({ readings, direction, branch, modulus }: TensionPlace): DerivedInput[] {
  const { test, width, circumference, cycle, strips } = readings.stretched;
  const isLoop = test === 'loop';
  const specimens = strips[direction][branch] ?? [];
  const { extension } = modulus;
  const last = Math.max(...specimens.map((specimen) => specimen.at(-1)?.extension ?? 0));
  // The machine shows both legs of a loop; the readings hold one.
  const forces = reaching(specimens, extension).map(
    (specimen) => (isLoop ? 2 : 1) * forceAt(specimen, extension),
  );
  const force =
    forces.length > 0
      ? [readInput({ symbol: 'F', what: isLoop ? 'loopForce' : 'force', direction }, forces, NEWTONS)]
      : [givenInput({ symbol: 'F', what: 'lastReading', direction }, extensionText(last))];
  const travel =
    isLoop && circumference !== null
      ? [
          givenInput({ symbol: 'C', what: 'circumference' }, written(circumference, MILLIMETRES)),
          givenInput(
            { symbol: 'L', what: 'gripTravel' },
            written(loopTravel(extension, circumference), MILLIMETRES),
          ),
        ]
      : [];
  return [
    ...force,
    givenInput({ symbol: 'w', what: 'testWidth' }, written(width, MILLIMETRES)),
    ...travel,
    ...(cycle === null ? [] : [givenInput({ symbol: '', what: 'cycle' }, String(cycle))]),
  ];
}

const reaching = (specimens: readonly (readonly ForceReading[])[], extension: number) =>
  specimens.filter((specimen) => (specimen.at(-1)?.extension ?? 0) >= extension - SLACK);

/** The trade means warp or weft when it asks which way a cloth stretches most; the bias counts where it was named. */
const comparedDirections = (said: Direction | null): readonly Direction[] =>
  said === 'bias' ? DIRECTIONS : ['warp', 'weft'];

/** The load at which they are compared, N/m: half of the largest that all of them were pulled to. */
const comparedLoad = (strips: Strips, said: Direction | null): number =>
  Math.min(
    ...comparedDirections(said).map((direction) => strips[direction].load.fitted.tensions.at(-1) ?? 0),
  ) / 2;

/**
 * Stretch of the fitted strip under a load, between its points by straight line.
 *
 * @param load - Force per original width, N/m.
 * @returns Extension ratio; NaN where the strip was not pulled so hard.
 */
export function stretchUnder({ fitted }: Pick<CurveEvidence, 'fitted'>, load: number): number {
  const { extensions, tensions } = fitted;
  const next = tensions.findIndex((tension) => tension >= load - SLACK * load);
  if (next < 0) return NaN;
  if (next === 0) return extensions[0]!;
  const [low, high] = [tensions[next - 1]!, tensions[next]!];
  const share = Math.min(1, (load - low) / (high - low));
  return extensions[next - 1]! + share * (extensions[next]! - extensions[next - 1]!);
}

function stretchNumber(curve: CurveEvidence, direction: Direction, load: number): DerivedNumber {
  const stretch = stretchUnder(curve, load);
  const last = curve.fitted.extensions.at(-1) ?? 0;
  const isStated = load === STATED_LOAD;
  return derivedNumber({
    label: 'stretchAtLoad',
    direction,
    at: stripForceText(load),
    value: Number.isNaN(stretch) ? `above ${extensionText(last)}` : extensionText(stretch, 1),
    amount: stretch,
    formula: 'S = 100 (E − L) / L, at F / w = load',
    inputs: [
      givenInput({ symbol: 'F / w', what: 'statedLoad' }, tensionText(load)),
      givenInput({ symbol: '', what: 'lastReading', direction }, extensionText(last)),
    ],
    sources: isStated ? [BENCH_SOURCES.stripTest, BENCH_SOURCES.loadLimit] : [BENCH_SOURCES.stripTest],
  });
}

/** Directions whose stretch differs by less cannot be told apart: repeat strips agree to about 10 % (common practice). */
const SAME_STRETCH = 0.1;

/** The directions that stretch most under {@link comparedLoad}; several where they cannot be told apart. */
export function greatestDirections(strips: Strips, said: Direction | null): readonly Direction[] {
  const load = comparedLoad(strips, said);
  const compared = comparedDirections(said);
  const stretches = compared.map((direction) => stretchUnder(strips[direction].load, load));
  const most = Math.max(...stretches);
  return compared.filter((_, index) => stretches[index]! >= (1 - SAME_STRETCH) * most);
}

function greatestStretch(readings: BenchReadings, strips: Strips, load: number): DerivedNumber {
  const said = readings.greatestStretch;
  return derivedNumber({
    label: 'greatestStretch',
    at: stripForceText(load),
    value: greatestDirections(strips, said).join(' or '),
    amount: NaN,
    formula: 'largest S at one F / w',
    inputs: [
      ...comparedDirections(said).map((direction) =>
        givenInput(
          { symbol: 'S', what: 'stretchAtLoad', direction },
          extensionText(stretchUnder(strips[direction].load, load), 1),
        ),
      ),
      ...(said === null ? [] : [givenInput({ symbol: '', what: 'saidGreatest' }, said)]),
    ],
    sources: [BENCH_SOURCES.stripTest],
  });
}
