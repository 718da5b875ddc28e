import { readFile, realpath } from 'node:fs/promises';
import path from 'node:path';

import { wantName, wantPaths, wantPickKind, wantText } from './arguments.ts';
import type { NamedFile, PickKind } from './contract.ts';
import { fileUnder, filesIn } from './launch/served-files.mjs';
import { writeWhole } from './write-whole.ts';

/** One line of a dialog's list of kinds. */
export interface FileFilter {
  readonly name: string;
  readonly extensions: string[];
}

/** The two dialogs, as `electron.dialog` has them, already tied to the window. */
export interface FileDialogs {
  readonly open: (options: {
    title: string;
    filters: FileFilter[];
    properties: ('openFile' | 'openDirectory' | 'createDirectory')[];
    defaultPath?: string;
  }) => Promise<{ canceled: boolean; filePaths: string[] }>;
  readonly save: (options: {
    defaultPath: string;
    filters: FileFilter[];
  }) => Promise<{ canceled: boolean; filePath: string }>;
}

const studyFilter: FileFilter = { name: 'Snugfield study', extensions: ['json'] };
const pickFilters: Record<PickKind, { title: string; filter: FileFilter }> = {
  bench: { title: 'Open a bench sheet', filter: { name: 'Bench sheet', extensions: ['json'] } },
  body: {
    title: 'Open a body',
    filter: { name: 'Body mesh', extensions: ['obj', 'glb', 'gltf', 'ply', 'stl'] },
  },
};

const textEndings = ['.csv', '.json', '.obj', '.txt'] as const;

/**
 * The calls that move files. Each takes what the window sent, unchecked.
 *
 * @param demo - The folder that holds the demo study.
 */
export function makeFileCalls(dialogs: FileDialogs, demo: string) {
  /** Where the study opened last lies; nothing outside it can be read by name. */
  let studyFolder: string | null = null;

  async function pick(
    title: string,
    filter: FileFilter,
  ): Promise<{ file: NamedFile; folder: string } | null> {
    const { canceled, filePaths } = await dialogs.open({
      title,
      filters: [filter],
      properties: ['openFile'],
    });
    const place = filePaths[0];
    if (canceled || place === undefined) return null;
    const file = { path: path.basename(place), bytes: await readFile(place) };
    return { file, folder: path.dirname(place) };
  }

  return {
    readDemo: async (): Promise<readonly NamedFile[]> =>
      Promise.all(
        (await filesIn(demo)).map(async (name) => ({
          path: name,
          bytes: await readFile(path.join(demo, name)),
        })),
      ),

    openStudy: async (): Promise<NamedFile | null> => {
      const picked = await pick('Open a study', studyFilter);
      if (picked) studyFolder = picked.folder;
      return picked?.file ?? null;
    },

    readBeside: async (paths: unknown): Promise<readonly NamedFile[]> => {
      const names = wantPaths(paths);
      const folder = studyFolder;
      if (folder === null) return [];
      const found = await Promise.all(names.map((name) => readInside(folder, name)));
      return found.filter((file) => file !== null);
    },

    openFile: async (kind: unknown): Promise<NamedFile | null> => {
      const { title, filter } = pickFilters[wantPickKind(kind)];
      return (await pick(title, filter))?.file ?? null;
    },

    saveText: async (given: unknown, suggested: unknown): Promise<string | null> => {
      const text = wantText(given);
      const name = wantName(suggested, textEndings);
      return saveAs(dialogs, { name, content: text });
    },
  };
}

/**
 * Asks where to, and writes there.
 *
 * @returns The file's name as it was saved; null where the person thought better of it.
 */
export async function saveAs(
  dialogs: Pick<FileDialogs, 'save'>,
  { name, content }: { readonly name: string; readonly content: Uint8Array | string },
): Promise<string | null> {
  const ending = path.extname(name).slice(1);
  const { canceled, filePath } = await dialogs.save({
    defaultPath: name,
    filters: [{ name: ending.toUpperCase(), extensions: [ending] }],
  });
  if (canceled || filePath === '') return null;
  await writeWhole(filePath, content);
  return path.basename(filePath);
}

/** A file inside `folder` by its relative path; null where it is missing or leads out, links followed. */
async function readInside(folder: string, name: string): Promise<NamedFile | null> {
  // A path in a study is plain text, not an address: a percent sign in it is a percent sign.
  const place = fileUnder(folder, encodeURIComponent(name.replace(/^\.\//, '')));
  if (place === null) return null;
  try {
    const [realPlace, realFolder] = await Promise.all([realpath(place), realpath(folder)]);
    if (!realPlace.startsWith(realFolder + path.sep)) return null;
    return { path: name, bytes: await readFile(realPlace) };
  } catch {
    return null;
  }
}
