import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkBenchSheet, readingsOf } from '../../core/io/read-bench-sheet.ts';
import { readTensileTable } from '../../core/io/read-tensile-table.ts';
import { EMPTY_DRAFT, withPart } from '../../renderer/store/bench-draft.ts';
import { draftFromSheet } from '../../renderer/store/bench-from-sheet.ts';
import {
  answersFromDraft,
  incomingOf,
  stripWishes,
  unitsTaken,
  withAnswer,
  withTaken,
  type Incoming,
} from '../../renderer/store/bench-import.ts';
import { sheetFromDraft } from '../../renderer/store/bench-to-sheet.ts';
import { takeStrips } from '../../renderer/worker/bench-table.ts';
import { readText } from '../../renderer/read-text.ts';
import { fabricPath, withFabric } from '../../renderer/with-fabric.ts';
import { demoSheetText } from '../help/demo-sheet.ts';

const demoTable = readFileSync(
  new URL('../../assets/demo/tern-210-warp.tensile.csv', import.meta.url),
  'utf8',
);
const demoDraft = () => draftFromSheet(checkBenchSheet(JSON.parse(demoSheetText('plover-185'))));

const open = (text: string, wish = {}): Incoming =>
  incomingOf({ name: 'table.csv', text, wish }, readTensileTable(text, wish));

/** The draft with everything taken over that the table offers. */
function takenOver(draft: typeof EMPTY_DRAFT, incoming: Incoming) {
  const wishes = stripWishes(incoming);
  const units = unitsTaken(draft, incoming, wishes);
  return withTaken(draft, { taken: takeStrips(incoming.table, wishes, units), incoming, units });
}

/** The warp strip in SI, taken over into a bench that stands in these units. */
function takenIn(units: typeof EMPTY_DRAFT.stretch.units) {
  const draft = withPart(demoDraft(), 'stretch', { units });
  const { sheet } = sheetFromDraft(takenOver(draft, open(demoTable)));
  return readingsOf(checkBenchSheet(sheet)).stretched.strips.warp.load[0]!;
}

describe('a tester’s table', () => {
  it('fills the direction it names, and what the sheet did not say of the test', () => {
    const { stretch } = takenOver(EMPTY_DRAFT, open(demoTable));
    expect(stretch).toMatchObject({ gauge: '100', width: '50', cycle: '5', test: 'strip' });
    // The last cycle of the demonstration table is the demonstration sheet's warp strip.
    const sheet = checkBenchSheet(JSON.parse(demoSheetText('tern-210')));
    const given = draftFromSheet(sheet).stretch.strips.warp[0]!;
    expect(stretch.strips.warp).toHaveLength(1);
    expect(stretch.strips.warp[0]!.load).toEqual(given.load);
    expect(stretch.strips.warp[0]!.return).toEqual(given.return.toReversed());
    expect(stretch.strips.warp[0]!.width).toEqual(given.width);
  });

  it('leaves what was typed elsewhere as it is', () => {
    const before = demoDraft();
    const after = takenOver(before, open(demoTable));
    expect(after.stretch.strips.weft).toEqual(before.stretch.strips.weft);
    expect(after.stretch.gauge).toBe('100');
    expect([after.name, after.weigh]).toEqual([before.name, before.weigh]);
  });

  it('is brought into the units in which the other strips stand', () => {
    const before = withPart(demoDraft(), 'stretch', {
      units: { extension: 'ratio', force: 'cN', width: '%' },
    });
    const { stretch } = takenOver(before, open(demoTable));
    expect(stretch.units).toEqual({ extension: 'ratio', force: 'cN', width: '%' });
    // 20 %, 3.06 N and 46.9 mm of 50 mm.
    expect(stretch.strips.warp[0]!.load[4]).toEqual(['0.2', '306']);
    expect(stretch.strips.warp[0]!.width[2]).toEqual(['0.2', '93.8']);
  });

  it('means the same in whatever units it is taken over', () => {
    const plain = takenIn({ extension: '%', force: 'N', width: 'mm' });
    for (const force of ['gf', 'kgf', 'N/m', 'N/5 cm', 'gf/cm'] as const) {
      const other = takenIn({ extension: 'mm', force, width: 'ratio' });
      expect(other).toHaveLength(plain.length);
      other.forEach((reading, i) => {
        expect(reading.extension).toBeCloseTo(plain[i]!.extension, 6);
        expect(reading.force).toBeCloseTo(plain[i]!.force, 5);
      });
    }
  });

  const plainTable = 'Extension (mm);Force (N)\n0;0\n10;1,6\n20;3,1\n30;4,4\n40;5,8\n';

  it('asks for what it does not say, and takes the answer of the sheet where there is one', () => {
    const incoming = open(plainTable);
    expect(incoming.table.questions).toMatchObject([{ asks: 'gaugeMm' }]);
    expect(stripWishes(incoming)).toEqual([]);
    expect(answersFromDraft(incoming.table, EMPTY_DRAFT)).toEqual({});
    expect(answersFromDraft(incoming.table, demoDraft())).toEqual({ gaugeMm: 100 });
  });

  it('whose direction is not said goes nowhere until somebody says where', () => {
    const incoming = open(plainTable, { gaugeMm: 100 });
    expect(incoming.strips).toMatchObject([{ from: null, into: null }]);
    expect(stripWishes(incoming)).toEqual([]);
    const said = {
      ...incoming,
      strips: incoming.strips.map((strip) => ({ ...strip, into: 'held' as const })),
    };
    expect(takenOver(EMPTY_DRAFT, said).stretch.strips.held[0]!.load[4]).toEqual(['40', '5.8']);
  });

  it('gathers answers, the newest of one column winning', () => {
    const first = withAnswer({}, { column: { column: 2, unit: 'N' } });
    const second = withAnswer(first, { column: { column: 2, meaning: 'force' } });
    expect(withAnswer(withAnswer(second, { gaugeMm: 50 }), { column: { column: 3, unit: 'mm' } })).toEqual({
      gaugeMm: 50,
      columns: [
        { column: 2, unit: 'N', meaning: 'force' },
        { column: 3, unit: 'mm' },
      ],
    });
  });
});

it.each([
  ['UTF-8', new TextEncoder().encode('Dehnung (%);Länge')],
  ['an old spreadsheet’s page', Uint8Array.from('Dehnung (%);Länge', (letter) => letter.codePointAt(0)!)],
  [
    'UTF-16',
    Uint8Array.from([
      0xff,
      0xfe,
      ...Array.from('Dehnung (%);Länge', (letter) => [letter.codePointAt(0)!, 0]).flat(),
    ]),
  ],
])('reads text in %s', (_, bytes) => {
  expect(readText(bytes)).toBe('Dehnung (%);Länge');
});

const fabrics = (text: string) => (JSON.parse(text) as { fabrics: { id: string; sheet: string }[] }).fabrics;

describe('onto the form', () => {
  const study = {
    name: 'a.study.json',
    text: JSON.stringify({
      snugfield: 1,
      friction: 0.4,
      fabrics: [
        { id: 'one', sheet: 'one.bench.json' },
        { id: 'two', sheet: 'two.bench.json' },
      ],
    }),
    readBeside: (path: string) => Promise.resolve(new TextEncoder().encode(`file ${path}`)),
  };
  const read = async (opened: typeof study, path: string) =>
    new TextDecoder().decode((await opened.readBeside(path)) ?? undefined);

  it('takes the place of one fabric and leaves everything else', async () => {
    const put = withFabric(study, { index: 1, name: 'Tern 210 (ß)', text: 'readings' });
    expect(JSON.parse(put.text)).toMatchObject({ snugfield: 1, friction: 0.4 });
    expect(fabrics(put.text)).toEqual([
      { id: 'one', sheet: 'one.bench.json' },
      { id: 'tern-210', sheet: 'tern-210.bench.json' },
    ]);
    expect(await read(put as typeof study, 'tern-210.bench.json')).toBe('readings');
    expect(await read(put as typeof study, 'one.bench.json')).toBe('file one.bench.json');
  });

  it('never shares an id or a file with another fabric, and A then B both stay', async () => {
    const first = withFabric(study, { index: 0, name: 'Two', text: 'new two' });
    expect(fabrics(first.text)).toEqual([
      { id: 'two-2', sheet: 'two-2.bench.json' },
      { id: 'two', sheet: 'two.bench.json' },
    ]);
    const second = withFabric(first, { index: 1, name: 'Two', text: 'newer two' });
    expect(fabrics(second.text).map(({ id }) => id)).toEqual(['two-2', 'two']);
    expect(await read(second as typeof study, 'two-2.bench.json')).toBe('new two');
    expect(await read(second as typeof study, fabricPath(second, 'two')!)).toBe('newer two');
  });

  it('is added where the study has no B', () => {
    const lone = { ...study, text: JSON.stringify({ fabrics: [{ id: 'one', sheet: 'one.bench.json' }] }) };
    expect(fabrics(withFabric(lone, { index: 1, name: '', text: '' }).text)).toEqual([
      { id: 'one', sheet: 'one.bench.json' },
      { id: 'bench', sheet: 'bench.bench.json' },
    ]);
    expect(fabricPath(lone, 'nobody')).toBeNull();
  });
});
