import type { BlockFaults } from '../fault/block-faults.ts';
import type { BlockFindings } from '../fault/block-findings.ts';
import type { FaultWords, FindingWords } from './word-tables.ts';

/** `kneeLeft` -> `knee left`. */
const plain = (name: string): string => name.replaceAll(/([A-Z])/g, ' $1').toLowerCase();

const mm = (value: number): string => `${value.toFixed(0)} mm`;

/** What is said of a spec sheet that cannot be drafted. */
export const blockFaultWords: FaultWords<BlockFaults> = {
  'block/no-landmark': ({ landmark }) => ({
    what: `This body has no ${plain(landmark)}: the block cannot be drafted on it.`,
    remedy: 'Place that level on the body by hand, or leave its girth out of the sheet.',
  }),
  'block/girth-missing': ({ level }) => ({
    what: `The sheet gives no ${plain(level)} girth.`,
    remedy: `Give the relaxed ${plain(level)} girth of the garment lying flat, in mm.`,
  }),
  'block/opening-off': ({ openingMm, leastMm, mostMm }) => ({
    what: `No leg curve between this side seam and gusset makes a leg opening of ${mm(openingMm)}.`,
    remedy: `Give a leg opening between ${mm(leastMm)} and ${mm(mostMm)}, or change the side seam or the centre lengths.`,
  }),
  'block/length-missing': ({ length }) => ({
    what: `The sheet gives no ${plain(length)} length.`,
    remedy: `Give the relaxed ${plain(length)} length of the garment lying flat, in mm.`,
  }),
  'block/no-panel': ({ panel }) => ({
    what: `These numbers make no ${plain(panel)} panel: its edges would not meet, or would cross each other.`,
    remedy: 'Bring girths, rises, inseam, side seam and the heights held back towards each other.',
  }),
};

/** What is said of a spec sheet that can be drafted but will not be worn as it is meant. */
export const blockFindingWords: FindingWords<BlockFindings> = {
  'block/girth-loose': ({ level, relaxedMm, bodyMm }) =>
    `The ${plain(level)} girth (${mm(relaxedMm)}) is no smaller than the body (${mm(bodyMm)}): nothing holds there. Below ${mm(bodyMm)} it begins to hold.`,
  'block/rise-long': ({ side, riseMm, sideMm, offMm, fitsMm }) =>
    `The ${side} rise (${mm(riseMm)}) is long for a side seam of ${mm(sideMm)}: the waist would stand up ${mm(offMm)} at the centre ${side}. ${mm(fitsMm)} would fit.`,
  'block/rise-short': ({ side, riseMm, sideMm, offMm, fitsMm }) =>
    `The ${side} rise (${mm(riseMm)}) is short for a side seam of ${mm(sideMm)}: the waist would be drawn down ${mm(offMm)} at the centre ${side}. ${mm(fitsMm)} would fit.`,
  'block/crotch-low': ({ inseamMm, sideMm, offMm, fitsMm }) =>
    `The inseam (${mm(inseamMm)}) is short for a side seam of ${mm(sideMm)}: the crotch would hang ${mm(offMm)} below the body. ${mm(fitsMm)} would reach it.`,
  'block/crotch-high': ({ inseamMm, sideMm, offMm, fitsMm }) =>
    `The inseam (${mm(inseamMm)}) is long for a side seam of ${mm(sideMm)}: it would push the crotch up by ${mm(offMm)}. ${mm(fitsMm)} would fit.`,
  'block/hem-below-knee': ({ hemMm, kneeMm, inseamMm, fitsMm }) =>
    `With an inseam of ${mm(inseamMm)} the hem lies at ${mm(hemMm)}, below the middle of the knee (${mm(kneeMm)}): a short would creep there. Up to ${mm(fitsMm)} it stays above; for longer legs choose the legging.`,
};
