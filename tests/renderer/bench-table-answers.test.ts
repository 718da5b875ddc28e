import { expect, it } from 'vitest';
import type { TensileTable } from '../../core/io/tensile-table.ts';
import { readTensileTable } from '../../core/io/read-tensile-table.ts';
import { benchDeeds, type BenchParts } from '../../renderer/lay-bench.ts';
import { withAnswer } from '../../renderer/store/bench-import.ts';
import type { TableFile } from '../../renderer/store/bench-runner.ts';
import { benchActions, createBenchStore } from '../../renderer/store/bench-store.ts';

const table = 'Strip;Ext (mm);Force\n1;0;0\n1;10;1,6\n1;20;3,1\n2;0;0\n2;10;1,7\n2;20;3,0\n';

/** A bench whose reader answers when it is told to, in any order. */
function layBench() {
  const bench = createBenchStore();
  const waiting: { file: TableFile; answer: (table: TensileTable | null) => void }[] = [];
  const readTable = (file: TableFile) =>
    new Promise<TensileTable | null>((answer) => {
      waiting.push({ file, answer });
    });
  const parts = {
    bench,
    benchActions: benchActions(bench),
    benchRunner: { readTable },
    guarded: (work: () => Promise<void>) => work(),
  } as unknown as BenchParts;
  const read = async (index: number) => {
    const { file, answer } = waiting[index]!;
    answer(readTensileTable(file.text, file.wish));
    await new Promise((resolve) => {
      setTimeout(resolve);
    });
  };
  return { bench, deeds: benchDeeds(parts), waiting, read };
}

it('two answers given before the table is read again both count, whichever reading comes back first', async () => {
  const { bench, deeds, waiting, read } = layBench();
  void deeds.take([new File([table], 'plain.csv')]);
  await expect.poll(() => waiting.length).toBe(1);
  await read(0);
  void deeds.sayOfTable((wish) => withAnswer(wish, { column: { column: 1, meaning: 'specimen' } }));
  void deeds.sayOfTable((wish) => withAnswer(wish, { column: { column: 3, unit: 'N' } }));
  expect(waiting).toHaveLength(3);
  await read(2);
  await read(1);
  const { wish } = bench.getState().incoming!.file;
  expect(wish.columns).toEqual(
    expect.arrayContaining([
      expect.objectContaining({ column: 1, meaning: 'specimen' }),
      expect.objectContaining({ column: 3, unit: 'N' }),
    ]),
  );
});

it('an answer that the reader refuses is taken back, and the next one counts from what stood before', async () => {
  const { bench, deeds, waiting, read } = layBench();
  void deeds.take([new File([table], 'plain.csv')]);
  await expect.poll(() => waiting.length).toBe(1);
  await read(0);
  void deeds.sayOfTable((wish) => withAnswer(wish, { column: { column: 1, meaning: 'force' } }));
  waiting[1]!.answer(null);
  await new Promise((resolve) => {
    setTimeout(resolve);
  });
  void deeds.sayOfTable((wish) => withAnswer(wish, { column: { column: 1, meaning: 'specimen' } }));
  await read(2);
  expect(bench.getState().incoming!.file.wish.columns).toEqual([
    expect.objectContaining({ column: 1, meaning: 'specimen' }),
  ]);
});
