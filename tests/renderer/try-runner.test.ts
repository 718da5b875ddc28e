import { describe, expect, it } from 'vitest';
import type { StudyChange } from '../../core/study/study.ts';
import { createStudyRunner } from '../../renderer/store/study-runner.ts';
import { createStudyStore, wantedChange } from '../../renderer/store/study-store.ts';
import type { FromWorker, ToWorker } from '../../renderer/worker/messages.ts';
import { pretendSettled, pretendSheet } from '../help/pretend-result.ts';

const rough: StudyChange = { friction: { coefficient: 0.6, from: 'damp' } };
const rougher: StudyChange = { friction: { coefficient: 0.9, from: 'typed' } };
const tighter: StudyChange = { girthScale: 0.96 };

/** A study that settled in a worker which is written down instead of started. */
function table() {
  const store = createStudyStore();
  const posted: ToWorker[] = [];
  let ended = false;
  const hearing: ((message: FromWorker) => void)[] = [];
  const say = (message: FromWorker): void => hearing[0]!(message);
  let time = 0;
  const runner = createStudyRunner(
    store,
    (hear) => {
      hearing.push(hear);
      return {
        post: (message) => posted.push(message),
        end: () => {
          ended = true;
        },
      };
    },
    () => time,
  );
  const settle = (id: number) => {
    time += 250;
    const sheet = { ...pretendSheet, friction: id === 0 ? pretendSheet.friction : id };
    say({ kind: 'settled', id, sheet, settled: pretendSettled() });
  };
  runner.run({ name: 'a.study.json', text: '{}', readBeside: () => Promise.resolve(null) });
  settle(0);
  const changes = () => posted.filter((message) => message.kind === 'change');
  return { store, runner, posted, changes, say, settle, isEnded: () => ended };
}

describe('a try', () => {
  it('is asked of the worker that stands, and lies on the table when it has settled', () => {
    const { store, runner, changes, say, settle, isEnded } = table();
    const before = store.getState().shown!;
    runner.tryOut(rough, 'now');
    expect(changes()).toEqual([{ kind: 'change', id: 1, change: rough }]);
    expect(store.getState().activity).toMatchObject({ kind: 'trying', wanted: rough });
    say({ kind: 'progress', id: 1, progress: { step: 'body' } });
    expect(store.getState().activity).toMatchObject({ progress: { step: 'body' } });
    // The last settled state stays on stage until the new one is there.
    expect(store.getState().shown).toBe(before);
    settle(1);
    const { shown, activity } = store.getState();
    expect(activity.kind).toBe('idle');
    expect(shown).toMatchObject({ tried: rough, asOpened: pretendSheet, laid: before.laid, seconds: 0.25 });
    expect(shown!.sheet.friction).toBe(1);
    expect(isEnded()).toBe(false);
  });

  it('that comes later wins: what settles of an older one is not laid', () => {
    const { store, runner, changes, settle } = table();
    runner.tryOut(rough, 'now');
    runner.tryOut(tighter, 'now');
    expect(changes().map(({ id }) => id)).toEqual([1, 2]);
    settle(1);
    expect(store.getState().shown!.tried).toEqual({});
    settle(2);
    expect(store.getState().shown!.tried).toEqual(tighter);
  });

  it('in turn waits for the one under way; of several that wait only the newest is begun', () => {
    const { store, runner, changes, settle } = table();
    runner.tryOut(rough, 'in turn');
    runner.tryOut(tighter, 'in turn');
    runner.tryOut(rougher, 'in turn');
    expect(changes()).toHaveLength(1);
    expect(wantedChange(store.getState())).toEqual(rougher);
    settle(1);
    expect(store.getState().shown!.tried).toEqual(rough);
    expect(store.getState().activity.kind).toBe('trying');
    expect(changes().at(-1)).toEqual({ kind: 'change', id: 2, change: rougher });
    settle(2);
    expect(store.getState()).toMatchObject({ shown: { tried: rougher }, activity: { kind: 'idle' } });
  });

  it('of the value under way is not begun again when the hand lets go', () => {
    const { runner, changes } = table();
    runner.tryOut(rough, 'in turn');
    runner.tryOut(rough, 'now');
    expect(changes()).toHaveLength(1);
  });

  it('of what the sheet says, or of what stands, asks for nothing', () => {
    const { store, runner, changes, settle } = table();
    runner.tryOut({ friction: { coefficient: pretendSheet.friction, from: 'typed' }, girthScale: 1 }, 'now');
    expect(changes()).toEqual([]);
    runner.tryOut(rough, 'now');
    settle(1);
    runner.tryOut({ ...rough, girthScale: 1, branch: pretendSheet.branch }, 'now');
    expect(changes()).toHaveLength(1);
    runner.tryOut({}, 'now');
    expect(changes().at(-1)).toMatchObject({ change: {} });
    settle(2);
    expect(store.getState().shown!.tried).toEqual({});
  });
});

describe('a tape laid by hand', () => {
  const laid: StudyChange = { tape: { placed: { waistFront: [0, 1.05, 0.1] }, lines: [] } };

  it('is a try that the cloth does not know of: nothing is asked of the worker', () => {
    const { store, runner, changes } = table();
    runner.tryOut(laid, 'now');
    expect(changes()).toEqual([]);
    expect(store.getState()).toMatchObject({ shown: { tried: laid }, activity: { kind: 'idle' } });
    runner.tryOut({}, 'now');
    expect(store.getState().shown!.tried).toEqual({});
  });

  it('while cloth settles, lies there when that has settled', () => {
    const { store, runner, changes, settle } = table();
    runner.tryOut(rough, 'now');
    runner.tryOut({ ...rough, ...laid }, 'now');
    expect(changes()).toHaveLength(1);
    settle(1);
    expect(store.getState()).toMatchObject({
      shown: { tried: { ...rough, ...laid } },
      activity: { kind: 'idle' },
    });
  });
});

describe('the last settled state stays', () => {
  it('when a try is stopped: the worker is told, lives on, and what still comes is not heard', () => {
    const { store, runner, posted, settle, isEnded, changes } = table();
    runner.tryOut(rough, 'now');
    settle(1);
    const before = store.getState().shown;
    runner.tryOut(tighter, 'now');
    runner.tryOut(rougher, 'in turn');
    runner.stop();
    expect(posted.at(-1)).toEqual({ kind: 'stop' });
    settle(2);
    expect(store.getState()).toMatchObject({ shown: before, activity: { kind: 'idle' } });
    expect(wantedChange(store.getState())).toEqual(rough);
    expect(isEnded()).toBe(false);
    runner.tryOut(tighter, 'now');
    expect(changes().at(-1)).toMatchObject({ change: tighter });
  });

  it('when it cannot be worn: the fault is said', () => {
    const { store, runner, say, isEnded } = table();
    const before = store.getState().shown;
    runner.tryOut({ from: 0.2 }, 'now');
    say({
      kind: 'fault',
      id: 1,
      fault: { code: 'file/missing', facts: { path: 'x' }, file: null },
    });
    const { shown, activity, notice } = store.getState();
    expect(shown).toBe(before);
    expect(activity.kind).toBe('idle');
    expect(notice).toMatchObject({ tone: 'fault' });
    expect(isEnded()).toBe(false);
  });

  it('when something breaks, and when an older try breaks nothing is said', () => {
    const { store, runner, say } = table();
    runner.tryOut(rough, 'now');
    runner.tryOut(tighter, 'now');
    say({ kind: 'bug', id: 1, message: 'of the older' });
    expect(store.getState()).toMatchObject({ activity: { kind: 'trying' }, notice: null });
    say({ kind: 'bug', id: 2, message: 'x is not a function' });
    expect(store.getState().activity.kind).toBe('idle');
    expect(store.getState().notice?.what).toContain('x is not a function');
  });

  it('while another study is read; a try must wait for that', () => {
    const { store, runner, posted, changes } = table();
    runner.tryOut(rough, 'now');
    runner.run({ name: 'b.study.json', text: '{}', readBeside: () => Promise.resolve(null) });
    expect(posted.map(({ kind }) => kind)).toEqual(['run', 'change', 'stop', 'run']);
    expect(store.getState().activity).toEqual({ kind: 'reading', name: 'b.study.json' });
    runner.tryOut(tighter, 'now');
    expect(changes()).toHaveLength(1);
  });
});
