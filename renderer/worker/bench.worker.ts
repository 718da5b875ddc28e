import { fabricFromReadings } from '../../core/fabric/fabric-from-readings.ts';
import { Fault, inFile } from '../../core/fault/fault.ts';
import { benchSheetText, type BenchSheet } from '../../core/io/bench-sheet.ts';
import { checkBenchSheet, readingsOf } from '../../core/io/read-bench-sheet.ts';
import { fabricCard } from '../../core/sheet/fabric-card.ts';
import { readTensileTable } from '../../core/io/read-tensile-table.ts';
import { sheetReading, type SheetReading } from '../../core/sheet/library-entry.ts';
import { readJson } from '../../core/io/read-json.ts';
import type {
  FitOutcome,
  FittedFabric,
  FromBench,
  PartNumbers,
  SheetParts,
  ToBench,
} from './bench-messages.ts';
import { takeStrips } from './bench-table.ts';
import { partNumbers } from './bench-numbers.ts';
import type { PostedFault } from './messages.ts';
import { postedFault, troubleOf } from './trouble.ts';

/** The side of a worker's global scope that is used here; the DOM's types know the window's side only. */
interface WorkerScope {
  readonly postMessage: (message: FromBench, options: StructuredSerializeOptions) => void;
  readonly addEventListener: (kind: 'message', hear: (event: MessageEvent<ToBench>) => void) => void;
}

/** The only place that computes for the bench. It keeps nothing between two messages. */
// oxlint-disable-next-line typescript/no-unsafe-type-assertion -- the worker's global scope has no type here
const scope = globalThis as unknown as WorkerScope;
const post = (message: FromBench): void => scope.postMessage(message, { transfer: [] });

const NO_NUMBERS: PartNumbers = { arealDensity: null, thickness: null, bendingRigidity: null };

scope.addEventListener('message', ({ data }) => {
  try {
    post(answer(data));
  } catch (error) {
    const trouble = troubleOf(error);
    if (trouble.kind === 'fault') post({ kind: 'refused', turn: data.turn, fault: trouble.fault });
    else post({ ...trouble, turn: data.turn });
  }
});

function answer(asked: ToBench): FromBench {
  const { turn } = asked;
  switch (asked.kind) {
    case 'fit':
      return { kind: 'fitted', turn, ...fitted(asked.parts, asked.sheet) };
    case 'readSheet': {
      const { name, text } = asked;
      return { kind: 'sheet', turn, name, sheet: sheetOf(text, name) };
    }
    case 'fitBeside': {
      const { name, text } = asked;
      return { kind: 'beside', turn, fabric: inFile(name, () => fittedFabric(sheetOf(text, name))) };
    }
    case 'inspect':
      return { kind: 'inspected', turn, readings: asked.texts.map(inspected) };
    case 'readTable': {
      const { name, text, wish } = asked;
      return { kind: 'table', turn, table: inFile(name, () => readTensileTable(text, wish)) };
    }
    case 'takeStrips': {
      const { name, text, wish, strips, units } = asked;
      const taken = inFile(name, () => takeStrips(readTensileTable(text, wish), strips, units));
      return { kind: 'strips', turn, strips: taken };
    }
    case 'writeSheet':
      return { kind: 'sheetText', turn, text: benchSheetText(asked.sheet) };
    default:
      throw new Error(`Nobody knows ${String(asked satisfies never)}.`);
  }
}

const inspected = (text: string): SheetReading =>
  sheetReading(() => {
    const readings = readingsOf(checkBenchSheet(readJson(text)));
    return { readings, fabric: fabricFromReadings(readings) };
  });

const sheetOf = (text: string, name: string): BenchSheet =>
  inFile(name, () => checkBenchSheet(readJson(text)));

/** Whatever of a sheet can be said: the numbers of its parts even where the fit is refused. */
function fitted(parts: SheetParts, sheet: BenchSheet | null): { numbers: PartNumbers; outcome: FitOutcome } {
  const [numbers, partFault] = orFault(() => partNumbers(parts), NO_NUMBERS);
  if (partFault !== null) return { numbers, outcome: { kind: 'fault', fault: partFault } };
  if (sheet === null) return { numbers, outcome: { kind: 'unfinished' } };
  const [fabric, fault] = orFault(() => fittedFabric(sheet), null);
  return {
    numbers,
    outcome: fabric === null ? { kind: 'fault', fault: fault! } : { kind: 'fabric', fabric },
  };
}

function orFault<T>(work: () => T, otherwise: T): [T, PostedFault | null] {
  try {
    return [work(), null];
  } catch (error) {
    if (error instanceof Fault) return [otherwise, postedFault(error)];
    throw error;
  }
}

function fittedFabric(sheet: BenchSheet): FittedFabric {
  const readings = readingsOf(checkBenchSheet(sheet));
  const fabric = fabricFromReadings(readings);
  return {
    sheet,
    card: fabricCard(fabric, readings),
    strips: fabric.strips ?? null,
    held: fabric.heldWidth ?? null,
  };
}
