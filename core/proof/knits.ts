import { assembleLaw } from '../fabric/assemble-law.ts';
import { secantAt } from '../fabric/axis-curve.ts';
import { reciprocalCoupling } from '../fabric/coupling.ts';
import { forceCurve } from '../fabric/strip-curves.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import { pullStrips, STRIP_ANGLE } from '../fabric/virtual-strip.ts';
import { widthCurve } from '../fabric/width-curve.ts';
import type { Check } from './check.ts';
import { knits2023, type KnitPull } from './data/knit-uniaxial-2023.ts';

const DIRECTIONS = ['warp', 'weft'] as const;
type Direction = (typeof DIRECTIONS)[number];

const SOURCE =
  'Singal, Dimitriyev, Gonzalez, Quinn & Matsumoto 2023, "Programming mechanics in knitted materials, stitch by stitch", open data; law fitted to both directions of a knit, strips pulled from it by computation. A strip that widened again while pulled on is followed by no falling curve: 0.06 of its width';

/** Steps of stretch in which a virtual strip is pulled to find the one that gives a force. */
const STEPS = 400;

/**
 * Twelve knits of very unequal directions: forces and widths fed in come back from strips pulled by the fitted law. No
 * bias strip was pulled: shear stiffness is taken as a quarter of the mean of both directions.
 */
export function* knitChecks(): Generator<void, Check[]> {
  const checks: Check[] = [];
  for (const pair of new Set(knits2023.map(({ sample }) => sample.slice(0, -1)))) {
    checks.push(...pairChecks(pair));
    yield;
  }
  return checks;
}

function pairChecks(pair: string): Check[] {
  const pulls = { warp: pullOf(pair, 'x'), weft: pullOf(pair, 'y') };
  const law = lawOf(pulls);
  return DIRECTIONS.flatMap((direction): Check[] => {
    const { sample, readings } = pulls[direction];
    const pulled = pullStrips(
      law,
      STRIP_ANGLE[direction],
      readings.map(([, stretch]) => stretch),
    );
    const widthMiss = readings.map(([, , width], i) => Math.abs(pulled[i]!.width - Math.min(width, 1)));
    const named = sample.replaceAll('_', ' ');
    return [
      {
        id: `knit.${sample}.stretch`,
        what: `${named}: farthest that any force misses its stretch`,
        source: SOURCE,
        expected: 0,
        got: stretchMiss(law, direction, pulls[direction]),
        unit: 'stretch ratio',
        tolerance: 0.005,
      },
      {
        id: `knit.${sample}.width`,
        what: `${named}: farthest that any width is missed`,
        source: SOURCE,
        expected: 0,
        got: Math.max(...widthMiss),
        unit: 'of the width',
        tolerance: widens(readings) ? 0.06 : 0.03,
      },
    ];
  });
}

const pullOf = (pair: string, ending: 'x' | 'y'): KnitPull =>
  knits2023.find(({ sample }) => sample.slice(0, -1) === pair && sample.at(-1)!.toLowerCase() === ending)!;

const widens = (readings: KnitPull['readings']): boolean =>
  readings.some(([, , width], i) => i > 0 && width > readings[i - 1]![2] + 0.01);

function lawOf(pulls: Record<Direction, KnitPull>): TensionLaw {
  const warp = curveOf(pulls.warp, 'warp');
  const weft = curveOf(pulls.weft, 'weft');
  const { coupling } = reciprocalCoupling(warp, weft, 0.1);
  const shear = Math.sqrt(secantAt(warp, 0.1).stiffness * secantAt(weft, 0.1).stiffness) / 4;
  return assembleLaw({ warp, weft, coupling, shear: (angle) => shear * angle });
}

function curveOf({ clampWidth, readings }: KnitPull, direction: Direction) {
  const rows = readings.toSorted(([, a], [, b]) => a - b);
  const strip = { direction, width: clampWidth };
  const force = forceCurve({
    ...strip,
    branch: 'load',
    readings: rows.map(([newtons, stretch]) => ({ extension: stretch - 1, force: newtons })),
  });
  const width = widthCurve({
    ...strip,
    measuredTo: force.measuredTo,
    readings: rows.map(([, stretch, ratio]) => ({ extension: stretch - 1, width: ratio * clampWidth })),
  });
  return { ...force, narrowing: width.narrowing };
}

/** Largest |stretch at which the law gives the force - stretch read|. */
function stretchMiss(law: TensionLaw, direction: Direction, { clampWidth, readings }: KnitPull): number {
  const most = Math.max(...readings.map(([, stretch]) => stretch)) + 0.1;
  const grid = Array.from({ length: STEPS + 1 }, (_, i) => 1 + ((most - 1) * i) / STEPS);
  const tensions = pullStrips(law, STRIP_ANGLE[direction], grid).map(({ tension }) => tension);
  const misses = readings.map(([force, stretch]) => {
    const tension = force / clampWidth;
    const above = tensions.findIndex((one) => one >= tension);
    if (above < 1) return above < 0 ? Infinity : Math.abs(1 - stretch);
    const share = (tension - tensions[above - 1]!) / (tensions[above]! - tensions[above - 1]!);
    return Math.abs(grid[above - 1]! + share * (grid[above]! - grid[above - 1]!) - stretch);
  });
  return Math.max(...misses);
}
