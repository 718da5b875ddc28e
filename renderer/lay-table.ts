import type { Host, NamedFile } from '../electron/contract.ts';
import { bugWords, DROP_WORDS, REMARK_WORDS } from '../core/words/stage-words.ts';
import { chooseStudy } from './bridge/choose-study.ts';
import { findBeside } from './bridge/find-beside.ts';
import { createStageSignals } from './store/stage-signals.ts';
import { createStudyRunner, fileNameFor, type StartWorker } from './store/study-runner.ts';
import { createStudyStore, wornAt } from './store/study-store.ts';
import { createViewStore, viewActions } from './store/view-store.ts';
import type { Table } from './table.ts';

/** What a table needs from outside. */
export interface TableParts {
  readonly host: Host;
  readonly startWorker: StartWorker;
  readonly now: () => number;
  /** Draws the picture of what is on the stage, as a PNG. */
  readonly takePicture: (table: Table) => Promise<Uint8Array>;
}

/** The table before the long ways are laid. */
type BareTable = Omit<Table, 'openStudy' | 'openDemo' | 'openDropped' | 'savePicture' | 'saveNumbers'>;

/** Lays the table: stores, runner, and the ways from files to a study and from the stage to a file. */
export function layTable({ host, startWorker, now, takePicture }: TableParts): Table {
  const study = createStudyStore();
  const view = createViewStore();
  const actions = viewActions(view);
  const runner = createStudyRunner(study, startWorker, now);
  study.subscribe(({ shown }, before) => {
    if (shown !== null && shown !== before.shown) actions.lay(shown.settled);
  });
  const bare: BareTable = { host, study, view, actions, runner, signals: createStageSignals() };
  const table: Table = {
    ...bare,
    ...waysIn(bare),
    saveNumbers: () => saveNumbers(bare),
    savePicture: () =>
      guarded(bare, async () => {
        const { shown } = study.getState();
        if (shown === null) return;
        const { field, fabric, showing } = view.getState();
        const subject = showing === 'difference' ? 'B-minus-A' : wornAt(shown.settled, fabric).fabricId;
        const png = await takePicture(table);
        const name = await host.savePicture(png, `${fileNameFor(shown.sheet.name, subject, field)}.png`);
        if (name !== null) remark(bare, REMARK_WORDS.saved(name));
      }),
  };
  return table;
}

/** From the host's dialogs, its demonstration, and what is dropped on the table. */
function waysIn(table: BareTable): Pick<Table, 'openStudy' | 'openDemo' | 'openDropped'> {
  const { host } = table;
  return {
    openStudy: () =>
      guarded(table, async () => {
        const file = await host.openStudy();
        if (file === null) return;
        runAmong(table, [file], async (path) => (await host.readBeside([path]))[0]?.bytes ?? null);
      }),
    openDemo: () =>
      guarded(table, async () => {
        const files = await host.readDemo();
        runAmong(table, files, among(files));
      }),
    openDropped: (dropped) =>
      guarded(table, async () => {
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

/** Runs the one study among files, or says why there is none. */
function runAmong(
  { runner, study }: BareTable,
  files: readonly NamedFile[],
  readBeside: (path: string) => Promise<Uint8Array | null>,
): void {
  const choice = chooseStudy(files);
  if (choice.kind === 'found') {
    const { path, bytes } = choice.study;
    runner.run({ name: path, text: new TextDecoder().decode(bytes), readBeside });
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
      const name = await host.saveText(text, `${fileNameFor(shown.sheet.name, fabricId)}.csv`);
      if (name !== null) remark(table, REMARK_WORDS.saved(name));
    });
  });
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
