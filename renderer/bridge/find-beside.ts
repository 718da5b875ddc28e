import type { NamedFile } from '../../electron/contract.ts';

/**
 * The file that a study names among those handed over together. Pickers and drops give bare names, so the last part of
 * the path decides; the whole path wins where it is known.
 */
export function findBeside(files: readonly NamedFile[], path: string): NamedFile | null {
  const whole = files.find((file) => file.path === path);
  if (whole !== undefined) return whole;
  const bare = path.slice(path.lastIndexOf('/') + 1);
  return files.find((file) => file.path.slice(file.path.lastIndexOf('/') + 1) === bare) ?? null;
}
