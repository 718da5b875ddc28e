import { renamedSheet, sheetFileName } from '../../core/sheet/library-entry.ts';
import { DEMO_READ_ONLY, savedWords, SHEET_UNREAD, WRITE_REFUSED } from '../../core/words/library-words.ts';
import { createLibraryListing, type LibraryListing, type LibraryParts } from './library-listing.ts';
import { libraryView, type LibraryNotice, type LibraryStore, type LibraryView } from './library-store.ts';

/** Everything a person can do in the library. Faults are said in the store's notice; no promise is refused. */
export interface LibraryDeeds extends LibraryView {
  /** The folder of last time, or the demonstration where there is none. */
  readonly open: () => Promise<void>;
  /** Asks for a folder, or for sheets where the browser lets a page have none. On a click only. */
  readonly choose: () => Promise<void>;
  /** Asks the browser's leave for the folder again. On a click only. */
  readonly allow: () => Promise<void>;
  /** Lists anew; only what has changed is read again. */
  readonly lookAgain: () => Promise<void>;
  readonly stop: () => void;
  /** Reads what a stop has left. */
  readonly goOn: () => Promise<void>;
  /** A sheet's text, to be opened or compared; null where it is gone, which has then been said. */
  readonly read: (path: string) => Promise<string | null>;
  /** Writes a sheet. Where one of that name stands, `question` waits for `replace` or `keep`. */
  readonly save: (path: string, text: string) => Promise<void>;
  readonly replace: () => Promise<void>;
  readonly keep: () => void;
  /** The same readings under another name and lot, beside the original. */
  readonly duplicate: (path: string, as: { readonly name: string; readonly lot: string }) => Promise<void>;
}

/** The deeds of a library over its store. */
export function libraryDeeds(store: LibraryStore, parts: LibraryParts): LibraryDeeds {
  const listing = createLibraryListing(store, parts);
  const say = (notice: LibraryNotice): void => store.setState({ notice });

  /** Says whatever goes wrong. */
  async function guarded<T>(work: () => Promise<T>): Promise<T | null> {
    try {
      return await work();
    } catch (error) {
      const what = error instanceof Error ? error.message : String(error);
      store.setState({ activity: { kind: 'idle' } });
      say({ what, remedy: '', tone: 'fault' });
      return null;
    }
  }
  const deed = (work: () => Promise<void>) => async (): Promise<void> => void (await guarded(work));

  const write = (path: string, text: string, replace = false): Promise<void> =>
    writeSheet({ store, parts, listing, say }, { path, text, replace });

  async function read(path: string): Promise<string | null> {
    const file = (await listing.bytesOf([path]))[0];
    if (file !== undefined) return new TextDecoder().decode(file.bytes);
    const { what, remedy } = SHEET_UNREAD.vanished;
    say({ what: `${path}: ${what}`, remedy, tone: 'fault' });
    return null;
  }

  return {
    ...libraryView(store),
    open: deed(() => listing.list('remembered')),
    choose: deed(() => listing.list('picked')),
    allow: deed(() => listing.list('allowed')),
    lookAgain: deed(() => listing.list('remembered')),
    stop: listing.stop,
    goOn: deed(listing.readOn),
    read: (path) => guarded(() => read(path)),
    save: (path, text) => deed(() => write(path, text))(),
    replace: deed(async () => {
      const { question } = store.getState();
      store.setState({ question: null });
      if (question !== null) await write(question.path, question.text, true);
    }),
    keep: () => store.setState({ question: null }),
    duplicate: (path, as) =>
      deed(async () => {
        const text = await read(path);
        if (text === null) return;
        const folder = path.slice(0, path.lastIndexOf('/') + 1);
        await write(`${folder}${sheetFileName(as.name, as.lot)}`, renamedSheet(text, as));
      })(),
  };
}

interface Writing {
  readonly store: LibraryStore;
  readonly parts: LibraryParts;
  readonly listing: LibraryListing;
  readonly say: (notice: LibraryNotice) => void;
}

interface WantedSheet {
  readonly path: string;
  readonly text: string;
  readonly replace: boolean;
}

async function writeSheet(
  { store, parts, listing, say }: Writing,
  { path, text, replace }: WantedSheet,
): Promise<void> {
  const { place } = store.getState();
  // Without a folder a browser still gives downloads.
  if (place.kind === 'unopened' || (place.kind === 'none' && place.keepsFolder)) {
    say({ ...DEMO_READ_ONLY, tone: 'fault' });
    return;
  }
  const done = await parts.host.writeLibrary(path, text, replace);
  switch (done.kind) {
    case 'exists':
      store.setState({ question: { path: done.path, text } });
      return;
    case 'refused':
      say({ ...WRITE_REFUSED[done.reason], tone: 'fault' });
      return;
    case 'written': {
      const isDownload = place.kind !== 'open' || place.writes === 'downloads';
      await listing.list('remembered', () => {
        // What is saved must be seen, whatever was searched for.
        store.setState({ search: '', onlyBroken: false, current: done.file.path, asking: null });
        say({ what: savedWords(done.file.path, isDownload), remedy: '', tone: 'remark' });
      });
      return;
    }
    default:
      done satisfies never;
  }
}
