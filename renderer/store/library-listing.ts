import { isSheetPath } from '../../core/sheet/library-entry.ts';
import type { LibraryHost, LibraryWish } from './library-host.ts';
import { unreadCount, type LibraryStore, type SheetFile, type SheetLine } from './library-store.ts';
import { readLines, type InspectSheets, type ReadBytes } from './read-lines.ts';

/** What the library needs from outside. */
export interface LibraryParts {
  readonly host: LibraryHost;
  /** Reads sheets, in their order; computed in the bench's worker. */
  readonly inspect: InspectSheets;
  /** ms, from whenever: slices of reading grow and shrink with the time they take. */
  readonly now: () => number;
}

/** What lies in the library, kept up with the folder. */
export interface LibraryListing {
  /**
   * Lists the folder, or the demonstration where there is none, and reads what is new or changed.
   *
   * @param listed - Called when the lines are there and before they are read.
   */
  readonly list: (wish: LibraryWish, listed?: () => void) => Promise<void>;
  /** Reads what is still unread. */
  readonly readOn: () => Promise<void>;
  readonly stop: () => void;
  readonly bytesOf: ReadBytes;
}

/** Keeps the store's lines. What was begun before a later listing or a stop comes to nothing. */
export function createLibraryListing(
  store: LibraryStore,
  { host, inspect, now }: LibraryParts,
): LibraryListing {
  /** Bytes of the demonstration's sheets while they are what is listed. */
  let demo: ReadonlyMap<string, Uint8Array> | null = null;
  /** Counts up with every listing and stop. */
  let round = 0;

  const bytesOf: ReadBytes = async (paths) => {
    const files = demo;
    if (files === null) return host.readLibrary(paths);
    return paths.flatMap((path) => {
      const bytes = files.get(path);
      return bytes === undefined ? [] : [{ path, bytes }];
    });
  };

  async function readOn(): Promise<void> {
    const mine = ++round;
    const isWanted = (): boolean => mine === round;
    await readLines(store, { bytesOf, inspect, now, isWanted });
    if (isWanted()) store.setState({ activity: { kind: 'idle' } });
  }

  async function list(wish: LibraryWish, listed?: () => void): Promise<void> {
    const mine = ++round;
    store.setState({ activity: { kind: 'listing' }, notice: null, question: null });
    const found = await host.openLibrary(wish);
    const sheets = found?.kind === 'none' ? (await host.readDemo()).filter(isSheetPath) : null;
    if (mine !== round) return;
    // Null: the person thought better of it. All stays, and what was being read goes on.
    if (found !== null) {
      const isSameFolder = wish !== 'picked' && (demo === null) === (sheets === null);
      const before = isSameFolder ? store.getState().lines : [];
      demo = sheets && new Map(sheets.map(({ path, bytes }) => [path, bytes]));
      if (found.kind === 'open') {
        const { kind, name, writes, leftOut } = found;
        store.setState({ place: { kind, name, writes }, leftOut, ...laid(store, found.files, before) });
      } else {
        const files = (sheets ?? []).map(({ path, bytes }) => ({ path, size: bytes.length, changed: 0 }));
        store.setState({ place: found, leftOut: 0, ...laid(store, files, before) });
      }
    }
    listed?.();
    await readOn();
  }

  return {
    list,
    readOn,
    bytesOf,
    stop: () => {
      round++;
      store.setState({ activity: { kind: 'idle' } });
    },
  };
}

/**
 * Files as lines; those that have not changed keep what was read of them.
 *
 * @param before - Lines whose files may still be the same.
 */
function laid(store: LibraryStore, files: readonly SheetFile[], before: readonly SheetLine[]) {
  const known = new Map(before.map((line) => [line.path, line]));
  const lines = files.map((file): SheetLine => {
    const line = known.get(file.path);
    const isSame = line?.file.size === file.size && line.file.changed === file.changed;
    return isSame ? line : { path: file.path, file, entry: null, broken: null };
  });
  const { current, marked } = store.getState();
  const paths = new Set(files.map(({ path }) => path));
  return {
    lines,
    current: current !== null && paths.has(current) ? current : null,
    marked: marked.filter((path) => paths.has(path)),
    activity: { kind: 'reading', done: 0, total: unreadCount(lines) } as const,
  };
}
