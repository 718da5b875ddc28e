import type { Host, NamedFile } from '../electron/contract.ts';
import { typedNumber } from '../core/sheet/number-format.ts';
import { IMPORT_STEP_WORDS } from '../core/words/import-step-words.ts';
import { levelPairs } from './store/carry-levels.ts';
import { createImportRunner, type ImportDeeds, type StartImportWorker } from './store/import-runner.ts';
import { createImportStore, isWearable, type ImportStore, type MeshFile } from './store/import-store.ts';
import { isNothing } from './store/plain-change.ts';
import { fileNameFor, type OpenedStudy } from './store/study-runner.ts';
import type { ShownStudy, StudyStore } from './store/study-store.ts';
import { createViewStore, viewActions, type ViewActions, type ViewStore } from './store/view-store.ts';
import { withBody } from './with-body.ts';
import { withTries } from './with-tries.ts';

/** What the step needs of the table. */
export interface ImportParts {
  readonly host: Host;
  readonly study: StudyStore;
  readonly runStudy: (study: OpenedStudy) => void;
  /** The study on the stage, and the way to its files; null while there is none. */
  readonly baseStudy: () => OpenedStudy | null;
  readonly startImportWorker: StartImportWorker;
  /** Says whatever goes wrong and leaves the table as it was. */
  readonly guarded: (work: () => Promise<void>) => Promise<void>;
}

/** The step that brings a body in, as the table has it. */
export interface ImportSide {
  readonly imports: ImportStore;
  readonly importDeeds: ImportDeeds & {
    /** Asks for a mesh file and takes it into the step. */
    readonly pick: () => Promise<void>;
    /** Takes a file that the host has read. */
    readonly take: (file: NamedFile) => void;
    /** Files that were dropped: takes the one that is a mesh. */
    readonly takeDropped: (files: readonly File[]) => void;
    /** The study on the stage wears its garment on the body; the stage takes over. */
    readonly wear: () => void;
    /** The study with this body, as a file. */
    readonly saveStudy: () => Promise<void>;
  };
  /** The step's own camera. */
  readonly importView: ViewStore;
  readonly importViewActions: ViewActions;
}

/** The study's text with what is tried of everything but its body. */
function asWorn(text: string, shown: ShownStudy | null): string {
  if (shown === null) return text;
  const { measures: _, shape: __, tape: ___, tissue: ____, ...tried } = shown.tried;
  return isNothing(tried) ? text : withTries(text, tried, shown.sheet);
}

/** Named heights of the body on the stage, mm. */
const levelsNow = (shown: ShownStudy | null): readonly { name: string; levelMm: number }[] =>
  (shown?.settled.girths ?? []).flatMap(({ name, levelCm }) => {
    const cm = typedNumber(levelCm);
    return cm === null ? [] : [{ name, levelMm: 10 * cm }];
  });

const MESH = /\.(?:obj|glb|gltf|ply|stl)$/i;

export const isMeshName = (name: string): boolean => MESH.test(name);

export function layImport(parts: ImportParts): ImportSide {
  const { host, study, runStudy, baseStudy, guarded } = parts;
  const imports = createImportStore();
  const deeds = createImportRunner(imports, parts.startImportWorker);
  const importView = createViewStore();
  // Paper lies to both sides of the form all the time, as when a leaf is open on the stage.
  importView.setState({ leaf: 'body' });
  const remark = (what: string): void =>
    study.setState({ notice: { what, remedy: '', file: null, tone: 'remark' } });

  /** The study as it would wear the body; null while it cannot. */
  const wearing = (): { study: OpenedStudy; file: MeshFile } | null => {
    const state = imports.getState();
    const base = baseStudy();
    const { file, choices, opened, flesh, levels, laidAt } = state;
    const { shown } = study.getState();
    if (base === null || file === null || choices === null || opened === null || !isWearable(state))
      return null;
    const partNames = opened.parts.map(({ name }) => name);
    const places = laidAt === 'places' ? levelPairs(levelsNow(shown), levels ?? []) : [];
    const worn = { ...base, text: asWorn(base.text, shown) };
    return { study: withBody(worn, { file, choices, partNames, flesh, places }), file };
  };

  const take = ({ path, bytes }: NamedFile): void =>
    deeds.open({ name: path, blob: new Blob([bytes.slice()]) });

  return {
    imports,
    importView,
    importViewActions: viewActions(importView),
    importDeeds: {
      ...deeds,
      pick: () =>
        guarded(async () => {
          const file = await host.openFile('body');
          if (file !== null) take(file);
        }),
      take,
      takeDropped: (files) => {
        const meshes = files.filter(({ name }) => isMeshName(name));
        const [mesh] = meshes;
        if (mesh === undefined) return;
        if (meshes.length === 1) return deeds.open({ name: mesh.name, blob: mesh });
        const words = IMPORT_STEP_WORDS.severalBodies(meshes.map(({ name }) => name));
        study.setState({ notice: { ...words, file: null, tone: 'fault' } });
      },
      wear: () => {
        const worn = wearing();
        if (worn === null) return;
        deeds.leave();
        runStudy(worn.study);
      },
      saveStudy: () =>
        guarded(async () => {
          const worn = wearing();
          const { shown } = study.getState();
          if (worn === null || shown === null) return;
          const stem = worn.file.name.replace(MESH, '');
          const name = await host.saveText(
            worn.study.text,
            `${fileNameFor(shown.sheet.name, stem)}.study.json`,
          );
          if (name !== null) remark(IMPORT_STEP_WORDS.saved(name, worn.file.name));
        }),
    },
  };
}
