import { randomUUID } from 'node:crypto';
import { link, lstat, readdir, readFile, realpath, rename, rm, stat, writeFile } from 'node:fs/promises';
import path from 'node:path';

import {
  sheetEnding,
  wantLibraryWish,
  wantPaths,
  wantSheetPath,
  wantText,
  wantYesOrNo,
} from './arguments.ts';
import type { Library, LibraryFile, LibraryWriting, NamedFile } from './contract.ts';
import type { FileDialogs } from './files.ts';
import { writeWhole } from './write-whole.ts';

/** Most sheets that are listed: a folder with more is no library of fabrics. */
const mostSheets = 5000;
/** Largest file that is handed over as a sheet; a sheet of 500-point curves with repeats takes a hundredth of it. */
const largestSheet = 64 * 2 ** 20;

/**
 * The calls of the library. Each takes what the window sent, unchecked. Files are named by their paths from the folder;
 * a path that leads out of it, links followed, is not there.
 *
 * @param memory - The small file that remembers the folder for the next start.
 */
export function makeLibraryCalls(dialogs: Pick<FileDialogs, 'open'>, memory: string) {
  /** Picked in the dialog or remembered from there; the window cannot name one. Undefined until it is looked up. */
  let folder: string | null | undefined;

  const remembered = async (): Promise<string | null> => {
    if (folder === undefined) folder = await recall(memory);
    return folder;
  };

  async function pick(): Promise<string | null> {
    const before = await remembered();
    const { canceled, filePaths } = await dialogs.open({
      title: 'Choose the folder of your fabrics',
      filters: [],
      properties: ['openDirectory', 'createDirectory'],
      ...(before === null ? {} : { defaultPath: before }),
    });
    const place = filePaths[0];
    if (canceled || place === undefined) return null;
    folder = place;
    // Where it cannot be remembered, the library still opens.
    await writeWhole(memory, `${JSON.stringify({ folder: place })}\n`).catch(() => {});
    return place;
  }

  return {
    openLibrary: async (wish: unknown): Promise<Library | null> => {
      const isAsked = wantLibraryWish(wish) === 'picked';
      const place = isAsked ? await pick() : await remembered();
      if (place !== null) return shelf(place);
      return isAsked ? null : { kind: 'none', keepsFolder: true };
    },

    readLibrary: async (paths: unknown): Promise<readonly NamedFile[]> => {
      const names = wantPaths(paths);
      const place = await remembered();
      if (place === null) return [];
      const found = await Promise.all(names.map((name) => readSheet(place, name)));
      return found.filter((file) => file !== null);
    },

    writeLibrary: async (given: unknown, text: unknown, replace: unknown): Promise<LibraryWriting> => {
      const wanted = { name: wantSheetPath(given), text: wantText(text), replace: wantYesOrNo(replace) };
      const place = await remembered();
      if (place === null) return { kind: 'refused', reason: 'gone' };
      return writeSheet(place, wanted).catch(refusal);
    },
  };
}

async function recall(memory: string): Promise<string | null> {
  try {
    const kept: unknown = JSON.parse(await readFile(memory, 'utf8'));
    const isKept = typeof kept === 'object' && kept !== null && 'folder' in kept;
    return isKept && typeof kept.folder === 'string' && path.isAbsolute(kept.folder) ? kept.folder : null;
  } catch {
    return null;
  }
}

async function shelf(folder: string): Promise<Library> {
  const name = path.basename(folder) || folder;
  try {
    const files = await sheetsIn(folder);
    return {
      kind: 'open',
      name,
      writes: 'folder',
      files: files.slice(0, mostSheets),
      leftOut: Math.max(0, files.length - mostSheets),
    };
  } catch (error) {
    return { kind: 'missing', name, reason: isForbidden(error) ? 'not allowed' : 'gone' };
  }
}

/** The bench sheets of a folder and of the folders in it, by path. */
async function sheetsIn(folder: string): Promise<LibraryFile[]> {
  const names = await readdir(folder);
  const below = await Promise.all(
    names
      .filter((name) => !isSheetName(name) && !name.startsWith('.'))
      .map(async (name) => {
        // A file, a folder that may not be read, a link that leads out: nothing of the library's.
        const real = await insideOf(folder, name).catch(() => null);
        const found = real === null ? [] : await readdir(real).catch(() => []);
        return found.map((file) => `${name}/${file}`);
      }),
  );
  const sheets = [...names, ...below.flat()].filter(isSheetName);
  const files = await Promise.all(sheets.map((name) => fileAt(folder, name).catch(() => null)));
  return files.filter((file) => file !== null).sort((a, b) => (a.path < b.path ? -1 : 1));
}

const isSheetName = (name: string): boolean =>
  name.toLowerCase().endsWith(sheetEnding) && !path.posix.basename(name).startsWith('.');

/** Null where it is a folder, or leads out. */
async function fileAt(folder: string, name: string): Promise<LibraryFile | null> {
  const real = await insideOf(folder, name);
  if (real === null) return null;
  const { size, mtimeMs, isFile } = await factsOf(real);
  return isFile ? { path: name, size, changed: Math.round(mtimeMs) } : null;
}

async function factsOf(real: string) {
  const facts = await stat(real);
  return { size: facts.size, mtimeMs: facts.mtimeMs, isFile: facts.isFile() };
}

/**
 * The true place of a path from the library's folder; null where it is no plain path, or leads out, links followed.
 *
 * @throws {Error} the system's, where there is nothing of that name.
 */
async function insideOf(folder: string, name: string): Promise<string | null> {
  const steps = name.split('/');
  const isPlain = steps.length <= 2 && steps.every((step) => !['', '.', '..'].includes(step));
  // On Windows a colon is a drive or an alternate stream, and a backslash is one more step.
  if (!isPlain || name.includes('\0') || (path.sep === '\\' && /[\\:]/.test(name))) return null;
  const [realPlace, realFolder] = await Promise.all([realpath(path.join(folder, name)), realpath(folder)]);
  const root = realFolder.endsWith(path.sep) ? realFolder : realFolder + path.sep;
  return realPlace.startsWith(root) ? realPlace : null;
}

async function readSheet(folder: string, name: string): Promise<NamedFile | null> {
  if (!isSheetName(name)) return null;
  try {
    const real = await insideOf(folder, name);
    if (real === null) return null;
    const { size, isFile } = await factsOf(real);
    return isFile && size <= largestSheet ? { path: name, bytes: await readFile(real) } : null;
  } catch {
    return null;
  }
}

interface WantedSheet {
  readonly name: string;
  readonly text: string;
  readonly replace: boolean;
}

async function writeSheet(folder: string, { name, text, replace }: WantedSheet): Promise<LibraryWriting> {
  const steps = name.split('/');
  // The folder below may be a link: where it truly lies decides.
  const home = steps.length === 1 ? await realpath(folder) : await insideOf(folder, steps[0]!);
  if (home === null) return { kind: 'refused', reason: 'gone' };
  const place = path.join(home, steps.at(-1)!);
  // A link in the sheet's place is replaced itself: what it leads to stays as it is.
  const isWritten = replace ? await writeWhole(place, text).then(() => true) : await writeNew(place, text);
  if (!isWritten) return { kind: 'exists', path: name };
  const file = await fileAt(folder, name);
  return file === null ? { kind: 'refused', reason: 'gone' } : { kind: 'written', file };
}

/**
 * Writes a file whole where there is none, and says whether it did. Another program that writes the same name in the
 * same moment is not overwritten either: a hard link into place fails where something stands.
 */
async function writeNew(place: string, text: string): Promise<boolean> {
  if (await stands(place)) return false;
  const part = `${place}.${randomUUID().slice(0, 8)}.part`;
  try {
    await writeFile(part, text);
    try {
      await link(part, place);
    } catch (error) {
      if (codeOf(error) === 'EEXIST') return false;
      // Memory sticks and some network folders have no hard links.
      if (await stands(place)) return false;
      await rename(part, place);
    }
    return true;
  } finally {
    await rm(part, { force: true });
  }
}

const stands = (place: string): Promise<boolean> =>
  lstat(place).then(
    () => true,
    () => false,
  );

const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error ? String(error.code) : '';

const isForbidden = (error: unknown): boolean => ['EACCES', 'EPERM', 'EROFS'].includes(codeOf(error));

/** What the system said, as the window knows to say it. @throws what it has no words for. */
function refusal(error: unknown): LibraryWriting {
  if (isForbidden(error)) return { kind: 'refused', reason: 'not allowed' };
  const code = codeOf(error);
  if (['ENOSPC', 'EDQUOT', 'EFBIG'].includes(code)) return { kind: 'refused', reason: 'no room' };
  if (['ENOENT', 'ENOTDIR'].includes(code)) return { kind: 'refused', reason: 'gone' };
  throw error;
}
