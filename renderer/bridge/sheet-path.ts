const ENDING = '.bench.json';
/** Most bytes of a name without its ending: file systems stop at 255, and a name grows while it is written. */
const MOST_NAME_BYTES = 180;
const LONGEST = 240;

/** Whether a file's name is that of a bench sheet. */
export const isSheetName = (name: string): boolean =>
  name.toLowerCase().endsWith(ENDING) && !name.startsWith('.');

/** The steps of a path in the library: a name, or a folder and a name; null where it would lead elsewhere. */
export function sheetSteps(path: string): readonly string[] | null {
  const steps = path.split('/');
  const isPlain = steps.length <= 2 && steps.every((step) => !['', '.', '..'].includes(step));
  return isPlain && isSheetName(steps.at(-1)!) ? steps : null;
}

/**
 * Where a sheet is to be written: its name, cleared of what some system forbids, at most one folder down. The same as
 * Electron's side does; the contract's tests hold both to one table.
 *
 * @throws {TypeError} where the path leads out of the library.
 */
export function writtenSteps(path: string): readonly string[] {
  const steps = path.length > LONGEST ? [] : path.split(/[/\\]/);
  const folders = steps.slice(0, -1);
  const isOutside = folders.length > 1 || folders.some((step) => step === '' || plainName(step) !== step);
  if (steps.length === 0 || isOutside) {
    throw new TypeError('The window asked for something it may not: a place outside the library.');
  }
  return [...folders, `${sheetStem(plainName(steps.at(-1)!))}${ENDING}`];
}

const plainName = (name: string): string =>
  // oxlint-disable-next-line no-control-regex -- control characters are what is taken out
  name.replaceAll(/[<>:"|?*\u0000-\u001f]/g, '').replace(/^\.+/, '');

function sheetStem(name: string): string {
  const bare = name.toLowerCase().endsWith(ENDING) ? name.slice(0, -ENDING.length) : name;
  let short = bare;
  while (new TextEncoder().encode(short).length > MOST_NAME_BYTES) {
    short = Array.from(short).slice(0, -1).join('');
  }
  // Windows drops blanks and dots at the end of a name.
  const stem = short.replace(/[\s.]+$/, '');
  if (stem === '') return 'sheet';
  return isDevice(stem) ? `${stem}-sheet` : stem;
}

/** Names that Windows keeps for devices, whatever their ending. */
const isDevice = (stem: string): boolean =>
  /^(?:con|prn|aux|nul|com\d|lpt\d)$/i.test(stem.split('.')[0] ?? '');
