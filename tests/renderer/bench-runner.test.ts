import { describe, expect, it } from 'vitest';
import { checkBenchSheet } from '../../core/io/read-bench-sheet.ts';
import { EMPTY_DRAFT, withPart, withSpecimen } from '../../renderer/store/bench-draft.ts';
import { draftFromSheet } from '../../renderer/store/bench-from-sheet.ts';
import { createBenchRunner } from '../../renderer/store/bench-runner.ts';
import { benchActions, createBenchStore } from '../../renderer/store/bench-store.ts';
import type { Notice } from '../../renderer/store/study-store.ts';
import type { FromBench, ToBench } from '../../renderer/worker/bench-messages.ts';
import { demoSheetText } from '../help/demo-sheet.ts';

const demo = () => checkBenchSheet(JSON.parse(demoSheetText('tern-210')));

const nobody = (): void => undefined;

/** A bench whose worker is written down, and whose later comes when it is told to. */
function layBench() {
  const store = createBenchStore();
  const actions = benchActions(store);
  const posted: ToBench[] = [];
  const told: Notice[] = [];
  const pending: { work: () => void; isCancelled: boolean }[] = [];
  let say: (message: FromBench) => void = nobody;
  let started = 0;
  const runner = createBenchRunner(store, {
    startWorker: (hear) => {
      started++;
      say = hear;
      return { post: (message) => posted.push(message), end: () => undefined };
    },
    later: (work) => {
      const entry = { work, isCancelled: false };
      pending.push(entry);
      return () => {
        entry.isCancelled = true;
      };
    },
    tell: (notice) => told.push(notice),
  });
  const rest = () => {
    for (const { work, isCancelled } of pending.splice(0)) if (!isCancelled) work();
  };
  const numbers = { arealDensity: 0.21, thickness: null, bendingRigidity: null };
  const answer = (turn: number) => say({ kind: 'fitted', turn, numbers, outcome: { kind: 'unfinished' } });
  return {
    store,
    actions,
    posted,
    told,
    runner,
    rest,
    answer,
    say: (message: FromBench) => say(message),
    startCount: () => started,
  };
}

const name = (typed: string) => (draft: typeof EMPTY_DRAFT) => ({ ...draft, name: typed });

describe('fitting', () => {
  it('waits until typing rests, and sends the newest draft once', () => {
    const { actions, posted, rest } = layBench();
    actions.open();
    actions.change('name', name('T'));
    actions.change('name', name('Te'));
    actions.change(null, () => draftFromSheet(demo()));
    expect(posted).toEqual([]);
    rest();
    expect(posted).toHaveLength(1);
    expect(posted[0]).toMatchObject({ kind: 'fit', sheet: demo() });
  });

  it('starts no worker while the bench was never opened', () => {
    const { actions, rest, startCount } = layBench();
    actions.change(null, () => draftFromSheet(demo()));
    rest();
    expect(startCount()).toBe(0);
    actions.open();
    rest();
    expect(startCount()).toBe(1);
  });

  it('hears only the answer to the newest draft', () => {
    const { store, actions, posted, rest, answer } = layBench();
    actions.open();
    rest();
    actions.change('name', name('Tern'));
    rest();
    const [first, second] = posted.map(({ turn }) => turn);
    expect(store.getState().reading.isStale).toBe(true);
    answer(first!);
    expect(store.getState().reading.isStale).toBe(true);
    answer(second!);
    expect(store.getState().reading).toMatchObject({ isStale: false, numbers: { arealDensity: 0.21 } });
  });

  it('sends the parts that can be read while others cannot', () => {
    const { actions, posted, rest } = layBench();
    actions.open();
    actions.change(null, () => withPart(draftFromSheet(demo()), 'bend', { angle: 'steep' }));
    rest();
    expect(posted[0]).toMatchObject({
      kind: 'fit',
      sheet: null,
      parts: { strip: demo().strip, thickness: demo().thickness, bending: null },
    });
  });
});

describe('questions to the worker', () => {
  it('are answered by their turn, whatever comes between', async () => {
    const { runner, posted, say } = layBench();
    const one = runner.readSheet('a.json', '{}');
    const other = runner.readSheet('b.json', '{}');
    const [a, b] = posted.map(({ turn }) => turn);
    say({ kind: 'sheet', turn: b!, name: 'b.json', sheet: { ...demo(), name: 'B' } });
    say({ kind: 'sheet', turn: a!, name: 'a.json', sheet: { ...demo(), name: 'A' } });
    expect([(await one)?.name, (await other)?.name]).toEqual(['A', 'B']);
  });

  it('that are refused give nothing and say why, with the file', async () => {
    const { runner, posted, told, say } = layBench();
    const asked = runner.readSheet('broken.json', '{');
    const fault = {
      code: 'file/not-json',
      facts: { line: 1, column: 2, problem: 'the text ends where a key should stand' },
      file: 'broken.json',
    } as const;
    say({ kind: 'refused', turn: posted[0]!.turn, fault });
    expect(await asked).toBeNull();
    expect(told).toMatchObject([{ file: 'broken.json', tone: 'fault' }]);
    expect(told[0]!.what).toMatch(/Line 1, column 2/);
  });

  it('end when the worker itself fails, and no sheet is asked of a draft that is not whole', async () => {
    const { runner, told, say } = layBench();
    const asked = runner.readSheet('a.json', '{}');
    say({ kind: 'bug', turn: null, message: 'the worker of the bench did not start' });
    expect(await asked).toBeNull();
    expect(told[0]!.what).toContain('did not start');
    expect(await runner.sheetText()).toBeNull();
  });
});

describe('undo', () => {
  it('takes typing in one field back at once, other fields one by one, and does it again', () => {
    const { store, actions } = layBench();
    const typed = () => [store.getState().draft.name, store.getState().draft.lot];
    for (const text of ['T', 'Te', 'Tern']) actions.change('name', name(text));
    actions.change('lot', (draft) => ({ ...draft, lot: '7' }));
    expect(typed()).toEqual(['Tern', '7']);
    actions.undo();
    expect(typed()).toEqual(['Tern', '']);
    actions.undo();
    expect(typed()).toEqual(['', '']);
    actions.undo();
    expect(typed()).toEqual(['', '']);
    actions.redo();
    actions.redo();
    actions.redo();
    expect(typed()).toEqual(['Tern', '7']);
  });

  it('brings back a whole sheet that was laid over', () => {
    const { store, actions } = layBench();
    actions.change('name', name('Mine'));
    actions.change(null, () => draftFromSheet(demo()));
    actions.undo();
    expect(store.getState().draft.name).toBe('Mine');
    expect(store.getState().read.sheet).toBeNull();
    actions.redo();
    expect(store.getState().read.sheet).toEqual(demo());
  });

  it('forgets what was undone once something else is typed', () => {
    const { store, actions } = layBench();
    actions.change('name', name('A'));
    actions.undo();
    actions.change('lot', (draft) => ({ ...draft, lot: '1' }));
    actions.redo();
    expect(store.getState().draft).toMatchObject({ name: '', lot: '1' });
  });

  it('never leaves a strip open that is not there any more', () => {
    const { store, actions } = layBench();
    actions.change(null, (draft) => withSpecimen(draft, 'warp'));
    actions.chooseSpecimen(1);
    actions.undo();
    expect(store.getState().specimen).toBe(0);
  });
});

it('leaving the bench keeps what lies on it', () => {
  const { store, actions } = layBench();
  actions.open();
  actions.change('name', name('Tern'));
  actions.chooseStep('bend');
  actions.close();
  actions.open();
  expect(store.getState()).toMatchObject({ isOpen: true, step: 'bend', draft: { name: 'Tern' } });
});
