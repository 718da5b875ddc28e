import type { PickKind } from './contract.ts';

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
  const last = value.split(/[/\\]/).at(-1) ?? '';
  // oxlint-disable-next-line no-control-regex -- control characters are what is taken out
  const plain = last.replaceAll(/[<>:"|?*\u0000-\u001f]/g, '').replace(/^\.+/, '');
  const name = plain === '' ? 'snugfield' : plain;
  return endings.some((ending) => name.toLowerCase().endsWith(ending)) ? name : `${name}${endings[0]}`;
}

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
