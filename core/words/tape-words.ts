import type { BodyRegion } from '../body/body-regions.ts';
import type { BonyPlace, TissueSource } from '../body/tissue-map.ts';
import type { TapeFaults } from '../fault/tape-faults.ts';
import type { TapeFindings } from '../fault/tape-findings.ts';
import type { FaultWords, FindingWords } from './word-tables.ts';

/** `kneeLeft, elbowLeft` -> `knee left, elbow left`. */
const plain = (names: string): string => names.replaceAll(/([A-Z])/g, ' $1').toLowerCase();

/** What is said of a size chart that cannot be read. */
export const tapeFaultWords: FaultWords<TapeFaults> = {
  'chart/no-sizes': ({ found }) => ({
    what: `The size chart names no size: its first row reads "${found}".`,
    remedy: 'Let the first row be "measure" and then the name of each size.',
  }),
  'chart/no-rows': ({ name }) => ({
    what: `The size chart ${name} has no row of measures.`,
    remedy: 'Give at least one row, such as "waist" and a number under each size.',
  }),
  'chart/unknown-measure': ({ row, value, known }) => ({
    what: `Row ${row} of the size chart is called "${value}", which is no measure of the tape.`,
    remedy: `Use one of these names: ${known}.`,
  }),
  'chart/twice': ({ row, what, value }) => ({
    what: `Row ${row} of the size chart names the ${what} "${value}" a second time.`,
    remedy: 'Keep one of the two and remove or rename the other.',
  }),
  'chart/bad-unit': ({ value, known }) => ({
    what: `The size chart is said to be in "${value}".`,
    remedy: `Give its unit as one of these: ${known}.`,
  }),
  'chart/bad-value': ({ row, column, size, value }) => ({
    what: `Row ${row}, column ${column} of the size chart (size ${size}) reads "${value}", which is no number.`,
    remedy: 'Write a plain number, or leave the cell empty.',
  }),
  'chart/out-of-range': ({ row, size, measure, valueMm, lowestMm, highestMm }) => ({
    what: `Row ${row} of the size chart gives size ${size} a ${plain(measure)} of ${valueMm.toFixed(0)} mm; ${lowestMm} to ${highestMm} mm is possible.`,
    remedy: 'Check the unit of the chart, and whether a half girth was given.',
  }),
  'chart/no-such-size': ({ size, known }) => ({
    what: `The size chart has no size "${size}".`,
    remedy: `Choose one of these: ${known}.`,
  }),
  'chart/ragged-row': ({ row, cellCount, columnCount }) => ({
    what: `Row ${row} of the size chart has ${cellCount} cells where the first row has ${columnCount}.`,
    remedy: 'Give every row one cell per size; leave a cell empty where the chart has no number.',
  }),
};

/** What is said of a body whose measures leave something in doubt. */
export const tapeFindingWords: FindingWords<TapeFindings> = {
  'tape/not-found': ({ landmarks }) =>
    `Not found on this mesh: ${plain(landmarks)}. Place them by hand to have their girths.`,
  'tape/pieces-join': ({ level, girthMm }) =>
    `At the ${plain(level)} the skin of limb and trunk is one piece of ${girthMm.toFixed(0)} mm; the limb alone cannot be measured there.`,
  'tape/thighs-parted': ({ level, girthMm }) =>
    `At the ${plain(level)} both legs are one piece; parted half way between them, the tape reads ${girthMm.toFixed(0)} mm.`,
  'tape/facing-unsure': ({ turnDegrees }) =>
    `Front and back of this body are not certain; it was taken to face ${turnDegrees.toFixed(0)} degrees from the file’s front.`,
  'tape/no-waist': ({ heightMm }) =>
    `This body has no narrowest place between ribs and hips: the waist is taken by proportion, ${heightMm.toFixed(0)} mm up.`,
  'tape/limb-ends': ({ level }) =>
    `The body ends at the ${plain(level)}: the girth is that just before its end.`,
  'tape/no-person': ({ problem }) =>
    `This body was not read as a standing person: ${problem}. Only plain girths are given.`,
};

/** How a level is known, in the last column of the table. */
export const HOW_WORDS: Readonly<Record<'recipe' | 'found' | 'placed' | 'own', string>> = {
  recipe: 'form',
  found: 'found',
  placed: 'placed',
  own: 'own line',
};

export const TAPE_SIDE_WORDS: Readonly<Record<'left' | 'middle' | 'right', string>> = {
  left: 'left',
  middle: '',
  right: 'right',
};

/** Under a table that stands beside an invented chart. */
export const INVENTED_CHART_WORDS =
  'The size chart is invented. Give a chart of your own to compare with what you cut to.';

/** What the places of thin tissue are called. */
export const BONY_WORDS: Readonly<Record<BonyPlace, string>> = {
  collarBone: 'collar bone',
  ribEdge: 'edge of the ribs',
  spine: 'spine',
  iliacCrest: 'crest of the hip bone',
  elbow: 'elbow',
  kneecap: 'kneecap',
  shin: 'shin',
  ankleBones: 'ankle bone',
};

/** Where a value of the tissue map is from. */
export const TISSUE_SOURCE_WORDS: Readonly<Record<TissueSource, string>> = {
  recipe: 'the form’s own, an estimate',
  transferred: 'carried over from the form by landmarks, an estimate',
  even: 'as the study gives it, all over',
  rigid: 'taken as rigid',
  region: 'set by region',
  brush: 'set by the brush',
};

/** Parts of the body and regions, as fitters speak of them. */
export const REGION_WORDS: Readonly<Record<BodyRegion, string>> = {
  neck: 'neck',
  shoulder: 'shoulder',
  bust: 'bust',
  underBust: 'under-bust',
  belly: 'belly',
  upperBack: 'upper back',
  lumbar: 'small of the back',
  side: 'side',
  seat: 'seat',
  underSeat: 'under-seat fold',
  crotch: 'crotch',
  thigh: 'thigh',
  knee: 'knee',
  calf: 'calf',
  ankle: 'ankle',
  upperArm: 'upper arm',
  elbow: 'elbow',
  forearm: 'forearm',
  wrist: 'wrist',
  head: 'head',
};

/** Small print of every tissue map. */
export const TISSUE_ESTIMATE_WORDS =
  'Depth and modulus are estimates for relative softness: nothing is measured on this body.';
