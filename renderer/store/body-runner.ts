import type { StudyChange, TapeNotes } from '../../core/study/study.ts';
import type { SizeChart } from '../../core/body/size-chart.ts';
import type { TissueCorrections } from '../../core/body/tissue-map.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import { sayFault } from '../../core/words/say.ts';
import { bugWords } from '../../core/words/stage-words.ts';
import type { FromBodyWorker, ToBodyWorker } from '../worker/body-messages.ts';
import type { BodyStore } from './body-store.ts';
import type { TryPace } from './study-runner.ts';
import { wantedChange, type Notice, type StudyStore } from './study-store.ts';
import type { ViewStore } from './view-store.ts';

/** Starts the worker that measures bodies; the tests hand in one of their own. */
export type StartBodyWorker = (hear: (message: FromBodyWorker) => void) => {
  readonly post: (message: ToBodyWorker) => void;
  readonly end: () => void;
};

/** What can be done about tape, flesh and charts. */
export interface BodyDeeds {
  /** Reads a studio's chart; what is wrong with it is said. */
  readonly readChart: (name: string, text: string) => void;
  /** Puts the studio's chart away. */
  readonly houseChart: () => void;
  /** Where tapes lie by hand now. */
  readonly tapeNotes: () => TapeNotes;
  /** Tapes as a hand moves them: measured at once, laid when it lets go. */
  readonly holdTape: (notes: TapeNotes) => void;
  readonly letTapeGo: () => void;
  readonly tissueNow: () => TissueCorrections;
  /** Corrections as the brush draws them: shown at once, worn when it is lifted. */
  readonly drawTissue: (tissue: TissueCorrections) => void;
  readonly liftBrush: () => void;
}

/** A studio's chart as its file has it. */
export interface ChartFile {
  readonly name: string;
  readonly text: string;
}

/** Where a studio's chart is kept from one day to the next. */
export interface ChartShelf {
  readonly take: () => ChartFile | null;
  readonly put: (chart: ChartFile | null) => void;
}

interface BodyParts {
  readonly study: StudyStore;
  readonly view: ViewStore;
  readonly startWorker: StartBodyWorker;
  readonly tryOut: (change: StudyChange, pace: TryPace) => void;
  readonly shelf: ChartShelf;
}

/** What was asked of the worker last. */
interface Asked {
  readonly id: number;
  readonly of: TapeNotes | TissueCorrections;
  readonly skin: TriangleMesh;
}

const NO_TAPE: TapeNotes = { placed: {}, lines: [] };
const NO_TISSUE: TissueCorrections = { regions: [], strokes: [] };

/** The answers wanted now: of the study as it is tried, and as a hand holds it. */
function wishes(store: BodyStore, study: StudyStore): { tape: TapeNotes; tissue: TissueCorrections } {
  const { shown } = study.getState();
  const wanted: StudyChange = wantedChange(study.getState());
  const { held, drawn } = store.getState();
  return {
    tape: held ?? wanted.tape ?? shown?.asOpened.tape ?? NO_TAPE,
    tissue: drawn ?? wanted.tissue ?? shown?.asOpened.tissue ?? NO_TISSUE,
  };
}

/** Keeps tape and flesh of the body on the stage measured while they are looked at; of several wishes the newest counts. */
export function createBodyRunner(
  store: BodyStore,
  { study, view, startWorker, tryOut, shelf }: BodyParts,
): BodyDeeds {
  let worker: ReturnType<StartBodyWorker> | null = null;
  let laidSkin: TriangleMesh | null = null;
  let lastId = 0;
  const asked: Record<'tape' | 'flesh', Asked | null> = { tape: null, flesh: null };
  const isUnderWay = { tape: false, flesh: false };

  const post = (message: ToBodyWorker): void => {
    worker ??= startWorker(hear);
    worker.post(message);
  };
  const tell = (notice: Notice): void => study.setState({ notice });

  /** Asks for what is looked at, unless it is known or being worked out; then again when that is there. */
  const refresh = (): void => {
    const { shown } = study.getState();
    const { part } = store.getState();
    if (shown === null || view.getState().leaf !== 'body' || part === 'form') return;
    const { skin, known } = shown.settled;
    if (laidSkin !== skin) {
      laidSkin = skin;
      asked.tape = null;
      asked.flesh = null;
      post({ kind: 'body', skin, known });
    }
    const wish = wishes(store, study);
    const subject = part === 'tape' ? wish.tape : wish.tissue;
    if (isUnderWay[part] || asked[part]?.of === subject) return;
    const id = ++lastId;
    asked[part] = { id, of: subject, skin };
    isUnderWay[part] = true;
    post(
      part === 'tape' ? { kind: 'measure', id, tape: wish.tape } : { kind: 'flesh', id, tissue: wish.tissue },
    );
  };

  const hear = (message: FromBodyWorker): void => {
    switch (message.kind) {
      case 'measured':
        isUnderWay.tape = false;
        // What was asked of a body that is gone is not laid.
        if (asked.tape?.id === message.id)
          store.setState({ tape: message.tape, measuredSkin: asked.tape.skin });
        return refresh();
      case 'flesh':
        isUnderWay.flesh = false;
        if (asked.flesh?.id === message.id)
          store.setState({ flesh: message.flesh, fleshSkin: asked.flesh.skin });
        return refresh();
      case 'chart':
        return charts.lay(message.chart);
      case 'fault':
      case 'bug':
        isUnderWay.tape = false;
        isUnderWay.flesh = false;
        return tell(
          message.kind === 'fault'
            ? { ...sayFault(message.fault), file: message.fault.file, tone: 'fault' }
            : { ...bugWords(message.message), file: null, tone: 'fault' },
        );
      default:
        message satisfies never;
    }
  };

  const charts = chartDeeds(store, shelf, ({ name, text }) =>
    post({ kind: 'chart', id: ++lastId, name, text }),
  );
  study.subscribe(refresh);
  view.subscribe((state, before) => {
    if (state.leaf === 'body') charts.remember();
    if (state.leaf !== before.leaf) refresh();
    // A map that is chosen while the form stands bare is a map of the cloth.
    const isOther = state.field !== before.field || state.showing !== before.showing;
    if (isOther && state.leaf === 'body') store.setState({ part: 'form' });
  });
  store.subscribe(refresh);
  return {
    readChart: charts.read,
    houseChart: charts.putAway,
    ...handDeeds(store, study, tryOut),
  };
}

/** The ways of a studio's chart: read from a file or from the shelf, laid beside the body, put away. */
interface ChartDeeds {
  readonly read: (name: string, text: string) => void;
  /** The chart of last time, when the leaf is opened first. */
  readonly remember: () => void;
  readonly lay: (chart: SizeChart) => void;
  readonly putAway: () => void;
}

function chartDeeds(store: BodyStore, shelf: ChartShelf, ask: (file: ChartFile) => void): ChartDeeds {
  let asked: ChartFile | null = null;
  let isRemembered = false;
  const read = (name: string, text: string): void => {
    asked = { name, text };
    ask(asked);
  };
  return {
    read,
    remember: () => {
      const kept = isRemembered ? null : shelf.take();
      isRemembered = true;
      if (kept !== null) read(kept.name, kept.text);
    },
    lay: (ownChart) => {
      shelf.put(asked);
      store.setState({ ownChart, size: null });
    },
    putAway: () => {
      shelf.put(null);
      store.setState({ ownChart: null, size: null });
    },
  };
}

/** What a hand does on the form itself. */
function handDeeds(
  store: BodyStore,
  study: StudyStore,
  tryOut: BodyParts['tryOut'],
): Omit<BodyDeeds, 'readChart' | 'houseChart'> {
  const lay = (change: StudyChange): void => {
    tryOut({ ...wantedChange(study.getState()), ...change }, 'now');
    store.setState({ held: null, drawn: null });
  };
  return {
    tapeNotes: () => wishes(store, study).tape,
    holdTape: (held) => store.setState({ held }),
    letTapeGo: () => {
      const { held } = store.getState();
      if (held !== null) lay({ tape: held });
    },
    tissueNow: () => wishes(store, study).tissue,
    drawTissue: (drawn) => store.setState({ drawn }),
    liftBrush: () => {
      const { drawn } = store.getState();
      if (drawn !== null) lay({ tissue: drawn });
    },
  };
}
