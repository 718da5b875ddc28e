import type { SheetReading } from '../../core/sheet/library-entry.ts';
import { LARGEST_SHEET_MB, SHEET_UNREAD } from '../../core/words/library-words.ts';
import { sayFault } from '../../core/words/say.ts';
import type { FaultSentence } from '../../core/words/word-tables.ts';
import type { NamedBytes } from './library-host.ts';
import type { LibraryStore, SheetLine } from './library-store.ts';

/** Reads sheets' texts, in their order. */
export type InspectSheets = (texts: readonly string[]) => Promise<readonly SheetReading[]>;

export type ReadBytes = (paths: readonly string[]) => Promise<readonly NamedBytes[]>;

/** Sheets read at once in the beginning, and at most. */
const FIRST_SLICE = 8;
const LARGEST_SLICE = 64;
/** ms that a slice should take: short enough for a stop to be heard, long enough not to draw all the time. */
const SLICE_TIME = 250;
const LARGEST_BYTES = LARGEST_SHEET_MB * 2 ** 20;

interface Reading {
  readonly bytesOf: ReadBytes;
  readonly inspect: InspectSheets;
  /** ms, from whenever. */
  readonly now: () => number;
  /** False as soon as nobody waits for it any more. */
  readonly isWanted: () => boolean;
}

/** What is found out of a line. */
type Outcome = Pick<SheetLine, 'entry' | 'broken'>;

/** Reads the unread lines slice by slice; each slice shows as soon as it is read. */
export async function readLines(store: LibraryStore, reading: Reading): Promise<void> {
  const unread = store.getState().lines.filter(({ entry, broken }) => entry === null && broken === null);
  const total = unread.length;
  let size = FIRST_SLICE;
  for (let from = 0; from < total;) {
    if (!reading.isWanted()) return;
    store.setState({ activity: { kind: 'reading', done: from, total } });
    const slice = unread.slice(from, from + size);
    const started = reading.now();
    // One slice after another: the worker reads one sheet at a time anyway.
    // oxlint-disable-next-line no-await-in-loop
    const outcomes = await readSlice(slice, reading);
    if (!reading.isWanted()) return;
    store.setState(({ lines }) => ({
      lines: lines.map((line) => {
        const outcome = outcomes.get(line.path);
        return outcome === undefined ? line : { ...line, ...outcome };
      }),
    }));
    from += slice.length;
    size = nextSize(size, reading.now() - started);
  }
}

/** At most twice the last one, and as many as fit the time. */
const nextSize = (size: number, took: number): number =>
  Math.max(1, Math.min(LARGEST_SLICE, 2 * size, Math.round((size * SLICE_TIME) / Math.max(took, 1))));

async function readSlice(
  slice: readonly SheetLine[],
  { bytesOf, inspect }: Reading,
): Promise<ReadonlyMap<string, Outcome>> {
  const outcomes = new Map<string, Outcome>();
  const small = slice.filter(({ path, file }) => {
    const isSmall = file.size <= LARGEST_BYTES;
    if (!isSmall) outcomes.set(path, broken(SHEET_UNREAD.tooLarge(file.size)));
    return isSmall;
  });
  const files = await bytesOf(small.map(({ path }) => path));
  for (const { path } of small) outcomes.set(path, broken(SHEET_UNREAD.vanished));
  const readings = await inspectAll(files, inspect);
  files.forEach(({ path }, i) => outcomes.set(path, readings[i]!));
  return outcomes;
}

/** A bug met in one sheet must not hide the others: where a slice fails, its sheets are read one by one. */
async function inspectAll(files: readonly NamedBytes[], inspect: InspectSheets): Promise<readonly Outcome[]> {
  const texts = files.map(({ bytes }) => new TextDecoder().decode(bytes));
  try {
    return (await inspect(texts)).map(outcomeOf);
  } catch (error) {
    if (texts.length > 1) {
      return (await Promise.all(files.map((file) => inspectAll([file], inspect)))).flat();
    }
    return [broken(SHEET_UNREAD.bug(error instanceof Error ? error.message : String(error)))];
  }
}

const broken = (words: FaultSentence): Outcome => ({ entry: null, broken: words });

const outcomeOf = (reading: SheetReading): Outcome =>
  reading.kind === 'sound' ? { entry: reading.entry, broken: null } : broken(sayFault(reading.fault));
