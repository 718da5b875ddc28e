import { randomUUID } from 'node:crypto';
import { mkdir, rename, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';

/** A file to be written. */
export interface FileContent {
  readonly path: string;
  readonly content: Uint8Array | string;
}

/**
 * Writes a file so that it is there whole or not at all: beside its place first, then moved into it.
 * Whoever stops the program in between leaves the old file as it was.
 */
export const writeWhole = async (file: string, content: Uint8Array | string): Promise<void> =>
  writeAllWhole([{ path: file, content }]);

/**
 * Writes several files that belong together, making their folders where they are missing: all beside their places
 * first, and only when every one is complete all into place, in the order given.
 *
 * @param stop - Ends the writing before anything is moved into place; what lay beside is taken away again.
 */
export async function writeAllWhole(files: readonly FileContent[], stop?: AbortSignal): Promise<void> {
  const mark = randomUUID().slice(0, 8);
  const beside = files.map((file) => ({ ...file, part: `${file.path}.${mark}.part` }));
  try {
    for (const { path: place, content, part } of beside) {
      // One after another: results are large, and a disk gains nothing from all at once.
      // oxlint-disable-next-line no-await-in-loop
      await mkdir(path.dirname(place), { recursive: true });
      // oxlint-disable-next-line no-await-in-loop
      await writeFile(part, content, stop ? { signal: stop } : {});
    }
    stop?.throwIfAborted();
    // oxlint-disable-next-line no-await-in-loop
    for (const { path: place, part } of beside) await rename(part, place);
  } catch (error) {
    await Promise.all(beside.map(({ part }) => rm(part, { force: true })));
    throw error;
  }
}
