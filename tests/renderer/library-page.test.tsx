import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import type { LibraryEntry } from '../../core/sheet/library-entry.ts';
import { LibraryPage } from '../../renderer/panels/bench/LibraryPage.tsx';
import { libraryDeeds } from '../../renderer/store/library-deeds.ts';
import { createLibraryStore, type LibraryState, type SheetLine } from '../../renderer/store/library-store.ts';

const store = createLibraryStore();
const nothing = (): Promise<never> => Promise.reject(new Error('not in this test'));
const deeds = libraryDeeds(store, {
  host: { readDemo: nothing, openLibrary: nothing, readLibrary: nothing, writeLibrary: nothing },
  inspect: nothing,
  now: () => 0,
});

const line = (
  path: string,
  more: Partial<LibraryEntry> | null,
  broken: SheetLine['broken'] = null,
): SheetLine => ({
  path,
  file: { path, size: 1, changed: 1 },
  broken,
  entry: more && {
    name: path,
    lot: 'L-1',
    date: '2025-01-01',
    note: null,
    invented: false,
    arealDensity: 0.21,
    thickness: 4.5e-4,
    thicknessPressure: 1000,
    pull40: { warp: 116, weft: 96 },
    beyond40: { warp: false, weft: false },
    remarkCount: 0,
    ...more,
  },
});

const open = { kind: 'open', name: 'fabrics', writes: 'folder' } as const;

function markup(state: Partial<LibraryState>, draft: { name: string; lot: string } | null = null): string {
  return renderToStaticMarkup(
    <LibraryPage
      library={{ ...store.getState(), place: open, ...state }}
      deeds={deeds}
      draft={draft}
      onSaveDraft={() => undefined}
      onOpen={() => undefined}
      onCompare={() => undefined}
    />,
  );
}

/** What the page says, its markup taken away. */
const said = (...given: Parameters<typeof markup>): string =>
  markup(...given)
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll(/(&nbsp;|\u00a0|\s)+/g, ' ')
    .replaceAll('&quot;', '"')
    .replaceAll('&#x27;', "'");

describe('a line', () => {
  it('stands in figures under units, with a star where the bench did not pull that far', () => {
    const text = said({
      lines: [line('Tern', { beyond40: { warp: true, weft: false }, remarkCount: 2, invented: true })],
    });
    expect(text).toMatch(/Weight g\/m² Thickness mm at kPa Warp N at 40 % Weft N at 40 %/);
    expect(text).toMatch(/Tern invented L-1 2025-01-01 210 0\.45 at 1\.00 5\.8 \* 4\.8 2/);
    expect(text).toContain('* the bench did not pull that far');
  });

  it('gives the reason of a broken sheet, and what to do', () => {
    const broken = { what: 'Line 3 is not JSON.', remedy: 'Correct it.' };
    const text = said({ lines: [line('x.bench.json', null, broken), line('Tern', {})] });
    expect(text).toMatch(/2 fabrics 1 cannot be read/);
    expect(text).toMatch(/x\.bench\.json Line 3 is not JSON\. Correct it\./);
  });

  it('one line of all takes the tab key, and it is the current one', () => {
    const tabs = markup({ lines: [line('a', {}), line('b', {})], current: 'b' });
    expect(tabs.match(/<tr tabindex="0"[^>]*data-path="(\w)"/)?.[1]).toBe('b');
    expect(tabs.match(/<tr tabindex="0"/g)?.length).toBe(1);
  });
});

describe('thicknesses under unlike feet', () => {
  const [a, b] = [line('A', {}), line('B', { thicknessPressure: 4140 })];

  it('are said not to be comparable, in the list and side by side', () => {
    const text = said({ lines: [a, b], marked: ['A', 'B'] });
    expect(text).toContain('only those at like pressure may be compared');
    expect(text).toContain('Thickness not comparable: measured at 1.00 and 4.14 kPa.');
    expect(text).toContain('Compare A with B');
  });

  it('are not found where the feet were alike', () => {
    const text = said({ lines: [a, line('B', {})], marked: ['A', 'B'] });
    expect(text).not.toContain('comparable');
    expect(text).not.toContain('like pressure');
  });
});

describe('what is said of the folder', () => {
  it.each<[string, Partial<LibraryState>, RegExp]>([
    [
      'none',
      { place: { kind: 'none', keepsFolder: true } },
      /Demonstration, invented.*Choose folder ….*No folder chosen yet/,
    ],
    [
      'none to be had',
      { place: { kind: 'none', keepsFolder: false } },
      /cannot keep a folder.*becomes a download/,
    ],
    ['locked', { place: { kind: 'locked', name: 'fabrics' } }, /browser asks again.*Allow this folder again/],
    ['gone', { place: { kind: 'missing', name: 'fabrics', reason: 'gone' } }, /not where it was.*Look again/],
    [
      'closed',
      { place: { kind: 'missing', name: 'fabrics', reason: 'not allowed' } },
      /may not be read by you/,
    ],
    ['empty', {}, /No bench sheets in fabrics yet/],
    ['nothing found', { lines: [line('a', {})], search: 'xyz' }, /0 of 1 fabric.*No fabric has "xyz"/],
    ['too full', { lines: [line('a', {})], leftOut: 12 }, /12 more sheets lie in this folder/],
    [
      'being read',
      { lines: [line('a', null)], activity: { kind: 'reading', done: 8, total: 20 } },
      /Reading sheet 9 of 20 Stop/,
    ],
    ['stopped', { lines: [line('a', null)] }, /Stopped: 1 sheet not read\. Go on reading.*not read yet/],
  ])('%s', (_name, state, expected) => {
    expect(said(state)).toMatch(expected);
  });

  it('draws no more lines at once than a key press bears, and says how many there are', () => {
    const text = said({ lines: Array.from({ length: 620 }, (_, i) => line(`f${i}`, {})) });
    expect(text).toMatch(/620 fabrics.*420 more lines Show them too/);
  });
});

describe('saving', () => {
  const draft = { name: 'Tern 210', lot: 'T-1' };

  it('is offered while a draft lies on the bench, and not into the demonstration', () => {
    expect(said({})).not.toContain('Save the draft');
    expect(markup({}, draft)).not.toMatch(/<button[^>]*disabled[^>]*>Save the draft/);
    expect(markup({ place: { kind: 'none', keepsFolder: true } }, draft)).toMatch(
      /<button[^>]*disabled=""[^>]*>Save the draft/,
    );
  });

  it('asks for file name, or name and lot, and before replacing', () => {
    expect(markup({ asking: { kind: 'draft', fileName: 'tern.bench.json' } })).toMatch(
      /File name<\/span><input[^>]*value="tern\.bench\.json"/,
    );
    const duplicate = markup({ asking: { kind: 'duplicate', path: 'a', name: 'Tern copy', lot: 'T-1' } });
    expect(duplicate).toMatch(/value="Tern copy".*value="T-1".*tern-copy-t-1\.bench\.json/);
    expect(said({ question: { path: 'tern.bench.json', text: '' } })).toMatch(
      /already a sheet tern\.bench\.json\. Replace it\?.*Keep it.*Replace it/,
    );
  });
});
