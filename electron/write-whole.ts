import { randomUUID } from 'node:crypto';
import { rename, rm, writeFile } from 'node:fs/promises';

/**
 * Writes a file so that it is there whole or not at all: beside its place first, then moved into it.
 * Whoever stops the program in between leaves the old file as it was.
 */
export async function writeWhole(path: string, content: Uint8Array | string): Promise<void> {
  const beside = `${path}.${randomUUID().slice(0, 8)}.part`;
  try {
    await writeFile(beside, content);
    await rename(beside, path);
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
}
