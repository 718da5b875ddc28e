/** What the bench readings leave in doubt. Forces are as the bench gave them, for the whole strip width. */
export interface BenchFindings {
  'bench/width-not-measured': { direction: string };
  'bench/width-smoothed': { direction: string; extensionPercent: number; widthMm: number; usedMm: number };
  'bench/width-above-start': {
    direction: string;
    extensionPercent: number;
    widthMm: number;
    startMm: number;
  };
  'bench/force-repaired': {
    direction: string;
    branch: string;
    extensionPercent: number;
    forceN: number;
    previousN: number;
    previousPercent: number;
    repairPercent: number;
  };
  /** A cubic was laid through the repaired readings. */
  'bench/force-smoothed': { direction: string; branch: string; residualPercent: number };
  'bench/pre-tension': { direction: string; branch: string; forceN: number; peakN: number };
  'bench/slack-run-in': { direction: string; atPercent: number };
  'bench/force-unusual': { direction: string; forceN: number; atPercent: number };
  'bench/widths-disagree': { factor: number };
  'bench/widths-contradict': { factor: number };
  'bench/coupling-lowered': { couplingPercent: number; sharePercent: number };
  'bench/bias-missed': { branch: string; extensionPercent: number; forceN: number; lawN: number };
  /** The bias strip's width asks for another coupling than the warp and weft widths do. */
  'bench/bias-width-differs': { ratio: number; residualPercent: number };
  'bench/growth': { direction: string; percent: number };
  'bench/return-incomplete': { missing: string };
  'bench/masses-differ': { direction: string; massG: number; meanG: number; differencePercent: number };
  'bench/density-unusual': { densityKgM3: number };
}
