import { readFile } from 'node:fs/promises';
import path from 'node:path';

import { Fault } from '../../core/fault/fault.ts';
import { openBody, openStudy, type FilesBeside } from '../../core/study/open-study.ts';
import type { BodyChoice, Study } from '../../core/study/study.ts';

/**
 * A file's bytes.
 *
 * @param file - Its place; `named` is what the user calls it.
 * @throws {Fault} `file/missing` where it is not there or cannot be read.
 */
export async function readBytes(file: string, named = file): Promise<Uint8Array> {
  try {
    return await readFile(file);
  } catch {
    throw new Fault('file/missing', { path: named });
  }
}

/**
 * A file's text; a byte order mark, which some programs put before it, is dropped.
 *
 * @throws {Fault} `file/missing`.
 */
export async function readText(file: string, named = file): Promise<string> {
  return new TextDecoder('utf-8').decode(await readBytes(file, named));
}

/** The files that a study names, looked for from the study's own folder. */
function filesBeside(studyFile: string): FilesBeside {
  const place = (named: string) => path.resolve(path.dirname(studyFile), named);
  return { text: (named) => readText(place(named), named), bytes: (named) => readBytes(place(named), named) };
}

/**
 * The body of a study; the fabrics it names need not be there.
 *
 * @throws {Fault} from any reader, with its file.
 */
export const readBody = async (studyFile: string): Promise<BodyChoice> =>
  openBody(await readText(studyFile), studyFile, filesBeside(studyFile));

/**
 * A study and all that it names.
 *
 * @throws {Fault} from any reader, with its file.
 */
export const readStudy = async (studyFile: string): Promise<Study> =>
  openStudy(await readText(studyFile), studyFile, filesBeside(studyFile));
