import { fixed } from '../sheet/number-format.ts';
import type { LibraryColumn } from '../sheet/library-order.ts';
import type { FaultSentence } from './word-tables.ts';

/** Above the library's columns: the word, and the unit beneath it. */
export const LIBRARY_COLUMNS: Readonly<
  Record<LibraryColumn, { readonly title: string; readonly unit: string }>
> = {
  name: { title: 'Fabric', unit: '' },
  lot: { title: 'Lot', unit: '' },
  date: { title: 'Read on', unit: '' },
  weight: { title: 'Weight', unit: 'g/m²' },
  thickness: { title: 'Thickness', unit: 'mm at kPa' },
  warp40: { title: 'Warp', unit: 'N at 40 %' },
  weft40: { title: 'Weft', unit: 'N at 40 %' },
  remarks: { title: 'Remarks', unit: '' },
};

/** As they stand from left to right. */
export const LIBRARY_COLUMN_ORDER: readonly LibraryColumn[] = [
  'name',
  'lot',
  'date',
  'weight',
  'thickness',
  'warp40',
  'weft40',
  'remarks',
];

/** Short words on the library's page. */
export const LIBRARY_WORDS = {
  title: 'Library',
  demonstration: 'Demonstration, invented',
  handed: 'Sheets handed over',
  choose: 'Choose folder …',
  handOver: 'Choose sheets …',
  chooseAgain: 'Another folder …',
  handOverAgain: 'Other sheets …',
  allow: 'Allow this folder again',
  readAgain: 'Look again',
  stop: 'Stop',
  goOn: 'Go on reading',
  search: 'Find by name, lot or note',
  searchEmpty: 'Find by name, lot or note …',
  clear: 'Clear',
  open: 'Open on the bench',
  duplicate: 'Duplicate …',
  compare: 'Compare A with B',
  markIt: 'Mark for comparing',
  unmarkIt: 'Take the mark away',
  showAll: 'Show all again',
  reading: 'Sheets read',
  mark: (name: string) => `Choose ${name} for comparing`,
  saveDraft: 'Save the draft here …',
  save: 'Save',
  download: 'Download',
  replace: 'Replace it',
  keepBoth: 'Keep it: choose another name',
  cancel: 'Leave it',
  name: 'Name',
  lot: 'Lot',
  fileName: 'File name',
  putAway: 'Put away',
  unread: 'not read yet',
  invented: 'invented',
  moreRows: (count: number) => `${count} more lines`,
  showMore: 'Show them too',
  marks: 'A, B',
  file: 'File',
  hint: '↑ ↓ move · Space marks for comparing · Enter opens',
  table: 'Fabrics in the library',
} as const;

/** Beneath the columns that need it. */
export const LIBRARY_NOTES = {
  strip: 'Pull of a strip 50 mm wide at 40 %, loading, off the fitted law.',
  beyond: '* the bench did not pull that far',
  unlikeFeet:
    'Thicknesses were measured under feet of unlike pressure: only those at like pressure may be compared.',
  noDelete:
    'Snugfield deletes nothing: to take a fabric out of the library, move its file in your file manager.',
} as const;

/** `3 fabrics`, `1 of 3 fabrics`, `no fabric`. */
export function countWords(shown: number, all: number): string {
  const of = all === 1 ? '1 fabric' : `${all} fabrics`;
  if (all === 0) return 'no fabric';
  return shown === all ? of : `${shown} of ${of}`;
}

export const brokenWords = (count: number): string =>
  count === 1 ? '1 cannot be read' : `${count} cannot be read`;

export const readingWords = (at: number, total: number): string => `Reading sheet ${at} of ${total}`;

export const stoppedWords = (left: number): string =>
  left === 1 ? 'Stopped: 1 sheet not read.' : `Stopped: ${left} sheets not read.`;

export const leftOutWords = (count: number): string =>
  `${count} more sheets lie in this folder than can be listed here. Spread them over several folders, one library each.`;

export const savedWords = (path: string, isDownload: boolean): string =>
  isDownload ? `${path} is in your downloads.` : `Saved ${path}.`;

/** Where there is nothing to list, or not as it should be. */
export const LIBRARY_STATES = {
  noFolder: {
    what: 'No folder chosen yet: these are the demonstration fabrics.',
    remedy: 'Choose the folder where your bench sheets lie (files ending in .bench.json), or an empty one.',
  },
  noFoldersHere: {
    what: 'This browser cannot keep a folder for Snugfield: these are the demonstration fabrics.',
    remedy:
      'Choose your bench sheets as files, all at once; what you save becomes a download. With Chrome, Edge or the Snugfield program the library lives in a folder.',
  },
  locked: (folder: string): FaultSentence => ({
    what: `The browser asks again before it opens the folder ${folder}.`,
    remedy: 'Click "Allow this folder again" and say yes, or choose another folder.',
  }),
  gone: (folder: string): FaultSentence => ({
    what: `The folder ${folder} is not where it was.`,
    remedy: 'Plug in its disk or connect to its share and look again, or choose another folder.',
  }),
  mayNotRead: (folder: string): FaultSentence => ({
    what: `The folder ${folder} may not be read by you.`,
    remedy: 'Ask whoever keeps it for leave to read and write there, or choose another folder.',
  }),
  empty: (folder: string): FaultSentence => ({
    what: `No bench sheets in ${folder} yet.`,
    remedy:
      'Save a draft here, or put files there whose names end in .bench.json; folders one level down are looked into too.',
  }),
  nothingFound: (search: string): FaultSentence => ({
    what: `No fabric has "${search}" in its name, lot or note.`,
    remedy: 'Try fewer letters.',
  }),
} as const;

/** Why a sheet was not written. */
export const WRITE_REFUSED: Readonly<Record<'not allowed' | 'no room' | 'gone', FaultSentence>> = {
  'not allowed': {
    what: 'This folder may not be written to.',
    remedy: 'Choose a folder that is yours, or ask whoever keeps this one for leave to write there.',
  },
  'no room': {
    what: 'The disk is full: nothing was written, what was there is as it was.',
    remedy: 'Make room, then save again.',
  },
  gone: {
    what: 'The folder of the library is not there any more: nothing was written.',
    remedy: 'Plug in its disk or connect to its share, or choose another folder, then save again.',
  },
};

/** The demonstration is for looking at. */
export const DEMO_READ_ONLY: FaultSentence = {
  what: 'The demonstration cannot be written to.',
  remedy: 'Choose a folder for your own fabrics first.',
};

/** Why a file is not read as a sheet, where no reader said so. */
export const SHEET_UNREAD = {
  tooLarge: (bytes: number): FaultSentence => ({
    what: `The file is ${fixed(bytes / 2 ** 20, 0)} MB large; a bench sheet is smaller than ${LARGEST_SHEET_MB} MB.`,
    remedy: 'It is hardly a bench sheet: give it another ending, or move it elsewhere.',
  }),
  vanished: {
    what: 'The file is not there any more, or may not be read.',
    remedy: 'Look again; if it stays like this, ask whoever keeps the folder.',
  },
  bug: (message: string): FaultSentence => ({
    what: `Something in Snugfield itself went wrong with this sheet: ${message}.`,
    remedy: 'The other sheets are unharmed. Please report it with this file.',
  }),
} as const;

/** Larger files are not read, MB: the demonstration sheets have a thousandth of it. */
export const LARGEST_SHEET_MB = 4;

/** What is asked before a sheet is replaced. */
export const replaceWords = (path: string): FaultSentence => ({
  what: `There is already a sheet ${path}.`,
  remedy: 'Replace it? What is in it now is lost.',
});

/** The name that is offered for a duplicate. */
export const copyName = (name: string): string => `${name} copy`;

/** What stands beside the two fabrics that are marked. */
export const COMPARED: Readonly<Record<'weight' | 'thickness' | 'warp40' | 'weft40', string>> = {
  weight: 'Weight, g/m²',
  thickness: 'Thickness, mm',
  warp40: 'Warp at 40 %, N',
  weft40: 'Weft at 40 %, N',
};

/** Why the demonstration cannot be duplicated or saved into, on the words that would do it. */
export const READ_ONLY_HINT = 'Choose a folder first: the demonstration is read only.';

/** Of two fabrics measured under unlike feet. */
export const notComparableWords = (a: string, b: string): string =>
  `Thickness not comparable: measured at ${a} and ${b} kPa.`;
