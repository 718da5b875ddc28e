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
  'bench/force-unusual': { direction: string; forceN: number; atPercent: number; looksLike: string | null };
  'bench/widths-disagree': { factor: number };
  'bench/widths-contradict': { factor: number };
  'bench/coupling-lowered': { branch: string; couplingPercent: number; sharePercent: number };
  'bench/bias-missed': { branch: string; extensionPercent: number; forceN: number; lawN: number };
  /** The bias strip's width asks for another coupling than the warp and weft widths do. */
  'bench/bias-width-differs': { ratio: number; residualPercent: number };
  'bench/growth': { direction: string; percent: number };
  'bench/return-incomplete': { missing: string };
  'bench/masses-differ': { direction: string; massG: number; meanG: number; differencePercent: number };
  'bench/density-unusual': { densityKgM3: number };
  /** Far from what stretch fabrics weigh; `looksLike` is the slip of unit that would explain it. */
  'bench/mass-unusual': { massG: number; arealDensityGM2: number; looksLike: string | null };
  /** A pressure that the stated standard does not know; `known` in kPa. */
  'bench/thickness-pressure': { standard: string; pressureKPa: number; known: readonly number[] };
  'bench/mass-scatter': { direction: string; massG: number; scatterPercent: number; count: number };
  'bench/thickness-scatter': { thicknessMm: number; scatterPercent: number; count: number };
  'bench/bending-scatter': { direction: string; scatterPercent: number; count: number };
  /** Standard deviation of the specimens at one extension over their mean. */
  'bench/force-scatter': {
    direction: string;
    branch: string;
    extensionPercent: number;
    scatterPercent: number;
    count: number;
  };
  'bench/width-scatter': { direction: string; extensionPercent: number; widthMm: number; scatterMm: number };
  /** One specimen ends long before another; the mean ends there too. */
  'bench/repeats-end-early': {
    direction: string;
    branch: string;
    shortestPercent: number;
    longestPercent: number;
  };
  /** A plateau and then a step, or a lone step, in one specimen's force. Specimens count from 1. */
  'bench/force-jumps': { direction: string; branch: string; specimen: number; extensionPercent: number };
  /** No force up to there, on load. */
  'bench/slack-start': { direction: string; extensionPercent: number };
  /** `found` is the direction that the curves speak for. */
  'bench/greatest-stretch-not-said': { found: string };
  /** The curves say that another direction stretches most; extensions at one and the same force. */
  'bench/greatest-stretch-differs': {
    said: string;
    found: string;
    saidPercent: number;
    foundPercent: number;
    forceN: number;
  };
  'bench/bias-stiffest': { extensionPercent: number; biasN: number; warpN: number; weftN: number };
  /** The way back begins well below the force on the way out. */
  'bench/return-without-peak': {
    direction: string;
    extensionPercent: number;
    returnN: number;
    loadN: number;
  };
  /** The way back left out, since no coupling down to that share makes it stable. */
  'bench/return-unstable': { sharePercent: number; couplingPercent: number };
  'bench/first-cycle': { cycle: number };
  /** An end of the coupling's band was moved for stability; percent of the coupling shown. */
  'bench/band-end-moved': { branch: string; end: string; wantedPercent: number; usedPercent: number };
}
