import { createStore, type StoreApi } from 'zustand/vanilla';
import type { ImportChoices } from '../../core/body/import-choices.ts';
import type { Axis, MeshUnit } from '../../core/mesh/mesh-scene.ts';
import type { FleshUnder, ImportQuestion } from '../../core/words/import-step-words.ts';
import type { FaultSentence } from '../../core/words/word-tables.ts';
import type { ImportStand, MadeBody, OpenedScene, TapeLevel } from '../worker/import-messages.ts';

export type {
  DrawnSurface,
  ImportStand,
  MadeBody,
  OpenedScene,
  TapeLevel,
} from '../worker/import-messages.ts';

/** A mesh file as it was handed over; it is read where it lies. */
export interface MeshFile {
  readonly name: string;
  readonly blob: Blob;
}

/** What is to lie under the skin. */
export interface FleshWish {
  readonly kind: FleshUnder;
  /** Of even flesh. */
  readonly depthMm: number;
  readonly modulusKPa: number;
}

export interface ImportState {
  readonly isOpen: boolean;
  readonly file: MeshFile | null;
  /** Null at rest; `stopped` where somebody stopped what was under way. */
  readonly work: ImportStand | 'stopped' | null;
  readonly opened: OpenedScene | null;
  readonly choices: ImportChoices | null;
  /** Doubtful questions that a person has answered. */
  readonly answered: readonly ImportQuestion[];
  readonly flesh: FleshWish;
  /** The body as it was made last; of other choices while a new one is being made. */
  readonly made: MadeBody | null;
  /** What a tape finds on that body: none where no person is seen, null where it was not measured. */
  readonly levels: readonly TapeLevel[] | null;
  /** Whether the garment is laid at the same places of the body, or at the same heights. */
  readonly laidAt: 'places' | 'heights';
  /** Why the file, or these choices, are no body. */
  readonly fault: FaultSentence | null;
}

export type ImportStore = StoreApi<ImportState>;

/** As deep and as soft as the even flesh of the examples in README.md; an estimate. */
export const USUAL_FLESH: FleshWish = { kind: 'transferred', depthMm: 20, modulusKPa: 40 };

export const NO_FILE = {
  file: null,
  work: null,
  opened: null,
  choices: null,
  answered: [],
  made: null,
  levels: null,
  fault: null,
} as const satisfies Omit<ImportState, 'isOpen' | 'flesh' | 'laidAt'>;

export const createImportStore = (): ImportStore =>
  createStore<ImportState>(() => ({ isOpen: false, flesh: USUAL_FLESH, laidAt: 'places', ...NO_FILE }));

const QUESTIONS: readonly ImportQuestion[] = ['unit', 'up', 'front', 'part'];

/** What was guessed without being sure, and nobody has looked at yet. */
export const openQuestions = ({ opened, answered }: ImportState): readonly ImportQuestion[] =>
  opened === null
    ? []
    : QUESTIONS.filter(
        (question) => opened.guess[question].certainty === 'doubtful' && !answered.includes(question),
      );

/** The body made with the choices as they are now; null while there is none. */
export const currentBody = ({ made, choices }: ImportState): MadeBody | null =>
  made !== null && made.choices === choices ? made : null;

/** Whether a study may wear it. */
export const isWearable = (state: ImportState): boolean =>
  state.work === null && currentBody(state)?.report.closed === true && openQuestions(state).length === 0;

/** Of the skin as it is in the file: refining rounds it by a hair. */
export function bodyHeightMm({ report, low, high }: MadeBody): number {
  const scaled = report.steps.find(({ kind }) => kind === 'scaled');
  return scaled?.kind === 'scaled' ? scaled.facts.heightMm : 1000 * (high[1] - low[1]);
}

/** How tall the body is in each unit, mm, with the axis that points up now. */
export function heightsMm(state: ImportState): Readonly<Record<MeshUnit, number>> {
  const { opened, choices } = state;
  if (opened === null || choices === null) return { m: 0, cm: 0, mm: 0, inch: 0 };
  const { unit, up } = opened.guess;
  const guessed = unit.reason.heightMm;
  const along = (axis: Axis): number => opened.size['xyz'.indexOf(axis[1]!)]!;
  const made = currentBody(state);
  const factor =
    choices.up[1] === up.value[1]
      ? 1
      : made === null
        ? along(choices.up) / along(up.value)
        : bodyHeightMm(made) / guessed[choices.unit];
  return {
    m: guessed.m * factor,
    cm: guessed.cm * factor,
    mm: guessed.mm * factor,
    inch: guessed.inch * factor,
  };
}

/** In the unit that is chosen, mm. */
export const chosenHeight = (state: ImportState): number =>
  state.choices === null ? 0 : heightsMm(state)[state.choices.unit];

/** Which parts the skin is made of, a 1 for each that is and a 0 for the others, as far as it is known. */
export function skinParts({ opened, choices, made }: ImportState): string {
  if (opened === null || choices === null) return '';
  const { part } = choices;
  const chosen =
    made?.choices.part === part ? made.report.steps.find(({ kind }) => kind === 'skin-chosen') : undefined;
  const names = chosen?.kind === 'skin-chosen' ? chosen.facts.names : opened.guess.part.reason.names;
  return opened.parts
    .map(({ name }, index) => Number(part === 'largest' ? names.includes(name) : part === index))
    .join('');
}
