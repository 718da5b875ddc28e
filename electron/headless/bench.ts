import { fabricFromReadings } from '../../core/fabric/fabric-from-readings.ts';
import { inFile } from '../../core/fault/fault.ts';
import { parseBenchSheet } from '../../core/io/read-bench-sheet.ts';
import { fabricCard } from '../../core/sheet/fabric-card.ts';
import { benchAsText } from './bench-card.ts';
import { benchAsJson } from './bench-json.ts';
import { tableWish, type TableOptions } from './bench-options.ts';
import { isTableFile, questionLines, tableAsJson, tableAsText, tableFromBytes } from './bench-table.ts';
import { exitCodes, type ExitCode } from './exit-codes.ts';
import { readBytes, readText } from './read-input.ts';
import type { Terminal } from './terminal.ts';

/** What the command is asked for beside the file. */
interface BenchOptions {
  readonly json: boolean;
  /** Answers to what a tester's table leaves open. */
  readonly table: TableOptions;
}

/** Prints the fabric that a bench sheet describes, or the curves in the table of a tensile tester. */
export async function bench(
  file: string,
  { json, table }: BenchOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  if (isTableFile(file)) return benchTable(file, { json, table }, terminal);
  if (Object.keys(table).length === 0) return benchSheet(file, json, terminal);
  terminal.remark(
    `${file}: options about a table say nothing of a bench sheet, which holds all that itself.\nLeave them out, or name a tester's table (.csv, .tsv, .txt).`,
  );
  return exitCodes.badInput;
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
async function benchTable(
  file: string,
  { json, table: options }: BenchOptions,
  terminal: Terminal,
): Promise<ExitCode> {
  const bytes = await readBytes(file);
  const table = inFile(file, () => tableFromBytes(bytes, tableWish(options)));
  const questions = questionLines(table);
  if (questions.length > 0) {
    terminal.remark([`${file}:`, ...questions].join('\n'));
    return exitCodes.badInput;
  }
  terminal.result(json ? JSON.stringify(tableAsJson(table), null, 2) : tableAsText(table));
  return exitCodes.done;
}
