import { readFileSync } from 'node:fs';
import { openStudy, type FilesBeside } from '../../core/study/open-study.ts';
import type { Study } from '../../core/study/study.ts';

const demo = new URL('../../assets/demo/', import.meta.url);

/** The demonstration's study file as text. */
export const demoStudyText = (): string =>
  readFileSync(new URL('harbour-waist-shaper.study.json', demo), 'utf8');

/** The fabric sheets beside it. */
export const demoFiles: FilesBeside = {
  text: (path) => Promise.resolve(readFileSync(new URL(path, demo), 'utf8')),
  bytes: (path) => Promise.resolve(new Uint8Array(readFileSync(new URL(path, demo)))),
};

/** The demonstration, read; its study file may be another text. */
export const demoStudy = (text = demoStudyText()): Promise<Study> =>
  openStudy(text, 'demo.study.json', demoFiles);
