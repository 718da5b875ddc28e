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

/** Lays the table: stores, runner, and the ways from files to a study and from the stage to a file. */
export function layTable({ host, startWorker, now, takePicture }: TableParts): Table {
  const study = createStudyStore();
  const view = createViewStore();
  const actions = viewActions(view);
  const runner = createStudyRunner(study, startWorker, now);
  study.subscribe(({ shown }, before) => {
    if (shown !== null && shown !== before.shown) actions.lay(shown.settled);
  });

  /** Says whatever goes wrong and leaves the table as it was. */
  const guarded = async (work: () => Promise<void>): Promise<void> => {
    try {
      await work();
    } catch (error) {
      const message = error instanceof Error ? error.message : String(error);
      study.setState({ notice: { ...bugWords(message), file: null, tone: 'fault' } });
    }
  };

  const runAmong = (
    files: readonly NamedFile[],
    readBeside: (path: string) => Promise<Uint8Array | null>,
  ): void => {
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
  };

  const among = (files: readonly NamedFile[]) => (path: string) =>
    Promise.resolve(findBeside(files, path)?.bytes ?? null);

  const remark = (what: string): void =>
    study.setState({ notice: { what, remedy: '', file: null, tone: 'remark' } });

  const table: Table = {
    host,
    study,
    view,
    actions,
    runner,
    signals: createStageSignals(),
    openStudy: () =>
      guarded(async () => {
        const file = await host.openStudy();
        if (file === null) return;
        runAmong([file], async (path) => (await host.readBeside([path]))[0]?.bytes ?? null);
      }),
    openDemo: () =>
      guarded(async () => {
        const files = await host.readDemo();
        runAmong(files, among(files));
      }),
    openDropped: (dropped) =>
      guarded(async () => {
        const files = await Promise.all(
          dropped.map(async (file) => ({
            path: file.name,
            bytes: new Uint8Array(await file.arrayBuffer()),
          })),
        );
        runAmong(files, among(files));
      }),
    savePicture: () =>
      guarded(async () => {
        const { shown } = study.getState();
        if (shown === null) return;
        const { field, fabric, showing } = view.getState();
        const subject = showing === 'difference' ? 'B-minus-A' : wornAt(shown.settled, fabric).fabricId;
        const png = await takePicture(table);
        const name = await host.savePicture(png, `${fileNameFor(shown.sheet.name, subject, field)}.png`);
        if (name !== null) remark(REMARK_WORDS.saved(name));
      }),
    saveNumbers: () => {
      const { shown } = study.getState();
      if (shown === null) return;
      const { fabricId } = wornAt(shown.settled, view.getState().fabric);
      runner.table(fabricId, (text) => {
        void guarded(async () => {
          const name = await host.saveText(text, `${fileNameFor(shown.sheet.name, fabricId)}.csv`);
          if (name !== null) remark(REMARK_WORDS.saved(name));
        });
      });
    },
  };
  return table;
}
