import type { Library, LibraryFile, LibraryWriting, NamedFile } from '../../electron/contract.ts';
import type { FileHandle, FolderDoor, FolderHandle } from './folder-door.ts';
import type { LibraryCalls } from './library-calls.ts';
import { isSheetName, sheetSteps, writtenSteps } from './sheet-path.ts';

/** Most sheets that are listed, and the largest file that is handed over as one. */
const MOST_SHEETS = 5000;
const LARGEST_SHEET = 64 * 2 ** 20;

const READ_AND_WRITE = { mode: 'readwrite' } as const;

/** The library in a folder that the browser gave leave for. A handle reaches down and never up. */
export function folderLibrary(door: FolderDoor): LibraryCalls {
  /** Undefined until it is looked up. */
  let folder: FolderHandle | null | undefined;

  const remembered = async (): Promise<FolderHandle | null> => {
    if (folder === undefined) folder = await door.recall();
    return folder;
  };

  async function pick(): Promise<FolderHandle | null> {
    const picked = await door.pick();
    if (picked === null) return null;
    folder = picked;
    await door.keep(picked);
    return picked;
  }

  return {
    openLibrary: async (wish) => {
      const place = wish === 'picked' ? await pick() : await remembered();
      if (place === null) return wish === 'picked' ? null : { kind: 'none', keepsFolder: true };
      // A question to the person is allowed on a click only, so it is asked only where the window says so.
      const leave =
        wish === 'remembered'
          ? await place.queryPermission?.(READ_AND_WRITE)
          : await place.requestPermission?.(READ_AND_WRITE);
      return leave === undefined || leave === 'granted' ? shelf(place) : { kind: 'locked', name: place.name };
    },
    readLibrary: async (paths) => {
      const place = await remembered();
      if (place === null) return [];
      const found = await Promise.all(paths.map((path) => readSheet(place, path).catch(() => null)));
      return found.filter((file) => file !== null);
    },
    writeLibrary: async (path, text, replace) => {
      const steps = writtenSteps(path);
      const place = await remembered();
      if (place === null) return { kind: 'refused', reason: 'gone' };
      return writeSheet(place, { steps, text, replace }).catch(refusal);
    },
  };
}

async function shelf(folder: FolderHandle): Promise<Library> {
  try {
    const files = await sheetsIn(folder);
    files.sort((a, b) => (a.path < b.path ? -1 : 1));
    return {
      kind: 'open',
      name: folder.name,
      writes: 'folder',
      files: files.slice(0, MOST_SHEETS),
      leftOut: Math.max(0, files.length - MOST_SHEETS),
    };
  } catch (error) {
    const reason = nameOf(error) === 'NotAllowedError' ? 'not allowed' : 'gone';
    return { kind: 'missing', name: folder.name, reason };
  }
}

async function sheetsIn(folder: FolderHandle): Promise<LibraryFile[]> {
  const sheets: Promise<LibraryFile | null>[] = [];
  const below: Promise<void>[] = [];
  const gather = async (here: FolderHandle, before: string): Promise<void> => {
    for await (const entry of here.values()) {
      if (entry.kind === 'file') {
        // A file that vanishes while it is listed is not there.
        if (isSheetName(entry.name)) sheets.push(factsOf(entry, before).catch(() => null));
      } else if (before === '' && !entry.name.startsWith('.')) {
        below.push(gather(entry, `${entry.name}/`).catch(() => undefined));
      }
    }
  };
  await gather(folder, '');
  await Promise.all(below);
  return (await Promise.all(sheets)).filter((file) => file !== null);
}

async function factsOf(handle: FileHandle, before: string): Promise<LibraryFile> {
  const { size, lastModified } = await handle.getFile();
  return { path: `${before}${handle.name}`, size, changed: lastModified };
}

/** The folder that holds a path's last step. */
const homeOf = async (folder: FolderHandle, steps: readonly string[]): Promise<FolderHandle> =>
  steps.length === 1 ? folder : folder.getDirectoryHandle(steps[0]!);

async function readSheet(folder: FolderHandle, path: string): Promise<NamedFile | null> {
  const steps = sheetSteps(path);
  if (steps === null) return null;
  const home = await homeOf(folder, steps);
  const file = await (await home.getFileHandle(steps.at(-1)!)).getFile();
  return file.size > LARGEST_SHEET ? null : { path, bytes: new Uint8Array(await file.arrayBuffer()) };
}

interface WantedSheet {
  readonly steps: readonly string[];
  readonly text: string;
  readonly replace: boolean;
}

async function writeSheet(
  folder: FolderHandle,
  { steps, text, replace }: WantedSheet,
): Promise<LibraryWriting> {
  const home = await homeOf(folder, steps);
  const name = steps.at(-1)!;
  const stood = await home.getFileHandle(name).then(
    () => true,
    (error: unknown) => nameOf(error) !== 'NotFoundError',
  );
  if (stood && !replace) return { kind: 'exists', path: steps.join('/') };
  const handle = await home.getFileHandle(name, { create: true });
  try {
    const stream = await handle.createWritable();
    try {
      await stream.write(text);
    } catch (error) {
      await stream.abort().catch(() => undefined);
      throw error;
    }
    await stream.close();
  } catch (error) {
    // The empty file that was made to be written to is taken away again; what stood there before is untouched.
    if (!stood) await home.removeEntry(name).catch(() => undefined);
    throw error;
  }
  const before = steps.length === 1 ? '' : `${steps[0]!}/`;
  return { kind: 'written', file: await factsOf(handle, before) };
}

const nameOf = (error: unknown): string =>
  typeof error === 'object' && error !== null && 'name' in error ? String(error.name) : '';

/** What the browser said, as the window knows to say it. @throws what it has no words for. */
function refusal(error: unknown): LibraryWriting {
  switch (nameOf(error)) {
    case 'NotAllowedError':
    case 'NoModificationAllowedError':
    case 'SecurityError':
      return { kind: 'refused', reason: 'not allowed' };
    case 'QuotaExceededError':
      return { kind: 'refused', reason: 'no room' };
    case 'NotFoundError':
      return { kind: 'refused', reason: 'gone' };
    default:
      throw error;
  }
}
