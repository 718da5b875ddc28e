import type { ImportChoices } from '../../core/body/import-choices.ts';
import { sayFault } from '../../core/words/say.ts';
import { bugWords } from '../../core/words/stage-words.ts';
import type { ImportQuestion } from '../../core/words/import-step-words.ts';
import type { FromImport, ToImport } from '../worker/import-messages.ts';
import type { Stance } from './axis-turns.ts';
import {
  NO_FILE,
  type FleshWish,
  type ImportState,
  type ImportStore,
  type MeshFile,
} from './import-store.ts';

/** The worker as the runner uses it; the tests hand in one of their own. */
export interface ImportWorker {
  readonly post: (message: ToImport) => void;
  readonly end: () => void;
}

export type StartImportWorker = (hear: (message: FromImport) => void) => ImportWorker;

/** Everything that can be done in the step that brings a body in. */
export interface ImportDeeds {
  /** Takes a file into the step; whatever was there is put away. */
  readonly open: (file: MeshFile) => void;
  /** Goes on with the file that was there last. */
  readonly show: () => void;
  /** Back to the stage; what is under way is given up, the answers stay. */
  readonly leave: () => void;
  /** Ends what is under way, however long it would still take. */
  readonly stop: () => void;
  /** Does what was stopped after all. */
  readonly goOn: () => void;
  /** Answers a question, or says how something is mended. */
  readonly choose: (part: Partial<ImportChoices>, question?: ImportQuestion) => void;
  /** Says that a guess is right. */
  readonly confirm: (question: ImportQuestion) => void;
  readonly stand: (turned: (stance: Stance) => Stance) => void;
  readonly layFlesh: (flesh: Partial<FleshWish>) => void;
  readonly layAt: (laidAt: ImportState['laidAt']) => void;
}

/** At most one worker, that of the file in the step; it is ended by stopping or leaving, and begins again from the file. */
export function createImportRunner(store: ImportStore, startWorker: StartImportWorker): ImportDeeds {
  let worker: ImportWorker | null = null;
  let lastTurn = 0;

  const end = (): void => {
    worker?.end();
    worker = null;
    lastTurn++;
  };

  const hear = (message: FromImport): void => {
    if (message.turn !== null && message.turn !== lastTurn) return;
    if (message.kind === 'bug') end();
    hearImport(store, message);
  };

  /** Makes the body with the choices as they are; reads the file first where no worker holds it. */
  const begin = (): void => {
    const { file, choices } = store.getState();
    if (file === null) return;
    store.setState({
      fault: null,
      levels: null,
      work: { doing: choices === null ? 'reading' : 'placing', share: 0 },
    });
    const turn = ++lastTurn;
    if (worker !== null && choices !== null) return worker.post({ kind: 'make', turn, choices });
    worker?.end();
    worker = startWorker(hear);
    worker.post({ kind: 'open', turn, name: file.name, file: file.blob, choices });
  };

  const choose: ImportDeeds['choose'] = (part, question) => {
    const { choices, answered } = store.getState();
    if (choices === null) return;
    store.setState({
      choices: { ...choices, ...part },
      answered: question === undefined ? answered : [...new Set([...answered, question])],
    });
    begin();
  };

  return {
    open: (file) => {
      end();
      store.setState({ ...NO_FILE, file, isOpen: true });
      begin();
    },
    show: () => {
      store.setState({ isOpen: true });
      const { file, work, made, fault } = store.getState();
      if (file !== null && work === 'stopped' && made === null && fault === null) begin();
    },
    leave: () => {
      const { work, made } = store.getState();
      end();
      store.setState({ isOpen: false, work: work !== null || made === null ? 'stopped' : null });
    },
    stop: () => {
      end();
      store.setState({ work: 'stopped' });
    },
    goOn: begin,
    choose,
    confirm: (question) =>
      store.setState(({ answered }) => ({ answered: [...new Set([...answered, question])] })),
    stand: (turned) => {
      const { choices, answered } = store.getState();
      if (choices === null) return;
      const stance = turned(choices);
      // Whoever turns it sees the whole stance.
      store.setState({ answered: [...new Set([...answered, 'up' as const, 'front' as const])] });
      choose({ up: stance.up, front: stance.front });
    },
    layAt: (laidAt) => store.setState({ laidAt }),
    layFlesh: (flesh) => store.setState((state) => ({ flesh: { ...state.flesh, ...flesh } })),
  };
}

/** What the worker says of the newest wish. */
function hearImport(store: ImportStore, message: FromImport): void {
  switch (message.kind) {
    case 'stand':
      return store.setState({ work: message.stand });
    case 'opened':
      return store.setState(({ choices }) => ({
        opened: message.opened,
        choices: choices ?? message.opened.guess.choices,
      }));
    case 'made':
      // The worker's copy of the choices says the same: the store's own tells the newest by identity.
      return store.setState(({ choices }) => ({
        made: { ...message.made, choices: choices ?? message.made.choices },
        work: { doing: 'measuring', share: 0 },
      }));
    case 'measured':
      return store.setState({ levels: message.levels, work: null });
    case 'fault':
      return store.setState({ fault: sayFault(message.fault), work: null });
    case 'bug':
      return store.setState({ fault: bugWords(message.message), work: null });
    default:
      message satisfies never;
  }
}
