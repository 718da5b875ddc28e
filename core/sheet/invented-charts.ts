import type { FitFigureKind } from '../body/fit-measures.ts';
import type { ChartMeasure, SizeChart } from '../body/size-chart.ts';
import { metresFromMm } from '../units/units.ts';

/** Every number here is invented: the steps follow EN 13402-3 (chest and waist in steps of 4 and 6 cm, from memory). */
const SOURCE = 'Invented for Snugfield; steps in the manner of EN 13402-3. Open your studio’s own chart.';

const chartOf = (
  name: string,
  sizes: readonly string[],
  rowsMm: Readonly<Partial<Record<ChartMeasure, readonly number[]>>>,
): SizeChart => ({
  name,
  source: SOURCE,
  isInvented: true,
  sizes,
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion -- the keys are those of the record above
  rows: (Object.entries(rowsMm) as [ChartMeasure, readonly number[]][]).map(([measure, values]) => ({
    measure,
    values: values.map(metresFromMm),
  })),
});

const INVENTED_WOMEN = chartOf('House sizes, women', ['34', '36', '38', '40', '42', '44', '46', '48'], {
  stature: [1680, 1680, 1680, 1680, 1680, 1680, 1680, 1680],
  neck: [326, 335, 344, 352, 361, 370, 379, 392],
  bust: [800, 840, 880, 920, 960, 1000, 1040, 1100],
  underbust: [680, 715, 750, 790, 825, 865, 905, 960],
  waist: [640, 680, 720, 760, 800, 840, 885, 950],
  topHip: [785, 825, 865, 905, 945, 985, 1025, 1080],
  hip: [890, 930, 970, 1010, 1045, 1080, 1120, 1170],
  thigh: [521, 546, 570, 595, 617, 639, 663, 694],
  midThigh: [453, 475, 496, 518, 537, 556, 577, 604],
  knee: [342, 354, 366, 378, 388, 399, 411, 426],
  calf: [342, 353, 365, 376, 386, 395, 407, 421],
  ankle: [213, 218, 222, 227, 231, 236, 240, 246],
  upperArm: [256, 268, 280, 292, 304, 316, 328, 346],
  elbow: [231, 239, 248, 256, 265, 273, 281, 294],
  wrist: [152, 155, 158, 162, 165, 168, 171, 176],
});

const INVENTED_MEN = chartOf('House sizes, men', ['44', '46', '48', '50', '52', '54'], {
  stature: [1740, 1760, 1780, 1790, 1800, 1810],
  neck: [360, 370, 380, 390, 400, 412],
  chest: [880, 920, 960, 1000, 1040, 1080],
  waist: [760, 800, 840, 880, 920, 970],
  topHip: [838, 876, 914, 952, 990, 1032],
  hip: [915, 950, 985, 1020, 1055, 1090],
  thigh: [524, 545, 566, 587, 608, 629],
  midThigh: [456, 474, 492, 511, 529, 547],
  knee: [360, 370, 381, 391, 402, 412],
  calf: [353, 363, 373, 383, 392, 402],
  ankle: [222, 226, 230, 234, 239, 243],
  upperArm: [280, 292, 304, 316, 328, 340],
  elbow: [252, 260, 268, 276, 284, 292],
  wrist: [162, 166, 169, 172, 175, 178],
});

/** The program's own chart for a figure, to stand in until the studio opens its own. */
export const inventedChart = (figure: FitFigureKind): SizeChart =>
  figure === 'male' ? INVENTED_MEN : INVENTED_WOMEN;
