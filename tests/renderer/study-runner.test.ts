import { describe, expect, it } from 'vitest';
import { createStudyRunner, fileNameFor } from '../../renderer/store/study-runner.ts';
import { createStudyStore } from '../../renderer/store/study-store.ts';
import type { FromWorker, ToWorker } from '../../renderer/worker/messages.ts';
import { pretendSettled, pretendSheet } from '../help/pretend-result.ts';

const settledAs = (id: number): FromWorker => ({
  kind: 'settled',
  id,
  sheet: pretendSheet,
  settled: pretendSettled(),
});

/** A runner whose workers are written down instead of started. */
function bench() {
  const store = createStudyStore();
  const workers: { posted: ToWorker[]; ended: boolean; say: (message: FromWorker) => void }[] = [];
  let time = 1000;
  const runner = createStudyRunner(
    store,
    (say) => {
      const worker = { posted: [] as ToWorker[], ended: false, say };
      workers.push(worker);
      return {
        post: (message) => worker.posted.push(message),
        end: () => {
          worker.ended = true;
        },
      };
    },
    () => time,
  );
  const run = (name = 'a.study.json') =>
    runner.run({
      name,
      text: '{}',
      readBeside: (path) =>
        path === 'there.json' ? Promise.resolve(Uint8Array.of(7)) : Promise.resolve(null),
    });
  const settle = (index: number) => {
    workers[index]!.say({ kind: 'opened', sheet: pretendSheet });
    time += 2500;
    workers[index]!.say(settledAs(0));
  };
  return { store, workers, runner, run, settle };
}

describe('a run', () => {
  it('goes from reading over settling to a study on the table', () => {
    const { store, workers, run } = bench();
    run();
    expect(store.getState().activity).toEqual({ kind: 'reading', name: 'a.study.json' });
    expect(workers[0]!.posted).toEqual([{ kind: 'run', name: 'a.study.json', text: '{}' }]);
    workers[0]!.say({ kind: 'opened', sheet: pretendSheet });
    workers[0]!.say({ kind: 'progress', id: 0, progress: { step: 'garment' } });
    expect(store.getState().activity).toMatchObject({ kind: 'settling', progress: { step: 'garment' } });
    workers[0]!.say(settledAs(0));
    expect(store.getState().activity.kind).toBe('idle');
    expect(store.getState().shown?.sheet.name).toBe('Pretend study');
    expect(workers[0]!.ended).toBe(false);
  });

  it('is timed', () => {
    const { store, run, settle } = bench();
    run();
    settle(0);
    expect(store.getState().shown?.seconds).toBe(2.5);
  });

  it('gets the files it asks for, and is told of those that are not there', async () => {
    const { workers, run } = bench();
    run();
    workers[0]!.say({ kind: 'wantFile', path: 'there.json' });
    workers[0]!.say({ kind: 'wantFile', path: 'gone.json' });
    await Promise.resolve();
    await Promise.resolve();
    await Promise.resolve();
    expect(workers[0]!.posted).toContainEqual({ kind: 'file', path: 'there.json', bytes: Uint8Array.of(7) });
    expect(workers[0]!.posted).toContainEqual({ kind: 'file', path: 'gone.json', bytes: null });
  });
});

describe('nothing is lost', () => {
  it('when a second study is faulty: the first stays, the fault says file, what and remedy', () => {
    const { store, workers, run, settle } = bench();
    run();
    settle(0);
    const first = store.getState().shown;
    run('b.study.json');
    workers[1]!.say({
      kind: 'fault',
      id: 0,
      fault: { code: 'file/missing', facts: { path: 'gone.json' }, file: 'b.study.json' },
    });
    const { shown, notice, activity } = store.getState();
    expect(shown).toBe(first);
    expect(activity.kind).toBe('idle');
    expect(notice).toMatchObject({ file: 'b.study.json', tone: 'fault' });
    expect(notice!.what).toContain('gone.json');
    expect(notice!.remedy).not.toBe('');
    expect([workers[0]!.ended, workers[1]!.ended]).toEqual([false, true]);
  });

  it('when a run is stopped, and late messages of it are not heard', () => {
    const { store, workers, runner, run, settle } = bench();
    run();
    settle(0);
    const first = store.getState().shown;
    run('b.study.json');
    workers[1]!.say({ kind: 'opened', sheet: pretendSheet });
    runner.stop();
    expect(workers[1]!.ended).toBe(true);
    workers[1]!.say(settledAs(0));
    expect(store.getState()).toMatchObject({ shown: first, activity: { kind: 'idle' } });
  });

  it('when something breaks: the message is shown', () => {
    const { store, workers, run } = bench();
    run();
    workers[0]!.say({ kind: 'bug', id: 0, message: 'x is not a function' });
    expect(store.getState().notice?.what).toContain('x is not a function');
  });
});

it('keeps the worker of the study on the table for its tables, and ends it when another is laid', () => {
  const { workers, runner, run, settle } = bench();
  run();
  settle(0);
  const texts: string[] = [];
  runner.table('first', (text) => texts.push(text));
  expect(workers[0]!.posted.at(-1)).toEqual({ kind: 'wantTable', fabricId: 'first' });
  workers[0]!.say({ kind: 'table', fabricId: 'first', text: 'x,y,z' });
  expect(texts).toEqual(['x,y,z']);
  run('b.study.json');
  settle(1);
  expect([workers[0]!.ended, workers[1]!.ended]).toEqual([true, false]);
});

it('makes file names that every disk takes', () => {
  expect(fileNameFor('Harbour short, size 38/40: "round" 2', 'tern-210', 'skinPressure')).toBe(
    'Harbour-short-size-38-40-round-2-tern-210-skinPressure',
  );
});
