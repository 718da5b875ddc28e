import { sayFault } from '../../core/words/say.ts';
import { bugWords } from '../../core/words/stage-words.ts';
import type { BenchSheet } from '../../core/io/bench-sheet.ts';
import type { TableWish, TensileTable } from '../../core/io/tensile-table.ts';
import type { SheetReading } from '../../core/sheet/library-entry.ts';
import type {
  FittedFabric,
  FromBench,
  StripWish,
  TakenStrip,
  TakenUnits,
  ToBench,
} from '../worker/bench-messages.ts';
import type { BenchStore } from './bench-store.ts';
import type { Notice } from './study-store.ts';

/** The bench's worker as the runner uses it; the tests hand in one of their own. */
export interface BenchWorker {
  readonly post: (message: ToBench) => void;
  readonly end: () => void;
}

export type StartBenchWorker = (hear: (message: FromBench) => void) => BenchWorker;

export interface BenchRunnerParts {
  readonly startWorker: StartBenchWorker;
  /** Calls `work` a little later, unless the returned function is called before. */
  readonly later: (work: () => void) => () => void;
  /** Something the person must be told. */
  readonly tell: (notice: Notice) => void;
}

/** A tester's table, and what the person says of it. */
export interface TableFile {
  readonly name: string;
  readonly text: string;
  readonly wish: TableWish;
}

export interface BenchRunner {
  /** Reads a sheet's text; refused with a notice. */
  readonly readSheet: (name: string, text: string) => Promise<BenchSheet | null>;
  /** Fits a sheet that is to lie beside the draft; refused with a notice. */
  readonly fitBeside: (name: string, text: string) => Promise<FittedFabric | null>;
  /** Reads sheets for the library; refused with an Error where the program itself fails. */
  readonly inspect: (texts: readonly string[]) => Promise<readonly SheetReading[]>;
  /** Reads a tester's table, as far as the wish answers what it leaves open. */
  readonly readTable: (file: TableFile) => Promise<TensileTable | null>;
  /** Strips of a table, in the bench's units. */
  readonly takeStrips: (
    file: TableFile,
    strips: readonly StripWish[],
    units: TakenUnits,
  ) => Promise<readonly TakenStrip[] | null>;
  /** The text of the draft's sheet as a file holds it; null while the draft is not whole. */
  readonly sheetText: () => Promise<string | null>;
}

/** Questions to the worker and those who wait for their answers. */
interface Desk {
  /** The answer, or null where it was refused, which has then been told. */
  readonly ask: (make: (turn: number) => ToBench) => Promise<FromBench | null>;
  /** Asks for something that nobody waits for; its turn. */
  readonly send: (make: (turn: number) => ToBench) => number;
}

/** Starts the worker when it is first needed. */
function createDesk(
  { startWorker, tell }: Pick<BenchRunnerParts, 'startWorker' | 'tell'>,
  hearFit: (fit: Extract<FromBench, { kind: 'fitted' }>) => void,
): Desk {
  const waiting = new Map<number, (answer: FromBench | null) => void>();
  let worker: BenchWorker | null = null;
  let lastTurn = 0;

  const settle = (turn: number, answer: FromBench | null): void => {
    waiting.get(turn)?.(answer);
    waiting.delete(turn);
  };

  const hear = (message: FromBench): void => {
    if (message.kind === 'fitted') hearFit(message);
    else if (message.kind === 'refused') {
      tell({ ...sayFault(message.fault), file: message.fault.file, tone: 'fault' });
      settle(message.turn, null);
    } else if (message.kind === 'bug') {
      tell({ ...bugWords(message.message), file: null, tone: 'fault' });
      // A worker that did not start answers nobody.
      for (const turn of message.turn === null ? [...waiting.keys()] : [message.turn]) settle(turn, null);
    } else settle(message.turn, message);
  };

  const send = (make: (turn: number) => ToBench): number => {
    const turn = ++lastTurn;
    worker ??= startWorker(hear);
    worker.post(make(turn));
    return turn;
  };

  return {
    send,
    ask: (make) =>
      new Promise((resolve) => {
        send((turn) => {
          waiting.set(turn, resolve);
          return make(turn);
        });
      }),
  };
}

/** Fits the draft whenever it has changed and rested a little, and asks the worker what else the bench wants to know. */
export function createBenchRunner(store: BenchStore, parts: BenchRunnerParts): BenchRunner {
  let fitTurn = 0;
  let cancel: (() => void) | null = null;
  const { ask, send } = createDesk(parts, ({ turn, numbers, outcome }) => {
    // Only the newest draft's answer counts.
    if (turn === fitTurn) store.setState({ reading: { numbers, outcome, isStale: false } });
  });

  const fit = (): void => {
    cancel = null;
    const { parts: read, sheet } = store.getState().read;
    fitTurn = send((turn) => ({ kind: 'fit', turn, parts: read, sheet }));
  };

  store.subscribe(({ draft, isOpen }, before) => {
    const isNew = draft !== before.draft;
    if (!isOpen || (!isNew && before.isOpen)) return;
    cancel?.();
    cancel = parts.later(fit);
  });

  return {
    readSheet: async (name, text) => {
      const answer = await ask((turn) => ({ kind: 'readSheet', turn, name, text }));
      return answer?.kind === 'sheet' ? answer.sheet : null;
    },
    fitBeside: async (name, text) => {
      const answer = await ask((turn) => ({ kind: 'fitBeside', turn, name, text }));
      return answer?.kind === 'beside' ? answer.fabric : null;
    },
    inspect: async (texts) => {
      const answer = await ask((turn) => ({ kind: 'inspect', turn, texts }));
      if (answer?.kind !== 'inspected') throw new Error('the sheet could not be looked at');
      return answer.readings;
    },
    readTable: async (file) => {
      const answer = await ask((turn) => ({ kind: 'readTable', turn, ...file }));
      return answer?.kind === 'table' ? answer.table : null;
    },
    takeStrips: async (file, strips, units) => {
      const answer = await ask((turn) => ({ kind: 'takeStrips', turn, ...file, strips, units }));
      return answer?.kind === 'strips' ? answer.strips : null;
    },
    sheetText: async () => {
      const { sheet } = store.getState().read;
      if (sheet === null) return null;
      const answer = await ask((turn) => ({ kind: 'writeSheet', turn, sheet }));
      return answer?.kind === 'sheetText' ? answer.text : null;
    },
  };
}
