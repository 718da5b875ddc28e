import type { OpenedStudy } from './store/study-runner.ts';

/** A fabric from the bench that takes a place in a study. */
export interface StudyFabric {
  /** 0 is A. */
  readonly index: number;
  readonly name: string;
  /** Its bench sheet as a file has it. */
  readonly text: string;
}

interface FabricEntry {
  readonly id: string;
  readonly sheet: string;
}

/**
 * The study with one of its fabrics replaced; added where it has fewer. Its other files stay where they were.
 *
 * @param study - One that has been read before, so that its text is a study's.
 */
export function withFabric(study: OpenedStudy, { index, name, text }: StudyFabric): OpenedStudy {
  const { file, fabrics } = readFabrics(study);
  const at = Math.min(index, fabrics.length);
  const others = fabrics.filter((_, other) => other !== at);
  const id = freeId(name, others);
  const sheet = freePath(id, others);
  const changed = fabrics.toSpliced(at, 1, { id, sheet });
  const bytes = new TextEncoder().encode(text);
  return {
    name: study.name,
    text: JSON.stringify({ ...file, fabrics: changed }),
    readBeside: (path) => (path === sheet ? Promise.resolve(bytes) : study.readBeside(path)),
  };
}

/** Where the sheet of one of a study's fabrics lies; null where it has no such fabric. */
export const fabricPath = (study: OpenedStudy, id: string): string | null =>
  readFabrics(study).fabrics.find((fabric) => fabric.id === id)?.sheet ?? null;

function readFabrics({ text }: OpenedStudy): {
  readonly file: object;
  readonly fabrics: readonly FabricEntry[];
} {
  const file: unknown = JSON.parse(text.replace(/^\uFEFF/, ''));
  if (typeof file !== 'object' || file === null || !('fabrics' in file) || !Array.isArray(file.fabrics))
    throw new Error('the study on the stage names no fabrics');
  return { file, fabrics: file.fabrics.filter(isEntry) };
}

const isEntry = (value: unknown): value is FabricEntry =>
  typeof value === 'object' &&
  value !== null &&
  'id' in value &&
  typeof value.id === 'string' &&
  'sheet' in value &&
  typeof value.sheet === 'string';

/** Letters, digits and hyphens of the name: it names the files that are saved of the fabric. */
function freeId(name: string, others: readonly FabricEntry[]): string {
  const plain =
    name
      .normalize('NFD')
      .toLowerCase()
      .replaceAll(/[^a-z0-9]+/g, '-')
      .replaceAll(/^-+|-+$/g, '') || 'bench';
  let id = plain;
  for (let count = 2; others.some((other) => other.id === id); count++) id = `${plain}-${count}`;
  return id;
}

/** A path that no other fabric of the study names. */
function freePath(id: string, others: readonly FabricEntry[]): string {
  let path = `${id}.bench.json`;
  while (others.some(({ sheet }) => sheet === path)) path = `bench/${path}`;
  return path;
}
