import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { ProofGroupTable } from '../../renderer/panels/proof/ProofGroupTable.tsx';
import {
  createProofDeeds,
  createProofStore,
  isWhole,
  subjectRead,
  type ProofDeeds,
  type ProofStore,
} from '../../renderer/store/proof-store.ts';
import type { Notice } from '../../renderer/store/study-store.ts';
import type { FromProofWorker } from '../../renderer/worker/proof-messages.ts';

const check = (id: string, got: number) => ({
  id,
  what: `what ${id} is`,
  source: 'A book, page 1',
  expected: 2,
  got,
  unit: 'Pa',
  tolerance: 0.5,
});

/** The page with a worker that is written down instead of started. */
function page(): {
  store: ProofStore;
  deeds: ProofDeeds;
  notices: Notice[];
  workers: { say: (message: FromProofWorker) => void; ended: boolean }[];
} {
  const store = createProofStore();
  const notices: Notice[] = [];
  const workers: { say: (message: FromProofWorker) => void; ended: boolean }[] = [];
  const deeds = createProofDeeds(
    store,
    (say) => {
      const worker = { say, ended: false };
      workers.push(worker);
      return {
        end: () => {
          worker.ended = true;
        },
      };
    },
    (notice) => notices.push(notice),
  );
  return { store, deeds, notices, workers };
}

const begin = (say: (message: FromProofWorker) => void): void => {
  say({ kind: 'begun', subjects: ['conversions', 'rates'] });
  say({ kind: 'progress', progress: { subject: 'conversions', done: 0, of: 2 } });
  say({ kind: 'proven', result: { subject: 'conversions', checks: [check('a', 2.1), check('b', 2.4)] } });
  say({ kind: 'progress', progress: { subject: 'rates', done: 1, of: 2 } });
};

describe('the page of outside checks', () => {
  it('runs only when it is opened, and shows each subject as it comes through', () => {
    const { store, deeds, workers } = page();
    expect(workers).toEqual([]);
    deeds.open();
    begin(workers[0]!.say);
    expect(store.getState()).toMatchObject({ checking: 'rates', table: { passed: 2, failed: 0 } });
    expect(isWhole(store.getState())).toBe(false);
    expect(subjectRead(store.getState())).toBe('conversions');
    workers[0]!.say({ kind: 'proven', result: { subject: 'rates', checks: [check('c', 2.6)] } });
    workers[0]!.say({ kind: 'done' });
    expect(store.getState()).toMatchObject({ checking: null, table: { passed: 2, failed: 1 } });
    expect(isWhole(store.getState())).toBe(true);
    expect(workers[0]!.ended).toBe(true);
    // What fails is read first.
    expect(subjectRead(store.getState())).toBe('rates');
    deeds.close();
    deeds.open();
    expect(workers).toHaveLength(1);
  });

  it('keeps what is through when it is stopped; late messages are not heard; a new run begins anew', () => {
    const { store, deeds, workers } = page();
    deeds.open();
    begin(workers[0]!.say);
    deeds.stop();
    expect(workers[0]!.ended).toBe(true);
    workers[0]!.say({ kind: 'proven', result: { subject: 'rates', checks: [] } });
    expect(store.getState()).toMatchObject({ checking: null, table: { passed: 2 } });
    deeds.run();
    expect(store.getState().table.subjects).toEqual([]);
    expect(workers).toHaveLength(2);
  });

  it('says what breaks', () => {
    const { store, deeds, workers, notices } = page();
    deeds.open();
    workers[0]!.say({ kind: 'bug', message: 'x is not a function' });
    expect(notices[0]!.what).toContain('x is not a function');
    expect(store.getState().checking).toBeNull();
  });

  it('says pass and FAIL in words, with source, numbers and unit', () => {
    const { store, deeds, workers } = page();
    deeds.open();
    workers[0]!.say({ kind: 'begun', subjects: ['rates'] });
    workers[0]!.say({
      kind: 'proven',
      result: { subject: 'rates', checks: [check('a', 2.1), check('b', 2.75)] },
    });
    const text = renderToStaticMarkup(<ProofGroupTable group={store.getState().table.subjects[0]!} />)
      .replaceAll(/<[^>]+>/g, '|')
      .replaceAll(/\|+/g, '|');
    expect(text).toContain('|A book, page 1|what a is|2|2.1|0.5|Pa|20\u00a0%|pass|');
    expect(text).toContain('|what b is|2|2.75|0.5|Pa|150\u00a0%|FAIL|');
    expect(text.match(/A book/g)).toHaveLength(1);
  });
});
