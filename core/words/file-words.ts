import type { FileFaults, ShapeProblem } from '../fault/file-faults.ts';
import type { FaultWords } from './word-tables.ts';

const problemText = ({ path, expected, value }: ShapeProblem): string =>
  `${path === '' ? 'The file' : path} should be ${expected}; found ${value}.`;

/** What is said of a file that cannot be read. */
export const fileFaultWords: FaultWords<FileFaults> = {
  'file/missing': ({ path }) => ({
    what: `There is no file ${path}, or it cannot be opened.`,
    remedy: 'Check the name and the folder; paths in a study file count from the study file itself.',
  }),
  'file/not-json': ({ line, column, problem }) => ({
    what: `Line ${line}, column ${column} is not JSON: ${problem}.`,
    remedy: 'Correct the text at that place; a text editor that knows JSON marks it too.',
  }),
  'file/wrong-shape': ({ others = [], ...first }) => ({
    what: [first, ...others].map(problemText).join(' '),
    remedy: 'Correct the value at that place in the file; the README lists every key with its unit.',
  }),
  'file/unknown-version': ({ path, known, value }) => ({
    what: `${path} is ${value}; this program reads version ${known}.`,
    remedy: `Set "${path}": ${known} if the file follows the README, or open it with the version of the program that wrote it.`,
  }),
  'file/unknown-kind': ({ value, known }) => ({
    what: `Files of the kind ${value === '' ? 'without an ending' : value} cannot be read here.`,
    remedy: `Use one of these: ${known}.`,
  }),
};
