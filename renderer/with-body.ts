import type { ImportChoices } from '../core/body/import-choices.ts';
import { carriedLevel, type LevelPair } from './store/carry-levels.ts';
import type { FleshWish, MeshFile } from './store/import-store.ts';
import type { OpenedStudy } from './store/study-runner.ts';

/** A body from a mesh file, with the answers that made it. */
export interface StudyBody {
  readonly file: MeshFile;
  readonly choices: ImportChoices;
  /** Names of the file's parts. */
  readonly partNames: readonly string[];
  readonly flesh: FleshWish;
  /** Places of the body that is worn now and of this one; heights stay where there are none. */
  readonly places: readonly LevelPair[];
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
  const text = `${JSON.stringify({ ...kept, ...laidOn(kept['garment'], body.places), body: bodyOf(body) }, null, 2)}\n`;
  const { name, blob } = body.file;
  return {
    name: study.name,
    text,
    readBeside: async (path) =>
      path === name ? new Uint8Array(await blob.arrayBuffer()) : study.readBeside(path),
  };
}

/** The garment with the heights at which it is laid carried to the same places; its own measures are what they are. */
function laidOn(garment: unknown, places: readonly LevelPair[]): { readonly garment?: object } {
  if (!isRecord(garment) || places.length === 0) return {};
  const carried = (value: unknown, key: string): unknown => {
    if (Array.isArray(value)) return value.map((one) => carried(one, key));
    if (isRecord(value))
      return Object.fromEntries(
        Object.entries(value).map(([own, inner]) => [own, carried(inner, key === 'laidMm' ? key : own)]),
      );
    return typeof value === 'number' && HEIGHTS.has(key)
      ? Math.round(10 * carriedLevel(value, places)) / 10
      : value;
  };
  return {
    garment: Object.fromEntries(Object.entries(garment).map(([key, value]) => [key, carried(value, key)])),
  };
}

/** Keys of a garment that are heights on the body, mm. */
const HEIGHTS: ReadonlySet<string> = new Set(['fromMm', 'toMm', 'atMm', 'at', 'laidMm']);

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
