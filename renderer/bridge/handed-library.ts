import type { LibraryFile, NamedFile } from '../../electron/contract.ts';
import type { LibraryCalls } from './library-calls.ts';
import { isSheetName, writtenSteps } from './sheet-path.ts';

/** A sheet handed over. */
interface HandedSheet extends NamedFile {
  readonly changed: number;
}

/** What the library without a folder needs of the page. */
export interface HandedParts {
  /** Asks for files; none where the person thinks better of it. */
  readonly pick: () => Promise<readonly HandedSheet[]>;
  readonly download: (text: string, name: string) => Promise<unknown>;
  /** ms since 1970. */
  readonly now: () => number;
}

/** The library where the browser lets a page have no folder: sheets handed over at once, written as downloads. */
export function handedLibrary({ pick, download, now }: HandedParts): LibraryCalls {
  const sheets = new Map<string, HandedSheet>();
  let isOpen = false;

  const facts = ({ path, bytes, changed }: HandedSheet): LibraryFile => ({
    path,
    size: bytes.length,
    changed,
  });
  const files = (): readonly LibraryFile[] =>
    Array.from(sheets.values(), facts).sort((a, b) => (a.path < b.path ? -1 : 1));

  return {
    openLibrary: async (wish) => {
      if (wish === 'picked') {
        const picked = (await pick()).filter(({ path }) => isSheetName(path));
        if (picked.length === 0) return null;
        sheets.clear();
        for (const sheet of picked) sheets.set(sheet.path, sheet);
        isOpen = true;
      }
      return isOpen
        ? { kind: 'open', name: '', writes: 'downloads', files: files(), leftOut: 0 }
        : { kind: 'none', keepsFolder: false };
    },
    readLibrary: (paths) =>
      Promise.resolve(
        paths.flatMap((path) => {
          const sheet = sheets.get(path);
          return sheet === undefined ? [] : [{ path, bytes: sheet.bytes }];
        }),
      ),
    writeLibrary: async (given, text, replace) => {
      // Downloads have no folders.
      const path = writtenSteps(given).at(-1)!;
      if (sheets.has(path) && !replace) return { kind: 'exists', path };
      await download(text, path);
      const sheet = { path, bytes: new TextEncoder().encode(text), changed: now() };
      sheets.set(path, sheet);
      isOpen = true;
      return { kind: 'written', file: facts(sheet) };
    },
  };
}
