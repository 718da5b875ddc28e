import { metresFromMm } from '../units/units.ts';
import type { ChartMeasure, SizeChart } from './size-chart.ts';

/** Bust, waist and hip, cm. Steps in the style of EN 13402-3 (women), from memory. */
const WOMEN: readonly (readonly [bust: number, waist: number, hip: number])[] = [
  [76, 60, 84],
  [80, 64, 88],
  [84, 68, 92],
  [88, 72, 96],
  [92, 76, 100],
  [96, 80, 104],
  [100, 84, 108],
  [104, 88, 112],
  [110, 94, 117],
  [116, 100, 122],
];

/** Chest, waist and hip, cm. Chest and waist in the style of EN 13402-3 (men), from memory; hips invented. */
const MEN: readonly (readonly [chest: number, waist: number, hip: number])[] = [
  [88, 76, 92],
  [92, 80, 95],
  [96, 84, 98],
  [100, 88, 101],
  [104, 92, 104],
  [108, 96, 107],
  [112, 100, 110],
  [116, 104, 113],
];

/** Whole half centimetres, from mm. */
const rounded = (mm: number): number => metresFromMm(5 * Math.round(mm / 5));

type Row = readonly [chest: number, waist: number, hip: number];
type RowOf = (row: Row) => number;

/** The rows that no table gives: invented, each from the three girths, in mm. */
const FURTHER: readonly (readonly [ChartMeasure, RowOf])[] = [
  ['neck', ([chest]) => 2.2 * chest + 150],
  ['thigh', ([, , hip]) => 6.2 * hip - 30],
  ['midThigh', ([, , hip]) => 5.4 * hip - 27],
  ['knee', ([, , hip]) => 3 * hip + 75],
  ['calf', ([, , hip]) => 2.8 * hip + 93],
  ['ankle', ([, , hip]) => 1.2 * hip + 106],
  ['upperArm', ([chest]) => 3 * chest + 16],
  ['elbow', ([chest]) => 2.1 * chest + 63],
  ['wrist', ([chest]) => 0.8 * chest + 88],
];

function invented(
  name: string,
  table: readonly Row[],
  first: readonly (readonly [ChartMeasure, RowOf])[],
): SizeChart {
  const row = ([measure, valueOf]: readonly [ChartMeasure, RowOf]) => ({
    measure,
    values: table.map((size) => rounded(valueOf(size))),
  });
  return {
    name,
    source: 'Invented: main girths in steps in the style of EN 13402-3, from memory; all others made up.',
    isInvented: true,
    sizes: table.map(([chest]) => String(chest)),
    rows: [...first, ...FURTHER].map(row),
  };
}

/** Charts to begin with until a studio brings its own. Invented, and marked so. */
export const INVENTED_CHARTS: Readonly<Record<'women' | 'men', SizeChart>> = {
  women: invented('Invented women’s chart', WOMEN, [
    ['bust', ([bust]) => 10 * bust],
    ['underbust', ([bust, waist]) => 6 * bust + 4 * waist - 68],
    ['waist', ([, waist]) => 10 * waist],
    ['hip', ([, , hip]) => 10 * hip],
  ]),
  men: invented('Invented men’s chart', MEN, [
    ['chest', ([chest]) => 10 * chest],
    ['waist', ([, waist]) => 10 * waist],
    ['hip', ([, , hip]) => 10 * hip],
  ]),
};
