import type { NamedFile } from '../../electron/contract.ts';

/** Which of several files is the study. */
export type StudyChoice =
  | { readonly kind: 'found'; readonly study: NamedFile }
  | { readonly kind: 'none' }
  | { readonly kind: 'several'; readonly names: readonly string[] };

/**
 * Finds the study among files handed over together: by what is in it (the `snugfield` key of a study); where no file
 * can be read as one, by its ending or by being the only JSON there, so that a broken study is explained, not overlooked.
 */
export function chooseStudy(files: readonly NamedFile[]): StudyChoice {
  const json = files.filter(({ path }) => path.toLowerCase().endsWith('.json'));
  const byEnding = json.filter(({ path }) => path.toLowerCase().endsWith('.study.json'));
  const candidates = [json.filter(isStudy), byEnding, json.length === 1 ? json : []].find(
    (some) => some.length > 0,
  );
  const study = candidates?.[0];
  if (candidates === undefined || study === undefined) return { kind: 'none' };
  if (candidates.length > 1) return { kind: 'several', names: candidates.map(({ path }) => path) };
  return { kind: 'found', study };
}

function isStudy({ bytes }: NamedFile): boolean {
  try {
    const value: unknown = JSON.parse(new TextDecoder().decode(bytes));
    return typeof value === 'object' && value !== null && 'snugfield' in value;
  } catch {
    return false;
  }
}
