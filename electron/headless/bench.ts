import { fabricFromReadings } from '../../core/fabric/fabric-from-readings.ts';
import { inFile } from '../../core/fault/fault.ts';
import { parseBenchSheet } from '../../core/io/read-bench-sheet.ts';
import { fabricCard } from '../../core/sheet/fabric-card.ts';
import { benchAsText } from './bench-card.ts';
import { benchAsJson } from './bench-json.ts';
import { isTableFile, questionLines, tableAsJson, tableAsText, tableFromBytes } from './bench-table.ts';
import { exitCodes, type ExitCode } from './exit-codes.ts';
import { readBytes, readText } from './read-input.ts';
import type { Terminal } from './terminal.ts';

/** Prints the fabric that a bench sheet describes, or the curves in the table of a tensile tester. */
export async function bench(file: string, asJson: boolean, terminal: Terminal): Promise<ExitCode> {
  return isTableFile(file) ? benchTable(file, asJson, terminal) : benchSheet(file, asJson, terminal);
}

async function benchSheet(file: string, asJson: boolean, terminal: Terminal): Promise<ExitCode> {
  const text = await readText(file);
  const result = inFile(file, () => {
    const readings = parseBenchSheet(text);
    const fabric = fabricFromReadings(readings);
    const card = fabricCard(fabric, readings);
    return asJson ? JSON.stringify(benchAsJson(fabric, readings, card), null, 2) : benchAsText(card);
  });
  terminal.result(result);
  return exitCodes.done;
}

/** A table that leaves something open is bad input: nothing is guessed. */
async function benchTable(file: string, asJson: boolean, terminal: Terminal): Promise<ExitCode> {
  const bytes = await readBytes(file);
  const table = inFile(file, () => tableFromBytes(bytes));
  const questions = questionLines(table);
  if (questions.length > 0) {
    terminal.remark([`${file}:`, ...questions].join('\n'));
    return exitCodes.badInput;
  }
  terminal.result(asJson ? JSON.stringify(tableAsJson(table), null, 2) : tableAsText(table));
  return exitCodes.done;
}
