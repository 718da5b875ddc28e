import { describe, expect, it } from 'vitest';
import type { BodyTape } from '../../core/body/body-tape.ts';
import type { StudyChange, TapeNotes } from '../../core/study/study.ts';
import { createBodyRunner, type ChartFile } from '../../renderer/store/body-runner.ts';
import { createBodyStore } from '../../renderer/store/body-store.ts';
import { createStudyStore, type ShownStudy } from '../../renderer/store/study-store.ts';
import { createViewStore } from '../../renderer/store/view-store.ts';
import type { FromBodyWorker, ToBodyWorker } from '../../renderer/worker/body-messages.ts';
import { pretendSettled, pretendSheet } from '../help/pretend-result.ts';

const notes = (height: number): TapeNotes => ({ placed: { waistFront: [0, height, 0.1] }, lines: [] });
const tape = (floor: number): BodyTape => ({
  landmarks: {},
  floor,
  forward: [0, 0, 1],
  readings: [],
  heights: [],
  findings: [],
});

const shownStudy = (): ShownStudy => ({
  sheet: pretendSheet,
  settled: pretendSettled(),
  seconds: 1,
  asOpened: pretendSheet,
  tried: {},
  laid: 1,
});

/** A study on the table, the leaf open at the tape, and a worker that is written down. */
function opened(kept: ChartFile | null = null) {
  const study = createStudyStore();
  const view = createViewStore();
  const store = createBodyStore();
  const posted: ToBodyWorker[] = [];
  const tried: StudyChange[] = [];
  const shelved: (ChartFile | null)[] = [];
  const hearing: ((message: FromBodyWorker) => void)[] = [];
  const say = (message: FromBodyWorker): void => hearing[0]!(message);
  const deeds = createBodyRunner(store, {
    study,
    view,
    startWorker: (hear) => {
      hearing.push(hear);
      return { post: (message) => posted.push(message), end: () => undefined };
    },
    shelf: {
      take: () => kept,
      put: (chart) => shelved.push(chart),
    },
    tryOut: (change) => {
      tried.push(change);
      study.setState(({ shown }) => ({ shown: shown && { ...shown, tried: change } }));
    },
  });
  study.setState({ shown: shownStudy() });
  const asked = () => posted.filter((message) => message.kind === 'measure');
  const measured = (floor: number, id = asked().at(-1)!.id): void =>
    say({ kind: 'measured', id, tape: tape(floor) });
  const open = (): void => {
    view.setState({ leaf: 'body' });
    store.setState({ part: 'tape' });
  };
  return {
    study,
    view,
    store,
    posted,
    asked,
    measured,
    deeds,
    tried,
    shelved,
    open,
    say,
  };
}

describe('the body’s own worker', () => {
  it('is asked of nothing until the tape is looked at, then of the body and its girths', () => {
    const { posted, asked, open, store, measured } = opened();
    expect(posted).toEqual([]);
    open();
    expect(posted.map(({ kind }) => kind)).toEqual(['body', 'measure']);
    measured(0.1);
    expect(store.getState().tape!.floor).toBe(0.1);
    expect(asked()).toHaveLength(1);
  });

  it('measures the newest of what a hand did meanwhile, and nothing between', () => {
    const { asked, open, measured, deeds, store } = opened();
    open();
    measured(0);
    deeds.holdTape(notes(1.01));
    deeds.holdTape(notes(1.02));
    deeds.holdTape(notes(1.03));
    expect(asked()).toHaveLength(2);
    measured(1);
    expect(asked().at(-1)!.tape).toEqual(notes(1.03));
    measured(2);
    expect(store.getState().tape!.floor).toBe(2);
    expect(asked()).toHaveLength(3);
  });

  it('what a hand holds is laid as one try when it lets go', () => {
    const { open, deeds, tried, store } = opened();
    open();
    deeds.holdTape(notes(1.01));
    deeds.holdTape(notes(1.02));
    expect(tried).toEqual([]);
    deeds.letTapeGo();
    expect(tried).toEqual([{ tape: notes(1.02) }]);
    expect(store.getState().held).toBeNull();
    expect(deeds.tapeNotes()).toEqual(notes(1.02));
  });

  it('does not lay what was measured of a body that is gone', () => {
    const { open, study, asked, measured, store } = opened();
    open();
    const first = asked()[0]!.id;
    study.setState({ shown: shownStudy() });
    measured(7, first);
    expect(store.getState().tape).toBeNull();
    measured(8);
    expect(store.getState().tape!.floor).toBe(8);
    expect(store.getState().measuredSkin).toBe(study.getState().shown!.settled.skin);
  });

  it('says what is wrong with a chart, names its file, and keeps the one that was there', () => {
    const { deeds, study, store, say } = opened();
    deeds.readChart('own.csv', 'x');
    say({ kind: 'fault', id: 1, fault: { code: 'chart/no-rows', facts: { name: 'own' }, file: 'own.csv' } });
    expect(study.getState().notice).toMatchObject({ file: 'own.csv', tone: 'fault' });
    expect(study.getState().notice!.what).toContain('own');
    expect(store.getState().ownChart).toBeNull();
  });

  it('a chart that was read is kept for the next time; the house’s own takes it off the shelf', () => {
    const { deeds, store, say, shelved } = opened();
    const chart = { name: 'own', source: '', isInvented: false, sizes: ['S'], rows: [] };
    deeds.readChart('own.csv', 'measure,S');
    expect(shelved).toEqual([]);
    say({ kind: 'chart', id: 1, chart });
    expect(shelved).toEqual([{ name: 'own.csv', text: 'measure,S' }]);
    deeds.houseChart();
    expect(shelved.at(-1)).toBeNull();
    expect(store.getState().ownChart).toBeNull();
  });

  it('the chart of last time is read when the leaf is opened, and once only', () => {
    const { posted, open, view } = opened({ name: 'own.csv', text: 'measure,S' });
    const charts = () => posted.filter(({ kind }) => kind === 'chart');
    expect(charts()).toEqual([]);
    open();
    view.setState({ leaf: null });
    view.setState({ leaf: 'body' });
    expect(charts()).toMatchObject([{ name: 'own.csv', text: 'measure,S' }]);
  });

  it('a map of the cloth that is chosen while the form stands bare dresses it again', () => {
    const { open, view, store } = opened();
    open();
    view.setState({ field: 'gap' });
    expect(store.getState().part).toBe('form');
  });
});
