import type { Host, NamedFile } from '../electron/contract.ts';
import { proofCsv, type ProofTable } from '../core/sheet/proof-table.ts';
import { bugWords, DROP_WORDS, REMARK_WORDS } from '../core/words/stage-words.ts';
import { TRY_WORDS } from '../core/words/try-words.ts';
import { chartShelf } from './bridge/chart-shelf.ts';
import { chooseStudy } from './bridge/choose-study.ts';
import { findBeside } from './bridge/find-beside.ts';
import { benchDeeds, type BenchParts } from './lay-bench.ts';
import { isMeshName, layImport, type ImportSide } from './lay-import.ts';
import { createBenchRunner, type StartBenchWorker } from './store/bench-runner.ts';
import { benchActions, createBenchStore } from './store/bench-store.ts';
import { showSwatches } from './store/bench-swatches.ts';
import { libraryDeeds } from './store/library-deeds.ts';
import type { StartImportWorker } from './store/import-runner.ts';
import { createLibraryStore } from './store/library-store.ts';
import { isNothing } from './store/plain-change.ts';
import { createProofDeeds, createProofStore, type StartProofWorker } from './store/proof-store.ts';
import { createBodyRunner, type StartBodyWorker } from './store/body-runner.ts';
import { createBodyStore, isBare } from './store/body-store.ts';
import { createStageHistory } from './store/stage-history.ts';
import { createSignal, createStageSignals } from './store/stage-signals.ts';
import { createStudyRunner, fileNameFor, type OpenedStudy, type StartWorker } from './store/study-runner.ts';
import { createStudyStore, wornAt, type ShownStudy } from './store/study-store.ts';
import { createSwatchRunner, type StartSwatchWorker } from './store/swatch-runner.ts';
import { createSwatchStore } from './store/swatch-store.ts';
import { createViewStore, viewActions } from './store/view-store.ts';
import type { Table } from './table.ts';
import { withTries } from './with-tries.ts';

/** What a table needs from outside. */
export interface TableParts {
  readonly host: Host;
  readonly startWorker: StartWorker;
  readonly startBodyWorker: StartBodyWorker;
  readonly startBenchWorker: StartBenchWorker;
  readonly startSwatchWorker: StartSwatchWorker;
  readonly startProofWorker: StartProofWorker;
  readonly startImportWorker: StartImportWorker;
  readonly now: () => number;
  /** Draws the picture of what is on the stage, as a PNG. */
  readonly takePicture: (table: Table) => Promise<Uint8Array>;
  /** Draws the table of outside checks, of so many subjects, as a PNG. */
  readonly proofPicture: (table: ProofTable, of: number) => Promise<Uint8Array>;
}

/** The table before the long ways are laid. */
type BareTable = Pick<
  Table,
  'host' | 'study' | 'view' | 'actions' | 'runner' | 'signals' | 'history' | 'tryOut'
> & {
  readonly runStudy: (study: OpenedStudy) => void;
};

/** How long typing rests before the bench is fitted anew, ms. */
const REST = 250;

/** Lays the table: stores, runner, and the ways from files to a study and from the stage to a file. */
export function layTable(parts: TableParts): Table {
  const { host, startWorker, now, takePicture } = parts;
  const study = createStudyStore();
  const view = createViewStore();
  const actions = viewActions(view);
  const runner = createStudyRunner(study, startWorker, now);
  let begun: OpenedStudy | null = null;
  let base: OpenedStudy | null = null;
  const runStudy = (opened: OpenedStudy): void => {
    begun = opened;
    runner.run(opened);
  };
  study.subscribe(({ shown }, before) => {
    if (shown === null || shown === before.shown) return;
    if (shown.laid === before.shown?.laid) return actions.resettle(shown.settled);
    base = begun;
    actions.lay(shown.settled);
  });
  const history = createStageHistory(study, view, runner);
  const tryOut: Table['tryOut'] = (change, pace) => {
    runner.tryOut(change, pace);
    if (pace === 'now') history.note();
  };
  const signals = createStageSignals();
  const bare: BareTable = { host, study, view, actions, runner, runStudy, signals, history, tryOut };
  const imports = layImport({
    ...bare,
    baseStudy: () => base,
    startImportWorker: parts.startImportWorker,
    guarded: (work) => guarded(bare, work),
  });
  const body = createBodyStore();
  const table: Table = {
    ...bare,
    ...imports,
    ...layBenchParts(bare, { ...parts, baseStudy: () => base }),
    ...layProof(bare, parts),
    body,
    bodyDeeds: createBodyRunner(body, {
      study,
      view,
      startWorker: parts.startBodyWorker,
      tryOut,
      shelf: chartShelf,
    }),
    ...waysIn(bare, imports),
    saveNumbers: () => saveNumbers(bare),
    saveTried: () => guarded(bare, () => saveTried(bare, base)),
    savePicture: () =>
      guarded(bare, async () => {
        const { shown } = study.getState();
        if (shown === null) return;
        const { field, fabric, showing } = view.getState();
        const subject = showing === 'difference' ? 'B-minus-A' : wornAt(shown.settled, fabric).fabricId;
        const png = await takePicture(table);
        const { part } = body.getState();
        const fileName = isBare(view.getState(), { part })
          ? fileNameFor(nameOf(shown), part)
          : fileNameFor(nameOf(shown), subject, field);
        const name = await host.savePicture(png, `${fileName}.png`);
        if (name !== null) remark(bare, REMARK_WORDS.saved(name));
      }),
  };
  return table;
}

/** The outside checks, and the ways from them to a file. */
function layProof(
  bare: BareTable,
  { startProofWorker, proofPicture }: Pick<TableParts, 'startProofWorker' | 'proofPicture'>,
): Pick<Table, 'proof' | 'proofDeeds' | 'saveProof'> {
  const { host, study } = bare;
  const proof = createProofStore();
  return {
    proof,
    proofDeeds: createProofDeeds(proof, startProofWorker, (notice) => study.setState({ notice })),
    saveProof: (as) =>
      guarded(bare, async () => {
        const { table, subjects } = proof.getState();
        if (table.subjects.length === 0) return;
        const name =
          as === 'numbers'
            ? await host.saveText(proofCsv(table), 'snugfield-proof.csv')
            : await host.savePicture(await proofPicture(table, subjects.length), 'snugfield-proof.png');
        if (name !== null) remark(bare, REMARK_WORDS.saved(name));
      }),
  };
}

type BenchSide = Pick<
  Table,
  | 'bench'
  | 'benchActions'
  | 'benchDeeds'
  | 'benchSignals'
  | 'library'
  | 'libraryDeeds'
  | 'swatch'
  | 'swatchDeeds'
>;

/** The bench's side of the table: its stores, its worker, its library and its swatches. */
function layBenchParts(
  bare: BareTable,
  parts: Pick<TableParts, 'startBenchWorker' | 'startSwatchWorker' | 'now'> & {
    readonly baseStudy: () => OpenedStudy | null;
  },
): BenchSide {
  const { host, study, runner, runStudy } = bare;
  const bench = createBenchStore();
  const library = createLibraryStore();
  const swatch = createSwatchStore();
  const benchRunner = createBenchRunner(bench, {
    startWorker: parts.startBenchWorker,
    later: (work) => {
      const timer = setTimeout(work, REST);
      return () => clearTimeout(timer);
    },
    tell: (notice) => study.setState({ notice }),
  });
  const side = {
    bench,
    benchActions: benchActions(bench),
    benchSignals: { openFile: createSignal(0) },
    library,
    libraryDeeds: libraryDeeds(library, { host, inspect: benchRunner.inspect, now: parts.now }),
    swatch,
    swatchDeeds: createSwatchRunner(swatch, parts.startSwatchWorker),
  };
  showSwatches(side);
  const { baseStudy } = parts;
  const guard = (work: () => Promise<void>): Promise<void> => guarded(bare, work);
  const all: BenchParts = { ...side, host, study, runner, runStudy, benchRunner, baseStudy, guarded: guard };
  return { ...side, benchDeeds: benchDeeds(all) };
}

/** From the host's dialogs, its demonstration, and what is dropped on the table. */
function waysIn(
  table: BareTable,
  { imports, importDeeds }: ImportSide,
): Pick<Table, 'openStudy' | 'openDemo' | 'openDropped' | 'bringBody'> {
  const { host } = table;
  return {
    openStudy: () =>
      guarded(table, async () => {
        const file = await host.openStudy();
        if (file === null) return;
        if (isMeshName(file.path)) return importDeeds.take(file);
        runAmong(table, [file], async (path) => (await host.readBeside([path]))[0]?.bytes ?? null);
      }),
    openDemo: () =>
      guarded(table, async () => {
        const files = await host.readDemo();
        runAmong(table, files, among(files));
      }),
    bringBody: () => {
      if (imports.getState().file === null) void importDeeds.pick();
      else importDeeds.show();
    },
    openDropped: (dropped) =>
      guarded(table, async () => {
        if (isBodyAlone(dropped.map(({ name }) => name))) return importDeeds.takeDropped(dropped);
        const files = await Promise.all(
          dropped.map(async (file) => ({
            path: file.name,
            bytes: new Uint8Array(await file.arrayBuffer()),
          })),
        );
        runAmong(table, files, among(files));
      }),
  };
}

/** Meshes without anything that could be a study which names them. */
const isBodyAlone = (names: readonly string[]): boolean =>
  names.some(isMeshName) && !names.some((name) => name.toLowerCase().endsWith('.json'));

/** Runs the one study among files, or says why there is none. */
function runAmong(
  { runStudy, study }: BareTable,
  files: readonly NamedFile[],
  readBeside: (path: string) => Promise<Uint8Array | null>,
): void {
  const choice = chooseStudy(files);
  if (choice.kind === 'found') {
    const { path, bytes } = choice.study;
    runStudy({ name: path, text: new TextDecoder().decode(bytes), readBeside });
    return;
  }
  const words =
    choice.kind === 'none'
      ? DROP_WORDS.noStudy(files.map(({ path }) => path))
      : DROP_WORDS.severalStudies(choice.names);
  study.setState({ notice: { ...words, file: null, tone: 'fault' } });
}

const among =
  (files: readonly NamedFile[]) =>
  (path: string): Promise<Uint8Array | null> =>
    Promise.resolve(findBeside(files, path)?.bytes ?? null);

function saveNumbers(table: BareTable): void {
  const { host, runner, study, view } = table;
  const { shown } = study.getState();
  if (shown === null) return;
  const { fabricId } = wornAt(shown.settled, view.getState().fabric);
  runner.table(fabricId, (text) => {
    void guarded(table, async () => {
      const name = await host.saveText(text, `${fileNameFor(nameOf(shown), fabricId)}.csv`);
      if (name !== null) remark(table, REMARK_WORDS.saved(name));
    });
  });
}

/** What files are named after: what was tried is told from what was opened. */
const nameOf = ({ sheet, tried }: ShownStudy): string =>
  isNothing(tried) ? sheet.name : `${sheet.name} tried`;

async function saveTried({ host, study }: BareTable, base: OpenedStudy | null): Promise<void> {
  const { shown } = study.getState();
  if (shown === null || base === null) return;
  const text = withTries(base.text, shown.tried, shown.sheet);
  const name = await host.saveText(text, `${fileNameFor(shown.sheet.name, 'tried')}.study.json`);
  if (name === null) return;
  study.setState({ notice: { what: TRY_WORDS.savedBeside(name), remedy: '', file: null, tone: 'remark' } });
}

/** Says whatever goes wrong and leaves the table as it was. */
async function guarded({ study }: BareTable, work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    study.setState({ notice: { ...bugWords(message), file: null, tone: 'fault' } });
  }
}

const remark = ({ study }: BareTable, what: string): void =>
  study.setState({ notice: { what, remedy: '', file: null, tone: 'remark' } });
