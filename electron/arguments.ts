import type { LibraryWish, PickKind } from './contract.ts';

/** Largest text, picture or list a call may bring; beyond it something is wrong with the caller. */
const mostBytes = 256 * 2 ** 20;
const mostPaths = 1000;
const longestName = 240;

/** A call brought something else than its contract says; the message goes back to the window. */
const refuse = (what: string): never => {
  throw new TypeError(`The window asked for something it may not: ${what}.`);
};

export const wantText = (value: unknown): string =>
  typeof value === 'string' && value.length <= mostBytes ? value : refuse('a text');

/** Bytes, as they come over from the window; a PNG begins with its signature. */
export function wantPng(value: unknown): Uint8Array {
  if (!(value instanceof Uint8Array) || value.length > mostBytes) return refuse('a picture');
  const signature = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
  return signature.every((byte, i) => value[i] === byte) ? value : refuse('a PNG picture');
}

/**
 * A file name to suggest in a dialog: its last part only, without characters that some system forbids.
 *
 * @param endings - The endings allowed, with their dot; the first is added where none of them stands.
 */
export function wantName(value: unknown, endings: readonly [string, ...string[]]): string {
  if (typeof value !== 'string' || value.length > longestName) return refuse('a file name');
  const plain = plainName(value.split(/[/\\]/).at(-1) ?? '');
  const name = plain === '' ? 'snugfield' : plain;
  return endings.some((ending) => name.toLowerCase().endsWith(ending)) ? name : `${name}${endings[0]}`;
}

/** A name without the characters that some system forbids, and without leading dots. */
const plainName = (name: string): string =>
  // oxlint-disable-next-line no-control-regex -- control characters are what is taken out
  name.replaceAll(/[<>:"|?*\u0000-\u001f]/g, '').replace(/^\.+/, '');

/** The one ending of bench sheets in the library. */
export const sheetEnding = '.bench.json';

/** Most bytes of a sheet's name without its ending: file systems stop at 255, and a name grows while it is written. */
const mostNameBytes = 180;

/**
 * Where in the library a sheet is to be written: its name, cleared of what some system forbids, at most one folder down.
 *
 * @returns With forward slashes and the ending of a bench sheet.
 */
export function wantSheetPath(value: unknown): string {
  if (typeof value !== 'string' || value.length > longestName) return refuse('a place for a bench sheet');
  const steps = value.split(/[/\\]/);
  const folders = steps.slice(0, -1);
  // A folder is there already: what would have to be taken out of its name makes it another one.
  if (folders.length > 1 || folders.some((folder) => folder === '' || plainName(folder) !== folder)) {
    return refuse('a place outside the library');
  }
  const last = plainName(steps.at(-1) ?? '');
  return [...folders, `${sheetStem(last)}${sheetEnding}`].join('/');
}

function sheetStem(name: string): string {
  const bare = name.toLowerCase().endsWith(sheetEnding) ? name.slice(0, -sheetEnding.length) : name;
  let short = bare;
  while (Buffer.byteLength(short) > mostNameBytes) short = Array.from(short).slice(0, -1).join('');
  // Windows drops blanks and dots at the end of a name.
  const stem = short.replace(/[\s.]+$/, '');
  if (stem === '') return 'sheet';
  return isDevice(stem) ? `${stem}-sheet` : stem;
}

/** Names that Windows keeps for devices, whatever their ending. */
const isDevice = (stem: string): boolean =>
  /^(?:con|prn|aux|nul|com\d|lpt\d)$/i.test(stem.split('.')[0] ?? '');

export const wantLibraryWish = (value: unknown): LibraryWish =>
  value === 'remembered' || value === 'allowed' || value === 'picked'
    ? value
    : refuse('a way to the library');

export const wantYesOrNo = (value: unknown): boolean =>
  typeof value === 'boolean' ? value : refuse('a yes or no');

export function wantPaths(value: unknown): readonly string[] {
  if (!Array.isArray(value) || value.length > mostPaths) return refuse('a list of paths');
  return value.map((path: unknown) => (typeof path === 'string' ? path : refuse('a path')));
}

export const wantPickKind = (value: unknown): PickKind =>
  value === 'bench' || value === 'body' ? value : refuse('a kind of file');

/** An https address without a name and password in it. */
export function wantLink(value: unknown): string {
  const url = typeof value === 'string' && URL.canParse(value) ? new URL(value) : null;
  if (url?.protocol !== 'https:' || url.username !== '' || url.password !== '')
    return refuse('an https address');
  return url.href;
}
