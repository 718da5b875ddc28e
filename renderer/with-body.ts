import type { ImportChoices } from '../core/body/import-choices.ts';
import type { FleshWish, MeshFile } from './store/import-store.ts';
import type { OpenedStudy } from './store/study-runner.ts';

/** A body from a mesh file, with the answers that made it. */
export interface StudyBody {
  readonly file: MeshFile;
  readonly choices: ImportChoices;
  /** Names of the file's parts. */
  readonly partNames: readonly string[];
  readonly flesh: FleshWish;
}

/**
 * The study worn on another body: its file names the mesh and keeps the answers. Its other files stay where they were.
 *
 * @param study - One that has been read before, so that its text is a study's.
 */
export function withBody(study: OpenedStudy, body: StudyBody): OpenedStudy {
  const file: unknown = JSON.parse(study.text.replace(/^\uFEFF/, ''));
  if (!isRecord(file)) throw new Error('the study on the stage is none');
  // What was corrected by hand belongs to the body that was there.
  const { tape: _tape, tissue: _tissue, ...kept } = file;
  const text = `${JSON.stringify({ ...kept, body: bodyOf(body) }, null, 2)}\n`;
  const { name, blob } = body.file;
  return {
    name: study.name,
    text,
    readBeside: async (path) =>
      path === name ? new Uint8Array(await blob.arrayBuffer()) : study.readBeside(path),
  };
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function bodyOf({ file, choices, partNames, flesh }: StudyBody): object {
  const { unit, up, front, part, closeHoles, refineEdgeMm } = choices;
  return {
    mesh: file.name,
    import: {
      unit,
      up,
      front,
      ...(part !== 'largest' && { part: partName(part, partNames) }),
      closeHoles,
      refineEdgeMm,
    },
    tissue: flesh.kind === 'even' ? { depthMm: flesh.depthMm, modulusKPa: flesh.modulusKPa } : flesh.kind,
  };
}

/** A part by its name; by its number, from 1, where others are called the same. */
const partName = (part: number, names: readonly string[]): string | number =>
  names.filter((name) => name === names[part]).length === 1 ? names[part]! : part + 1;
