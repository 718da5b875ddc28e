/** The library over a host and a worker that are played by hand: listing, reading in slices, stopping, saving. */
import { describe, expect, it } from 'vitest';
import type { LibraryEntry, SheetReading } from '../../core/sheet/library-entry.ts';
import { SHEET_UNREAD, WRITE_REFUSED } from '../../core/words/library-words.ts';
import { createBrowserHost } from '../../renderer/bridge/browser-host.ts';
import { libraryDeeds } from '../../renderer/store/library-deeds.ts';
import type { LibraryHost } from '../../renderer/store/library-host.ts';
import { createLibraryStore, shownLines } from '../../renderer/store/library-store.ts';
import { memoryDoor, memoryFolder, memoryText } from '../help/memory-folder.ts';

const entry = (name: string, more: Partial<LibraryEntry> = {}): LibraryEntry => ({
  name,
  lot: 'L-1',
  date: '2025-01-01',
  note: null,
  invented: true,
  arealDensity: 0.2,
  thickness: 5e-4,
  thicknessPressure: 1000,
  pull40: { warp: 100, weft: 80 },
  beyond40: { warp: false, weft: false },
  remarkCount: 0,
  ...more,
});

/** Reads a "sheet" that holds its fabric's name; `?` cannot be read, `!` is met by a bug. */
function readPretended(text: string): SheetReading {
  if (text.includes('!')) throw new Error('bug in the reader');
  const value: unknown = text.startsWith('{') ? JSON.parse(text) : { name: text };
  if (text.includes('?')) return { kind: 'broken', fault: { code: 'file/missing', facts: { path: 'x' } } };
  return { kind: 'sound', entry: entry((value as { name: string }).name) };
}

interface Stand {
  readonly contents?: Readonly<Record<string, string>>;
  readonly host?: Partial<LibraryHost>;
  readonly demo?: readonly string[];
  /** Called before each slice is read. */
  readonly beforeSlice?: () => Promise<void> | void;
  readonly now?: () => number;
}

function stand({ contents = {}, host = {}, demo = [], beforeSlice = () => {}, now = () => 0 }: Stand = {}) {
  const folder = memoryFolder('fabrics', contents);
  const read: string[] = [];
  const store = createLibraryStore();
  const deeds = libraryDeeds(store, {
    host: {
      ...createBrowserHost(memoryDoor(() => folder)),
      readDemo: async () => demo.map((path) => ({ path, bytes: new TextEncoder().encode(path) })),
      ...host,
    },
    now,
    inspect: async (texts) => {
      await beforeSlice();
      const readings = texts.map(readPretended);
      read.push(...texts);
      return readings;
    },
  });
  return { store, deeds, folder, read, now: () => store.getState() };
}

const many = (count: number): Record<string, string> =>
  Object.fromEntries(Array.from({ length: count }, (_, i) => [`f${i}.bench.json`, `fabric ${i}`]));
const names = (lines: readonly { readonly entry: LibraryEntry | null }[]) =>
  lines.map((line) => line.entry?.name ?? null);

describe('where the fabrics come from', () => {
  it('is the demonstration while there is no folder, and that cannot be written to', async () => {
    const { deeds, now } = stand({ demo: ['a.study.json', 'tern.bench.json'] });
    await deeds.open();
    expect(now().place).toEqual({ kind: 'none', keepsFolder: true });
    expect(names(now().lines)).toEqual(['tern.bench.json']);
    expect(await deeds.read('tern.bench.json')).toBe('tern.bench.json');
    await deeds.save('x', 'text');
    expect(now().notice).toMatchObject({ tone: 'fault' });
    expect(now().notice?.what).toContain('demonstration');
  });

  it('is the folder that was picked, and stays what it was where the person thinks better of it', async () => {
    const { deeds, now } = stand({ contents: many(3) });
    await deeds.choose();
    expect(now().place).toEqual({ kind: 'open', name: 'fabrics', writes: 'folder' });
    expect(names(now().lines)).toEqual(['fabric 0', 'fabric 1', 'fabric 2']);
    const other = stand({ demo: ['tern.bench.json'], host: { openLibrary: async () => null } });
    await other.deeds.choose();
    expect(other.now()).toMatchObject({ place: { kind: 'unopened' }, activity: { kind: 'idle' } });
  });

  it('is nothing while the folder is locked or gone: no demonstration is mistaken for it', async () => {
    const found = [
      { kind: 'locked', name: 'fabrics' },
      { kind: 'missing', name: 'fabrics', reason: 'gone' },
    ] as const;
    for (const place of found) {
      const { deeds, now } = stand({ demo: ['tern.bench.json'], host: { openLibrary: async () => place } });
      // oxlint-disable-next-line no-await-in-loop -- two, one after the other
      await deeds.open();
      expect(now()).toMatchObject({ place, lines: [], activity: { kind: 'idle' } });
    }
  });

  it('says what the host says where listing fails', async () => {
    const { deeds, now } = stand({
      host: { openLibrary: () => Promise.reject(new Error('The share is asleep.')) },
    });
    await deeds.open();
    expect(now()).toMatchObject({ activity: { kind: 'idle' }, notice: { what: 'The share is asleep.' } });
  });
});

describe('reading', () => {
  it('goes in slices that show as they come, with progress', async () => {
    const seen: [number, number][] = [];
    const place = stand({
      contents: many(30),
      beforeSlice: () => {
        const { activity, lines } = place.now();
        if (activity.kind === 'reading') {
          seen.push([activity.done, lines.filter((line) => line.entry !== null).length]);
        }
      },
    });
    await place.deeds.choose();
    expect(seen).toEqual([
      [0, 0],
      [8, 8],
      [24, 24],
    ]);
    expect(place.now().activity).toEqual({ kind: 'idle' });
  });

  it('takes smaller slices where sheets take long, so that a stop is heard soon', async () => {
    let clock = 0;
    const sizes: number[] = [];
    const place = stand({
      contents: many(15),
      now: () => clock,
      beforeSlice: () => {
        const { activity } = place.now();
        if (activity.kind === 'reading') sizes.push(activity.done);
        // 100 ms a sheet.
        clock += 100 * (sizes.length === 1 ? 8 : 3);
      },
    });
    await place.deeds.choose();
    // After 8 sheets in 800 ms, as many as fit 250 ms: 2.5, rounded.
    expect(sizes.slice(0, 3)).toEqual([0, 8, 11]);
  });

  it('stops between slices and goes on from there', async () => {
    let slices = 0;
    const place = stand({
      contents: many(40),
      beforeSlice: () => {
        if (++slices === 2) place.deeds.stop();
      },
    });
    await place.deeds.choose();
    const readSoFar = place.now().lines.filter((line) => line.entry !== null).length;
    expect(readSoFar).toBe(8);
    expect(place.now().activity).toEqual({ kind: 'idle' });
    await place.deeds.goOn();
    expect(place.now().lines.every((line) => line.entry !== null)).toBe(true);
  });

  it('reads again only what has changed', async () => {
    const { deeds, now, folder, read } = stand({ contents: many(10) });
    await deeds.choose();
    expect(read.length).toBe(10);
    await deeds.lookAgain();
    expect(read.length).toBe(10);
    const file = await folder.getFileHandle('f3.bench.json');
    const stream = await file.createWritable();
    await stream.write('another 3');
    await stream.close();
    folder.entries.delete('f4.bench.json');
    read.length = 0;
    await deeds.lookAgain();
    expect(names(now().lines)).toContain('another 3');
    expect(names(now().lines)).not.toContain('fabric 4');
    expect(read).toEqual(['another 3']);
  });

  it('lists what cannot be read with its reason: broken, too large, vanished, or met by a bug', async () => {
    const huge = { path: 'huge.bench.json', size: 50 * 2 ** 20, changed: 1 };
    const gone = { path: 'gone.bench.json', size: 9, changed: 1 };
    const texts: Record<string, string> = {
      'a.bench.json': 'sound',
      'b.bench.json': '?',
      'c.bench.json': '!',
    };
    const asked: string[] = [];
    const { deeds, now } = stand({
      host: {
        openLibrary: async () => ({
          kind: 'open',
          name: 'f',
          writes: 'folder',
          leftOut: 2,
          files: [...Object.keys(texts).map((path) => ({ path, size: 1, changed: 1 })), gone, huge],
        }),
        readLibrary: async (paths) => {
          asked.push(...paths);
          return paths.flatMap((path) => {
            const text = texts[path];
            return text === undefined ? [] : [{ path, bytes: new TextEncoder().encode(text) }];
          });
        },
      },
    });
    await deeds.open();
    const what = Object.fromEntries(now().lines.map((line) => [line.path, line.broken?.what ?? 'sound']));
    expect(what).toEqual({
      'a.bench.json': 'sound',
      'b.bench.json': 'There is no file x, or it cannot be opened.',
      'c.bench.json': SHEET_UNREAD.bug('bug in the reader').what,
      'gone.bench.json': SHEET_UNREAD.vanished.what,
      'huge.bench.json': 'The file is 50 MB large; a bench sheet is smaller than 4 MB.',
    });
    expect(asked).not.toContain('huge.bench.json');
    expect(now().leftOut).toBe(2);
    deeds.showOnlyBroken(true);
    expect(shownLines(now()).length).toBe(4);
  });

  it('drops a listing that a newer one has overtaken', async () => {
    let answer: (() => void) | undefined;
    const slow = stand({
      host: {
        openLibrary: (wish) =>
          wish === 'remembered'
            ? new Promise((resolve) => {
                answer = () => resolve({ kind: 'locked', name: 'old' });
              })
            : Promise.resolve({ kind: 'missing', name: 'new', reason: 'gone' }),
      },
    });
    const first = slow.deeds.open();
    await slow.deeds.choose();
    answer?.();
    await first;
    expect(slow.now().place).toMatchObject({ name: 'new' });
  });
});

const sheet = (name: string) => JSON.stringify({ name, lot: 'L-1', date: '2025-01-01' });

describe('saving', () => {
  it('writes, reads and shows the new sheet, whatever was searched for', async () => {
    const { deeds, now, folder } = stand({ contents: many(2) });
    await deeds.choose();
    deeds.search('nothing like it');
    deeds.ask({ kind: 'draft', fileName: 'new' });
    await deeds.save('new', sheet('New'));
    expect(memoryText(folder, 'new.bench.json')).toBe(sheet('New'));
    expect(now()).toMatchObject({
      search: '',
      asking: null,
      current: 'new.bench.json',
      notice: { tone: 'remark', what: 'Saved new.bench.json.' },
    });
    expect(names(now().lines)).toContain('New');
  });

  it('asks before it replaces', async () => {
    const { deeds, now, folder } = stand({ contents: many(2) });
    await deeds.choose();
    deeds.ask({ kind: 'draft', fileName: 'f0' });
    await deeds.save('f0', sheet('Other'));
    expect(now().question).toEqual({ path: 'f0.bench.json', text: sheet('Other') });
    deeds.keep();
    expect(memoryText(folder, 'f0.bench.json')).toBe('fabric 0');
    // The form is still there, for another name.
    expect(now()).toMatchObject({ question: null, asking: { fileName: 'f0' } });
    await deeds.save('f0', sheet('Other'));
    await deeds.replace();
    expect(memoryText(folder, 'f0.bench.json')).toBe(sheet('Other'));
    expect(now()).toMatchObject({ question: null, asking: null });
    expect(names(now().lines)).toEqual(['Other', 'fabric 1']);
  });

  it('duplicates under another name and lot, beside the original, date kept', async () => {
    const { deeds, now, folder } = stand({ contents: { 'jersey/a.bench.json': sheet('A') } });
    await deeds.choose();
    await deeds.duplicate('jersey/a.bench.json', { name: 'A copy', lot: 'L-2' });
    expect(now().current).toBe('jersey/a-copy-l-2.bench.json');
    expect(JSON.parse(memoryText(folder, 'jersey/a-copy-l-2.bench.json')!)).toEqual({
      name: 'A copy',
      lot: 'L-2',
      date: '2025-01-01',
    });
    expect(memoryText(folder, 'jersey/a.bench.json')).toBe(sheet('A'));
  });

  it('says why nothing was written', async () => {
    const { deeds, now, folder } = stand({ contents: many(1) });
    await deeds.choose();
    folder.trouble = { name: 'NotAllowedError', at: 'create' };
    await deeds.save('new', sheet('New'));
    expect(now().notice).toEqual({ ...WRITE_REFUSED['not allowed'], tone: 'fault' });
    await deeds.save('../new', sheet('New'));
    expect(now().notice?.what).toContain('outside the library');
  });
});

describe('the page', () => {
  it('marks two for comparing; a third takes the second place, a broken one none', async () => {
    const { deeds, now } = stand({ contents: { ...many(3), 'x.bench.json': '?' } });
    await deeds.choose();
    const [a, b, c] = ['f0.bench.json', 'f1.bench.json', 'f2.bench.json'] as const;
    for (const path of [a, b, c, 'x.bench.json']) deeds.mark(path);
    expect(now().marked).toEqual([a, c]);
    deeds.mark(a);
    expect(now().marked).toEqual([c]);
  });

  it('turns an order round, and starts dates and remarks with the largest', () => {
    const { deeds, now } = stand();
    deeds.orderBy('weight');
    expect(now().order).toEqual({ by: 'weight', falling: false });
    deeds.orderBy('weight');
    expect(now().order).toEqual({ by: 'weight', falling: true });
    deeds.orderBy('date');
    expect(now().order).toEqual({ by: 'date', falling: true });
  });
});
