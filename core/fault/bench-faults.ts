/**
 * Readings that contradict themselves or each other so far that no fabric could have given them. Forces are as the
 * bench gave them, for the whole strip width.
 */
export interface BenchFaults {
  'bench/too-few-readings': { direction: string; branch: string; count: number; least: number };
  'bench/reading-twice': { direction: string; branch: string; extensionPercent: number };
  'bench/no-force': { direction: string; branch: string; extensionPercent: number };
  'bench/stretched-too-little': {
    direction: string;
    branch: string;
    extensionPercent: number;
    leastPercent: number;
  };
  'bench/extension-too-large': {
    direction: string;
    branch: string;
    extensionPercent: number;
    mostPercent: number;
  };
  'bench/force-negative': {
    direction: string;
    branch: string;
    extensionPercent: number;
    forceN: number;
    peakN: number;
  };
  /** The force of one specimen drops of a sudden. Specimens count from 1. */
  'bench/grip-slip': {
    direction: string;
    branch: string;
    specimen: number;
    extensionPercent: number;
    forceN: number;
    previousN: number;
    dropPercent: number;
  };
  /** Even the best rising curve misses a reading by more than the limit. */
  'bench/force-falls': {
    direction: string;
    branch: string;
    extensionPercent: number;
    forceN: number;
    previousN: number;
    previousPercent: number;
    repairPercent: number;
  };
  'bench/width-contradicts': {
    direction: string;
    extensionPercent: number;
    widthMm: number;
    neighboursMm: number;
  };
  /** A width far below that of the unstretched strip. */
  'bench/width-too-small': { direction: string; extensionPercent: number; widthMm: number; startMm: number };
  'bench/width-start-differs': { direction: string; stripMm: number; widthMm: number };
  /** Narrowing per stretch of warp and weft multiply to nearly 1. */
  'bench/gains-no-area': { warpContraction: number; weftContraction: number; atPercent: number };
  /** `suspect` is a step in the force readings that may be the cause, if there is one. */
  'bench/unstable': {
    sharePercent: number;
    couplingPercent: number;
    suspect: { direction: string; specimen: number; extensionPercent: number } | null;
  };
  /** The bias strip pulls less than warp and weft alone would. */
  'bench/bias-contradicts': { extensionPercent: number; forceN: number; leastForceN: number };
  'bench/return-above-load': { direction: string; extensionPercent: number; returnN: number; loadN: number };
  'bench/return-beyond-load': { direction: string; extensionPercent: number; loadPercent: number };
  'bench/held-below-free': { direction: string; extensionPercent: number; heldN: number; freeN: number };
  'bench/masses-disagree': { direction: string; massG: number; meanG: number; differencePercent: number };
  'bench/denser-than-fibre': {
    densityKgM3: number;
    fibreKgM3: number;
    arealDensityGM2: number;
    thicknessMm: number;
    /** The slip of unit that would explain it, if one would. */
    looksLike: string | null;
  };
  'bench/overhang-too-long': { direction: string; overhangMm: number; lengthMm: number };
  /** A heart loop hangs between the height of a weightless strip and half the strip's length. */
  'bench/loop-height': { direction: string; heightMm: number; leastMm: number; mostMm: number };
}
