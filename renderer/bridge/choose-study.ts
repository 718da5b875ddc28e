import type { NamedFile } from '../../electron/contract.ts';

/** Which of several files is the study. */
export type StudyChoice =
  | { readonly kind: 'found'; readonly study: NamedFile }
  | { readonly kind: 'none' }
  | { readonly kind: 'several'; readonly names: readonly string[] };

/**
 * Finds the study among files handed over together: by what is in it (the `snugfield` key of a study), or, where no
 * file can be read as one, by its ending, so that a broken study is explained and not overlooked.
 */
export function chooseStudy(files: readonly NamedFile[]): StudyChoice {
  const byContent = files.filter(isStudy);
  const candidates =
    byContent.length > 0 ? byContent : files.filter(({ path }) => path.endsWith('.study.json'));
  const [study, ...others] = candidates;
  if (study === undefined) return { kind: 'none' };
  if (others.length > 0) return { kind: 'several', names: candidates.map(({ path }) => path) };
  return { kind: 'found', study };
}

function isStudy({ path, bytes }: NamedFile): boolean {
  if (!path.toLowerCase().endsWith('.json')) return false;
  try {
    const value: unknown = JSON.parse(new TextDecoder().decode(bytes));
    return typeof value === 'object' && value !== null && 'snugfield' in value;
  } catch {
    return false;
  }
}
