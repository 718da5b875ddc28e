import type { Host } from '../electron/contract.ts';
import { sheetFileName } from '../core/sheet/library-entry.ts';
import { BENCH_NOTICES } from '../core/words/bench-place-words.ts';
import { REMARK_WORDS } from '../core/words/stage-words.ts';
import { EMPTY_DRAFT } from './store/bench-draft.ts';
import { draftFromSheet } from './store/bench-from-sheet.ts';
import {
  answersFromDraft,
  incomingOf,
  stripWishes,
  unitsTaken,
  withTaken,
  type Incoming,
} from './store/bench-import.ts';
import type { BenchRunner, TableFile } from './store/bench-runner.ts';
import type { BenchActions, BenchStore } from './store/bench-store.ts';
import type { LibraryDeeds } from './store/library-deeds.ts';
import type { OpenedStudy, StudyRunner } from './store/study-runner.ts';
import type { Notice, StudyStore } from './store/study-store.ts';
import { readText } from './read-text.ts';
import { withFabric, fabricPath } from './with-fabric.ts';

/** The long ways of the bench, each ending in a notice where it goes wrong. */
export interface BenchDeeds {
  /** A sheet, or a tester's table: the first of what is handed over. */
  readonly take: (files: readonly File[]) => Promise<void>;
  /** An empty sheet; the last one is a step back. */
  readonly startAfresh: () => void;
  readonly saveSheet: () => Promise<void>;
  readonly savePicture: (png: Uint8Array, what: string) => Promise<void>;
  readonly saveText: (text: string, what: string) => Promise<void>;
  readonly printCard: () => Promise<void>;
  /** Runs the study of the stage with this fabric as A (0) or B (1), and goes there. */
  readonly putOnForm: (index: number) => Promise<void>;
  /** Sets a fabric of the study beside the draft: `study tern-210`; nothing for an empty key. */
  readonly setBeside: (key: string) => Promise<void>;
  readonly saveInLibrary: (fileName: string) => Promise<void>;
  readonly openFromLibrary: (path: string) => Promise<void>;
  /** The first is opened, the second set beside it. */
  readonly compareInLibrary: (pathA: string, pathB: string) => Promise<void>;
  /** What the person says of the table that waits. */
  readonly sayOfTable: (change: (wish: TableFile['wish']) => TableFile['wish']) => Promise<void>;
  readonly choose: (incoming: Incoming) => void;
  readonly takeOver: () => Promise<void>;
  readonly putTableAway: () => void;
}

export interface BenchParts {
  readonly host: Host;
  readonly bench: BenchStore;
  readonly benchActions: BenchActions;
  readonly benchRunner: BenchRunner;
  readonly libraryDeeds: LibraryDeeds;
  readonly study: StudyStore;
  readonly runner: StudyRunner;
  /** The study that lies on the stage as it was opened; null where none does. */
  readonly baseStudy: () => OpenedStudy | null;
  readonly runStudy: (study: OpenedStudy) => void;
  /** Says whatever goes wrong. */
  readonly guarded: (work: () => Promise<void>) => Promise<void>;
}

export function benchDeeds(parts: BenchParts): BenchDeeds {
  return { ...filesIn(parts), ...filesOut(parts), ...fabricDeeds(parts), ...libraryWays(parts) };
}

const tell = ({ study }: BenchParts, notice: Notice): void => study.setState({ notice });
const tellFault = (parts: BenchParts, words: { what: string; remedy: string }): void =>
  tell(parts, { ...words, file: null, tone: 'fault' });

/** Lays a sheet's text on the bench. */
async function layText(parts: BenchParts, name: string, text: string): Promise<boolean> {
  const { benchRunner, benchActions, bench } = parts;
  const sheet = await benchRunner.readSheet(name, text);
  if (sheet === null) return false;
  benchActions.change(null, () => draftFromSheet(sheet));
  bench.setState({ strip: 'warp', specimen: 0, incoming: null });
  return true;
}

type FilesIn = Pick<
  BenchDeeds,
  'take' | 'startAfresh' | 'sayOfTable' | 'choose' | 'takeOver' | 'putTableAway'
>;

function filesIn(parts: BenchParts): FilesIn {
  const { bench, benchActions, benchRunner, guarded } = parts;
  /** What was asked for last: whoever answers two questions quickly loses neither answer. */
  let asked: TableFile | null = null;
  const readTable = async (file: TableFile): Promise<void> => {
    asked = file;
    const before = bench.getState().incoming;
    const table = await benchRunner.readTable(file);
    if (asked !== file) return;
    if (table === null) {
      asked = before?.file ?? null;
      return;
    }
    const answers = answersFromDraft(table, bench.getState().draft);
    if (Object.keys(answers).length > 0) {
      await readTable({ ...file, wish: { ...file.wish, ...answers } });
      return;
    }
    const isSame = before?.file.text === file.text;
    bench.setState({ incoming: incomingOf(file, table, isSame ? before : null), part: 'readings' });
    benchActions.chooseStep('stretch');
  };
  return {
    take: (files) =>
      guarded(async () => {
        const [file] = files;
        if (file === undefined) return;
        const text = readText(new Uint8Array(await file.arrayBuffer()));
        if (!isSheetText(file.name, text)) await readTable({ name: file.name, text, wish: {} });
        else if (await layText(parts, file.name, text)) benchActions.choosePart('readings');
      }),
    startAfresh: () => {
      benchActions.change(null, () => EMPTY_DRAFT);
      benchActions.chooseStep('weigh');
      benchActions.chooseStrip('warp');
    },
    sayOfTable: (change) =>
      guarded(async () => {
        if (bench.getState().incoming === null || asked === null) return;
        await readTable({ ...asked, wish: change(asked.wish) });
      }),
    choose: (incoming) => bench.setState({ incoming }),
    takeOver: () =>
      guarded(async () => {
        const { incoming, draft } = bench.getState();
        if (incoming === null) return;
        const wishes = stripWishes(incoming);
        const units = unitsTaken(draft, incoming, wishes);
        const taken = await benchRunner.takeStrips(incoming.file, wishes, units);
        if (taken === null || taken.length === 0) return;
        benchActions.change(null, (now) => withTaken(now, { taken, incoming, units }));
        bench.setState({ incoming: null, specimen: 0, strip: taken[0]!.into });
      }),
    putTableAway: () => bench.setState({ incoming: null }),
  };
}

/** By its ending, or by how it begins. */
const isSheetText = (name: string, text: string): boolean =>
  name.toLowerCase().endsWith('.json') || /^\uFEFF?\s*\{/.test(text);

function filesOut(
  parts: BenchParts,
): Pick<BenchDeeds, 'saveSheet' | 'savePicture' | 'saveText' | 'printCard'> {
  const { host, bench, benchRunner, guarded } = parts;
  const nameWith = (what: string, ending: string): string => {
    const { name, lot } = bench.getState().draft;
    return sheetFileName(name, lot).replace(/\.bench\.json$/, `${what === '' ? '' : `-${what}`}.${ending}`);
  };
  const said = (name: string | null): void => {
    if (name === null) return;
    tell(parts, { what: REMARK_WORDS.saved(name), remedy: '', file: null, tone: 'remark' });
  };
  return {
    saveSheet: () =>
      guarded(async () => {
        const text = await benchRunner.sheetText();
        if (text === null) tellFault(parts, BENCH_NOTICES.unfinished);
        else said(await host.saveText(text, nameWith('', 'bench.json')));
      }),
    savePicture: (png, what) => guarded(async () => said(await host.savePicture(png, nameWith(what, 'png')))),
    saveText: (text, what) => guarded(async () => said(await host.saveText(text, nameWith(what, 'csv')))),
    printCard: () => guarded(async () => void (await host.printSheet(nameWith('card', 'pdf')))),
  };
}

function fabricDeeds(parts: BenchParts): Pick<BenchDeeds, 'putOnForm' | 'setBeside'> {
  const { bench, benchActions, benchRunner, baseStudy, runStudy, guarded } = parts;
  return {
    putOnForm: (index) =>
      guarded(async () => {
        const base = baseStudy();
        const text = await benchRunner.sheetText();
        if (base === null) tellFault(parts, BENCH_NOTICES.noStudy);
        else if (text === null) tellFault(parts, BENCH_NOTICES.unfinished);
        else {
          runStudy(withFabric(base, { index, name: bench.getState().draft.name, text }));
          benchActions.close();
        }
      }),
    setBeside: (key) =>
      guarded(async () => {
        const base = baseStudy();
        const path = base && fabricPath(base, key.replace(/^study /, ''));
        const bytes = path === null || base === null ? null : await base.readBeside(path);
        if (path === null || bytes === null) bench.setState({ beside: null });
        else await layBeside(parts, { key, name: path, text: readText(bytes) });
      }),
  };
}

async function layBeside(
  { bench, benchRunner }: BenchParts,
  { key, name, text }: { readonly key: string; readonly name: string; readonly text: string },
): Promise<void> {
  const fabric = await benchRunner.fitBeside(name, text);
  if (fabric !== null) bench.setState({ beside: { key, text, fabric } });
}

function libraryWays(
  parts: BenchParts,
): Pick<BenchDeeds, 'saveInLibrary' | 'openFromLibrary' | 'compareInLibrary'> {
  const { benchActions, benchRunner, libraryDeeds, guarded } = parts;
  const open = async (path: string): Promise<boolean> => {
    const text = await libraryDeeds.read(path);
    return text !== null && layText(parts, path, text);
  };
  return {
    saveInLibrary: (fileName) =>
      guarded(async () => {
        const text = await benchRunner.sheetText();
        if (text === null) tellFault(parts, BENCH_NOTICES.unfinished);
        else await libraryDeeds.save(fileName, text);
      }),
    openFromLibrary: (path) =>
      guarded(async () => {
        if (await open(path)) benchActions.choosePart('readings');
      }),
    compareInLibrary: (pathA, pathB) =>
      guarded(async () => {
        const text = await libraryDeeds.read(pathB);
        if (text === null || !(await open(pathA))) return;
        await layBeside(parts, { key: `library ${pathB}`, name: pathB, text });
        benchActions.choosePart('curves');
      }),
  };
}
