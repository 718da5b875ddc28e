import type { FitFaults } from '../fault/fit-faults.ts';
import type { FitFindings } from '../fault/fit-findings.ts';
import type { FaultWords, FindingWords } from './word-tables.ts';

const mm = (value: number): string => `${value.toFixed(0)} mm`;

/** How a pattern cutter calls the measures of the fit body. */
const measureNames: Record<string, string> = {
  stature: 'height',
  ribs: 'under-bust',
  underbust: 'under-bust',
  topHip: 'top hip',
  midThigh: 'mid-thigh',
  upperArm: 'upper arm',
};

/** What the parameters of stance and shape are called. */
const shapeNames: Record<string, string> = {
  legSpread: 'turn of each leg outward',
  armAbduction: 'turn of each arm outward',
  thighGap: 'gap between the thighs',
  lumbarFurrow: 'furrow at the small of the back',
  seatCleft: 'cleft of the seat',
  bustSupport: 'support of the bust',
  relief: 'show of bones and muscles',
};

const unitSigns: Record<string, string> = { mm: ' mm', deg: '°', share: '' };

const nameOf = (measure: string): string => measureNames[measure] ?? measure;

/** What is said of measures that the fit body cannot take. */
export const fitFaultWords: FaultWords<FitFaults> = {
  'fit/measure-out-of-range': ({ measure, valueMm, lowestMm, highestMm }) => ({
    what: `The ${nameOf(measure)} is ${Number.isFinite(valueMm) ? mm(valueMm) : 'not a number'}; the fit body takes ${mm(lowestMm)} to ${mm(highestMm)}.`,
    remedy:
      'Check the unit and whether a half girth was given. For a size outside these limits, bring a body mesh of your own.',
  }),
  'fit/shape-out-of-range': ({ parameter, unit, value, lowest, highest }) => {
    const sign = unitSigns[unit] ?? '';
    const found = Number.isFinite(value) ? `${Number(value.toFixed(3))}${sign}` : 'not a number';
    return {
      what: `The ${shapeNames[parameter] ?? parameter} is ${found}; the fit body takes ${lowest}${sign} to ${highest}${sign}.`,
      remedy: 'Choose a value between these, or leave it out for the usual one.',
    };
  },
  'fit/size-unknown': ({ size, chart, known }) => ({
    what: `The size chart "${chart}" has no size "${size}".`,
    remedy: `Choose one of its sizes: ${known}.`,
  }),
  'fit/size-incomplete': ({ size, chart, measure }) => ({
    what: `The size chart "${chart}" gives size ${size} no ${nameOf(measure)}, which the fit body needs.`,
    remedy: `Add a row for the ${nameOf(measure)} to the chart, or give it beside the size.`,
  }),
  'fit/bust-against-underbust': ({ bustMm, underbustMm, leastDifferenceMm, mostDifferenceMm }) => ({
    what: `A bust of ${mm(bustMm)} over an under-bust of ${mm(underbustMm)} is a difference of ${mm(bustMm - underbustMm)}; the fit body can shape ${mm(leastDifferenceMm)} to ${mm(mostDifferenceMm)}.`,
    remedy: 'Measure both girths again, or choose the male figure for a flat chest.',
  }),
  'fit/girth-not-met': ({ measure, askedMm, reachedMm }) => ({
    what: `The fit body came to a ${nameOf(measure)} of ${reachedMm.toFixed(1)} mm where ${askedMm.toFixed(1)} mm was asked.`,
    remedy: `These girths do not go together on one figure. Ask for a ${nameOf(measure)} nearer to what was reached, or change the girths beside it.`,
  }),
};

/** What is said of a fit body that was made. */
export const fitFindingWords: FindingWords<FitFindings> = {
  'fit/girths-estimated': ({ girths }) =>
    `Not given and estimated from the other girths: ${girths.split(', ').map(nameOf).join(', ')}.`,
  'fit/tape-differs': ({ measure, askedMm, tapeMm }) =>
    `A tape round the finished form reads ${tapeMm.toFixed(1)} mm at the ${nameOf(measure)} where ${askedMm.toFixed(1)} mm was asked: the arms lie in its way.`,
};
