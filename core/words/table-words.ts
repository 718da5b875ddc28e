import type { TableCell, TableFaults } from '../fault/table-faults.ts';
import type { TableFindings } from '../fault/table-findings.ts';
import type { ColumnMeaning, TableQuestion } from '../io/tensile-table.ts';
import type { FaultSentence, FaultWords, FindingWords } from './word-tables.ts';

/** At most `decimals`, without trailing zeros. */
const plain = (value: number, decimals: number): string => String(Number(value.toFixed(decimals)));
const mm = (value: number): string => `${plain(value, 2)} mm`;
const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;
const whole = (value: number): string => String(value).replaceAll(/\B(?=(\d{3})+$)/g, ',');

const columnText = (column: number, header: string): string =>
  header === '' ? `column ${column}` : `column ${column} (${header})`;
/** `Row 12, column 3 (Kraft [N])`. */
const place = ({ row, column, header }: Pick<TableCell, 'row' | 'column' | 'header'>): string =>
  `Row ${row}, ${columnText(column, header)}`;
const quoted = (value: string): string => (value === '' ? 'nothing' : `"${value}"`);
/** `Warp, specimen 2`. */
const stripText = (direction: string, specimen: number): string => {
  const name = `specimen ${specimen}`;
  return direction === ''
    ? `S${name.slice(1)}`
    : `${direction.slice(0, 1).toUpperCase()}${direction.slice(1)}, ${name}`;
};
const markText = (mark: string): string => (mark === 'comma' ? 'decimal commas' : 'decimal points');

/** What a column may hold, for a list to choose from. */
export const columnMeaningWords: Readonly<Record<ColumnMeaning, string>> = {
  extension: 'Extension',
  force: 'Force',
  width: 'Width while pulled',
  stripWidth: 'Width of the unstretched strip',
  cycle: 'Cycle number',
  specimen: 'Specimen',
  direction: 'Direction',
  branch: 'Load or return',
  time: 'Time',
  ignored: 'Not used',
};

/** What is said of a tester's table that cannot be read. */
export const tableFaultWords: FaultWords<TableFaults> = {
  'table/too-large': ({ what, found, limit }) => ({
    what: `The whole file: ${whole(found)} ${what}; at most ${whole(limit)} are read.`,
    remedy: 'Export fewer readings (every tenth is plenty for a curve) or one specimen per file.',
  }),
  'table/no-numbers': ({ rowCount }) => ({
    what: `The whole file: in ${counted(rowCount, 'row')} there is no table of numbers with an extension and a force side by side.`,
    remedy:
      'Export the readings themselves as CSV or as text with tabs, not a report of results; each row needs an extension and a force.',
  }),
  'table/not-text': ({ row, column, character }) => ({
    what: `The whole file: it is no plain text; row ${row}, character ${column} is ${character}.`,
    remedy:
      'Save the table as CSV in UTF-8; a spreadsheet file (xlsx, ods) or a picture cannot be read here.',
  }),
  'table/open-quote': ({ row, column }) => ({
    what: `Row ${row}, column ${column}: the double quote that opens this cell is never closed.`,
    remedy: 'Close the quote in that cell, or take it away.',
  }),
  'table/stray-after-quote': ({ row, column, value }) => ({
    what: `Row ${row}, column ${column}: ${quoted(value)} stands behind the closing quote.`,
    remedy: 'Put the whole cell between the quotes; a quote inside it is written twice.',
  }),
  'table/not-a-number': (cell) => ({
    what: `${place(cell)}: ${quoted(cell.value)} is no number.`,
    remedy: 'Correct the cell, or take the row out; a unit belongs in the header.',
  }),
  'table/not-finite': (cell) => ({
    what: `${place(cell)}: ${quoted(cell.value)} is no number that can be measured.`,
    remedy:
      'Take the row out or let rows without a reading be left out, and check why the tester gave no value.',
  }),
  'table/empty-cell': (cell) => ({
    what: `${place(cell)}: ${cell.value === '' ? 'the cell is empty' : `${quoted(cell.value)} is no reading`}.`,
    remedy: 'Fill in the reading, take the row out, or let rows without a reading be left out.',
  }),
  'table/other-decimal-mark': (cell) => ({
    what: `${place(cell)}: ${quoted(cell.value)} does not fit the rest of the file, which has ${markText(cell.decimalMark)}.`,
    remedy: 'Write all numbers with the same decimal mark, or say which one the file has.',
  }),
  'table/thousands-mark': (cell) => ({
    what: `${place(cell)}: ${quoted(cell.value)} can be read in two ways in a file with ${markText(cell.decimalMark)}.`,
    remedy: 'Export without marks between thousands, or say which decimal mark the file has.',
  }),
  'table/ragged-row': ({ row, column, cellCount, columnCount }) => ({
    what: `Row ${row}, column ${column}: the row has ${counted(cellCount, 'cell')}, its header ${columnCount}.`,
    remedy: 'Give the row as many cells as the header has; look for a separator too many or too few.',
  }),
  'table/commas-both-ways': ({ row, column, cellCount, columnCount }) => ({
    what: `Row ${row}, column ${column}: the row has ${counted(cellCount, 'cell')}, its header ${columnCount}; the comma seems to separate cells and to mark decimals.`,
    remedy: 'Export with semicolons or tabs between the cells, or with decimal points.',
  }),
  'table/not-a-cycle': (cell) => ({
    what: `${place(cell)}: ${quoted(cell.value)} is no cycle number.`,
    remedy: 'Give a whole number in every row, or mark the column as not used.',
  }),
  'table/not-a-branch': (cell) => ({
    what: `${place(cell)}: ${quoted(cell.value)} says neither load nor return.`,
    remedy: 'Write load or return, or mark the column as not used: the peak then parts the two.',
  }),
  'table/negative': (cell) => ({
    what: `${place(cell)}: the ${cell.what} ${quoted(cell.value)} lies far below ${cell.what === 'extension' ? 'the unstretched length' : 'zero'}.`,
    remedy:
      cell.what === 'extension'
        ? 'Set the extension to zero at the start of the test; a stretch ratio starts at 1 and needs that unit.'
        : 'Export pull as positive and zero the load cell before the test.',
  }),
  'table/width-not-positive': (cell) => ({
    what: `${place(cell)}: a strip cannot be ${quoted(cell.value)} wide.`,
    remedy: 'Leave the cell empty where no width was read; give the width itself, not its change.',
  }),
  'table/no-such-column': ({ column, columnCount }) => ({
    what: `The whole file: there is no column ${column}; it has ${counted(columnCount, 'column')}.`,
    remedy: `Choose a column from 1 to ${columnCount}.`,
  }),
  'table/unit-unfit': ({ column, header, meaning, unit }) => ({
    what: `The whole file: ${columnText(column, header)} is taken as ${meaning}, which cannot be in ${unit}.`,
    remedy: 'Choose another unit, or another meaning for the column.',
  }),
  'table/length-unfit': ({ what, valueMm }) => ({
    what: `The whole file: ${lengthNames[what] ?? what} is given as ${valueMm} mm.`,
    remedy: 'Give a length above 0 mm.',
  }),
  'table/no-such-curve': ({ direction, cycle }) => ({
    what: `The whole file: it holds no load curve ${direction === '' ? 'without a direction' : `in ${direction} direction`}${cycle === null ? '' : ` in cycle ${cycle}`}.`,
    remedy: 'Choose a direction, specimens and a cycle that the file holds.',
  }),
};

const lengthNames: Readonly<Record<string, string>> = {
  gaugeMm: 'the gauge length',
  circumferenceMm: 'the circumference of the loop',
  widthMm: 'the width of the unstretched strip',
};

/** What is said of a tester's table that could be read. */
export const tableFindingWords: FindingWords<TableFindings> = {
  'table/rows-passed-over': ({ row, count, value }) =>
    `${counted(count, 'row')} from row ${row} on (${quoted(value)}) ${count === 1 ? 'is' : 'are'} no reading and ${count === 1 ? 'was' : 'were'} passed over.`,
  'table/rows-left-out': ({ row, column, header, value, count }) =>
    `${counted(count, 'row')} without a reading left out; the first is row ${row} with ${quoted(value)} in ${columnText(column, header)}.`,
  'table/cycles-counted': ({ cycles, thresholdPercent }) =>
    `The file numbers no cycles; ${counted(cycles, 'cycle')} ${cycles === 1 ? 'was' : 'were'} told by where the extension goes back by more than ${plain(thresholdPercent, 1)} % of its range.`,
  'table/cycle-chosen': ({ cycle, cycles }) =>
    `Cycle ${cycle} of ${cycles} is taken; ASTM D4964 reads the third, ISO 20932-1 the fifth, so compare fabrics on the same cycle.`,
  'table/no-complete-cycle': ({ cycle }) =>
    `No cycle goes out and all the way back; cycle ${cycle} is taken as far as it goes.`,
  'table/cycle-incomplete': ({ direction, specimen, cycle, row }) =>
    `${stripText(direction, specimen)}: cycle ${cycle} ends in row ${row} before it is complete.`,
  'table/falls-before-first-load': ({ specimen, row, count }) =>
    `Specimen ${specimen}: ${counted(count, 'reading')} from row ${row} on, on the way back before the first pull, ${count === 1 ? 'is' : 'are'} left out.`,
  'table/hold-left-out': ({ specimen, cycle, row, count }) =>
    `Specimen ${specimen}, cycle ${cycle}: ${counted(count, 'reading')} from row ${row} on, held at the peak, ${count === 1 ? 'is' : 'are'} left out.`,
  'table/width-is-constant': ({ column, header, widthMm }) =>
    `${columnText(column, header).replace('column', 'Column')} stays at ${mm(widthMm)} while the strip is pulled; it is taken as the width of the unstretched strip.`,
  'table/value-without-unit': ({ row, column, key, value }) =>
    `Row ${row}, column ${column}: ${key} is ${quoted(value)} without a unit of length and was not used.`,
  'table/no-return': ({ direction, specimen, cycle }) =>
    `${stripText(direction, specimen)}: cycle ${cycle} has no way back; the return is that of the other specimens.`,
  'table/negative-set-to-zero': ({ direction, branch, specimen, count }) =>
    `${stripText(direction, specimen)}, ${branch}: ${counted(count, 'reading')} a little below zero ${count === 1 ? 'was' : 'were'} taken as zero.`,
  'table/readings-merged': ({ direction, branch, specimen, count }) =>
    `${stripText(direction, specimen)}, ${branch}: ${counted(count, 'reading')} at an extension already read (within 0.01 %) went into the mean there.`,
  'table/strip-widths-differ': ({ specimen, widthMm, sheetMm }) =>
    `Specimen ${specimen} is ${mm(widthMm)} wide; its forces and widths are brought to the ${mm(sheetMm)} of the sheet.`,
};

/** What the file leaves open, and how to answer. */
export function sayTableQuestion(question: TableQuestion): FaultSentence {
  switch (question.asks) {
    case 'decimalMark':
      return {
        what: `${place(question)}: ${quoted(question.value)} can be a whole number with a mark between thousands, or a number with three decimals.`,
        remedy: 'Say whether the file has decimal points or decimal commas.',
      };
    case 'column': {
      const names = question.candidates.map(({ column, header }) => columnText(column, header)).join(', ');
      return {
        what: `Which column is the ${columnMeaningWords[question.meaning].toLowerCase()}? It could be ${names}.`,
        remedy: 'Choose one, and mark the others as not used or as what they are.',
      };
    }
    case 'unit':
      return {
        what: `C${columnText(question.column, question.header).slice(1)} does not say its unit.`,
        remedy: `Choose one of ${question.choices.join(', ')}${question.likely === null ? '' : `; by its name and numbers it may be ${question.likely}`}.`,
      };
    case 'gaugeMm':
    case 'circumferenceMm':
    case 'widthMm':
      return {
        what: `C${columnText(question.column, question.header).slice(1)} is in ${question.unit}; for the bench sheet ${lengthNames[question.asks]} is needed.`,
        remedy: `Give ${lengthNames[question.asks]} in mm.`,
      };
    case 'direction':
      return {
        what: `${place(question)}: ${quoted(question.text)} is not known as a direction.`,
        remedy: 'Say whether it is warp, weft or bias.',
      };
  }
}
