import { beforeEach, describe, expect, it } from 'vitest';
import type { StudyChange } from '../../core/study/study.ts';
import { createStageHistory, type StageHistory } from '../../renderer/store/stage-history.ts';
import { createStudyStore, wantedChange, type StudyStore } from '../../renderer/store/study-store.ts';
import {
  createViewStore,
  viewActions,
  type ViewActions,
  type ViewStore,
} from '../../renderer/store/view-store.ts';
import { pretendSettled, pretendSheet } from '../help/pretend-result.ts';

let study: StudyStore;
let view: ViewStore;
let actions: ViewActions;
let history: StageHistory;

/** A study whose tries settle at once, or never while `isSlow`. */
let isSlow = false;
const settle = (tried: StudyChange): void =>
  study.setState(({ shown }) => ({ shown: { ...shown!, tried }, activity: { kind: 'idle' } }));
const tryOut = (wanted: StudyChange): void => {
  study.setState({ activity: { kind: 'trying', wanted, progress: { step: 'garment' } } });
  if (!isSlow) settle(wanted);
};
const tried = (wanted: StudyChange): void => {
  tryOut(wanted);
  history.note();
};
const wanted = (): StudyChange => wantedChange(study.getState());

const rough: StudyChange = { friction: { coefficient: 0.6, from: 'damp' } };
const tighter: StudyChange = { ...rough, girthScale: 0.96 };

beforeEach(() => {
  isSlow = false;
  study = createStudyStore();
  view = createViewStore();
  actions = viewActions(view);
  history = createStageHistory(study, view, {
    run: () => undefined,
    tryOut,
    stop: () => undefined,
    table: () => undefined,
  });
  study.setState({
    shown: {
      sheet: pretendSheet,
      settled: pretendSettled(),
      seconds: 1,
      asOpened: pretendSheet,
      tried: {},
      laid: 1,
    },
  });
});

describe('steps back at the stage', () => {
  it('take back tries and changes of the map in the order they were made, and do them again', () => {
    tried(rough);
    actions.chooseField('gap');
    tried(tighter);
    history.undo();
    expect([wanted(), view.getState().field]).toEqual([rough, 'gap']);
    history.undo();
    expect([wanted(), view.getState().field]).toEqual([rough, 'skinPressure']);
    history.undo();
    expect(wanted()).toEqual({});
    history.undo();
    expect(wanted()).toEqual({});
    for (let i = 0; i < 4; i++) history.redo();
    expect([wanted(), view.getState().field]).toEqual([tighter, 'gap']);
  });

  it('bring a typed range back', () => {
    actions.setRange({ low: 0, high: 2500 });
    actions.setRange({ low: 0, high: 1500 });
    history.undo();
    expect(view.getState().ranges['skinPressure values']).toEqual({ low: 0, high: 2500 });
  });

  it('forget what was undone once something new is tried', () => {
    tried(rough);
    history.undo();
    tried(tighter);
    expect(history.store.getState().future).toEqual([]);
  });

  it('leave paper and camera alone', () => {
    actions.toggleLeaf('try');
    actions.look('back');
    expect(history.store.getState().past).toEqual([]);
  });

  it('know nothing of a try that was stopped', () => {
    tried(rough);
    isSlow = true;
    tried(tighter);
    settle(rough);
    expect(history.store.getState().past).toHaveLength(1);
    isSlow = false;
    history.undo();
    expect(wanted()).toEqual({});
  });

  it('take back a whole drag, whatever settled while the hand moved', () => {
    tryOut({ girthScale: 0.99 });
    actions.resettle(pretendSettled());
    actions.toggleLeaf('try');
    tryOut({ girthScale: 0.98 });
    tried({ girthScale: 0.97 });
    history.undo();
    expect(wanted()).toEqual({});
  });

  it('begin anew with another study', () => {
    tried(rough);
    study.setState(({ shown }) => ({ shown: { ...shown!, laid: 2, tried: {} } }));
    expect(history.store.getState().past).toEqual([]);
  });
});
