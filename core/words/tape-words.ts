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
