/** The library's calls on a real disk: what they list, read, write, remember and refuse. The folder dialog is answered by hand. */
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

import { afterEach, beforeEach, describe, expect, it } from 'vitest';

import { wantSheetPath } from '../../electron/arguments.ts';
import { makeLibraryCalls } from '../../electron/library-files.ts';

let root: string;
const at = (name: string) => path.join(root, name);
const text = (bytes: Uint8Array | undefined) => new TextDecoder().decode(bytes);

beforeEach(() => {
  root = mkdtempSync(path.join(tmpdir(), 'library-'));
  mkdirSync(at('fabrics/jersey/deeper'), { recursive: true });
  mkdirSync(at('fabrics/.hidden'));
  mkdirSync(at('outside'));
  writeFileSync(at('fabrics/tern.bench.json'), 'tern');
  writeFileSync(at('fabrics/notes.txt'), 'notes');
  writeFileSync(at('fabrics/.secret.bench.json'), 'hidden');
  writeFileSync(at('fabrics/.hidden/x.bench.json'), 'hidden');
  writeFileSync(at('fabrics/jersey/plover 50%.bench.json'), 'plover');
  writeFileSync(at('fabrics/jersey/deeper/too-deep.bench.json'), 'deep');
  writeFileSync(at('outside/secret.bench.json'), 'secret');
  symlinkSync(at('outside/secret.bench.json'), at('fabrics/link.bench.json'));
  symlinkSync(at('outside'), at('fabrics/linked'));
  symlinkSync(at('fabrics/tern.bench.json'), at('fabrics/same.bench.json'));
  symlinkSync(at('fabrics'), at('fabrics/round'));
  symlinkSync(at('nowhere'), at('fabrics/dangling.bench.json'));
});
afterEach(() => {
  chmodSync(at('fabrics'), 0o755);
  rmSync(root, { recursive: true });
});

const library = (picked: string | null = at('fabrics')) =>
  makeLibraryCalls(
    { open: async () => ({ canceled: picked === null, filePaths: picked === null ? [] : [picked] }) },
    at('userData/library.json'),
  );

async function opened() {
  const calls = library();
  await calls.openLibrary('picked');
  return calls;
}

describe('the folder', () => {
  it('is none before it is picked, and stays what it was where the person thinks better of it', async () => {
    expect(await library().openLibrary('remembered')).toEqual({ kind: 'none', keepsFolder: true });
    expect(await library(null).openLibrary('picked')).toBeNull();
    expect(await library(null).openLibrary('remembered')).toEqual({ kind: 'none', keepsFolder: true });
  });

  it('lists bench sheets one folder down, links followed as long as they stay inside', async () => {
    utimesSync(at('fabrics/tern.bench.json'), 1000, 2000);
    const found = await library().openLibrary('picked');
    expect(found).toMatchObject({ kind: 'open', name: 'fabrics', writes: 'folder', leftOut: 0 });
    const files = found?.kind === 'open' ? found.files : [];
    expect(files.map((file) => file.path)).toEqual([
      'jersey/plover 50%.bench.json',
      'same.bench.json',
      'tern.bench.json',
    ]);
    expect(files.at(-1)).toEqual({ path: 'tern.bench.json', size: 4, changed: 2_000_000 });
  });

  it('is remembered for the next start', async () => {
    await opened();
    const next = library(null);
    expect(await next.openLibrary('remembered')).toMatchObject({ kind: 'open', name: 'fabrics' });
    expect((await next.readLibrary(['tern.bench.json'])).map(({ bytes }) => text(bytes))).toEqual(['tern']);
  });

  it('is said to be gone, or closed to us, by its name', async () => {
    await opened();
    rmSync(at('fabrics'), { recursive: true });
    expect(await library().openLibrary('remembered')).toEqual({
      kind: 'missing',
      name: 'fabrics',
      reason: 'gone',
    });
    mkdirSync(at('fabrics'));
  });

  it.each(['', 'no json', '{"folder":7}', '{"folder":"relative/place"}', 'null'])(
    'a spoilt memory (%o) is no folder',
    async (memory) => {
      mkdirSync(at('userData'));
      writeFileSync(at('userData/library.json'), memory);
      expect(await library().openLibrary('remembered')).toEqual({ kind: 'none', keepsFolder: true });
    },
  );
});

describe('reading', () => {
  it('gives nothing before a folder is picked', async () => {
    expect(await library().readLibrary(['tern.bench.json'])).toEqual([]);
  });

  it('gives nothing from outside the folder, nor what is no bench sheet', async () => {
    const outside = [
      '../outside/secret.bench.json',
      'jersey/../../outside/secret.bench.json',
      at('outside/secret.bench.json'),
      'link.bench.json',
      'linked/secret.bench.json',
      'jersey/deeper/too-deep.bench.json',
      'notes.txt',
      '.secret.bench.json',
      'dangling.bench.json',
      'tern.bench.json\0',
      './tern.bench.json',
      '',
    ];
    expect(await (await opened()).readLibrary(outside)).toEqual([]);
  });

  it.each([['x'], [null], [[1]]])('refuses %o as a list of paths', async (given) => {
    await expect(library().readLibrary(given)).rejects.toThrow('may not');
  });
});

const namesIn = (folder: string) => readdirSync(at(folder)).sort();

describe('writing', () => {
  it('writes a new sheet, and says what stands there now', async () => {
    const done = await (await opened()).writeLibrary('jersey/new.bench.json', 'new', false);
    expect(done).toMatchObject({ kind: 'written', file: { path: 'jersey/new.bench.json', size: 3 } });
    expect(readFileSync(at('fabrics/jersey/new.bench.json'), 'utf8')).toBe('new');
    expect(namesIn('fabrics/jersey')).not.toContainEqual(expect.stringContaining('.part'));
  });

  it('replaces a sheet only where told to', async () => {
    const calls = await opened();
    expect(await calls.writeLibrary('tern.bench.json', 'other', false)).toEqual({
      kind: 'exists',
      path: 'tern.bench.json',
    });
    expect(readFileSync(at('fabrics/tern.bench.json'), 'utf8')).toBe('tern');
    expect(await calls.writeLibrary('tern.bench.json', 'other', true)).toMatchObject({ kind: 'written' });
    expect(readFileSync(at('fabrics/tern.bench.json'), 'utf8')).toBe('other');
    expect(namesIn('fabrics')).not.toContainEqual(expect.stringContaining('.part'));
  });

  it('of two at once that write one name, one wins and the other is told', async () => {
    const calls = await opened();
    const done = await Promise.all([1, 2, 3, 4].map((i) => calls.writeLibrary('race', `text ${i}`, false)));
    expect(done.map(({ kind }) => kind).sort()).toEqual(['exists', 'exists', 'exists', 'written']);
    const winner = done.findIndex(({ kind }) => kind === 'written') + 1;
    expect(readFileSync(at('fabrics/race.bench.json'), 'utf8')).toBe(`text ${winner}`);
  });

  it('never writes through a link that leads out', async () => {
    const calls = await opened();
    expect(await calls.writeLibrary('link.bench.json', 'x', false)).toMatchObject({ kind: 'exists' });
    await calls.writeLibrary('link.bench.json', 'x', true);
    expect(readFileSync(at('outside/secret.bench.json'), 'utf8')).toBe('secret');
    expect(await calls.writeLibrary('linked/new.bench.json', 'x', false)).toEqual({
      kind: 'refused',
      reason: 'gone',
    });
    // A link to nowhere stands there too: writing through it would make a file outside.
    expect(await calls.writeLibrary('dangling.bench.json', 'x', false)).toMatchObject({ kind: 'exists' });
    expect(existsSync(at('nowhere'))).toBe(false);
    expect(namesIn('outside')).toEqual(['secret.bench.json']);
  });

  it('makes no folders, and writes nothing before one is picked', async () => {
    const gone = { kind: 'refused', reason: 'gone' };
    expect(await (await opened()).writeLibrary('nosuch/new.bench.json', 'x', true)).toEqual(gone);
    rmSync(at('userData'), { recursive: true });
    expect(await library().writeLibrary('new.bench.json', 'x', false)).toEqual(gone);
  });

  it.skipIf(process.getuid?.() === 0)('says so where the folder may not be written to', async () => {
    const calls = await opened();
    chmodSync(at('fabrics'), 0o555);
    expect(await calls.writeLibrary('new.bench.json', 'x', false)).toEqual({
      kind: 'refused',
      reason: 'not allowed',
    });
  });

  it.each([
    ['a', 7, false],
    ['a', 'text', 'yes'],
    [7, 'text', false],
  ])('refuses %o, %o, %o', async (name, content, replace) => {
    await expect((await opened()).writeLibrary(name, content, replace)).rejects.toThrow('may not');
  });
});

describe('the name a sheet gets', () => {
  it.each(['../x', 'a/../x', 'a/b/x', '/x', String.raw`..\x`, String.raw`C:\x`, './x', 'a:b/x'])(
    '%o leads out and is refused',
    (given) => {
      expect(() => wantSheetPath(given)).toThrow('outside the library');
    },
  );

  it('fits the 255 bytes that file systems give a name, with room for the mark of an unfinished file', () => {
    const written = wantSheetPath('ü'.repeat(230));
    expect(Buffer.byteLength(written)).toBeLessThanOrEqual(255 - '.12345678.part'.length);
    expect(written).toMatch(/^ü+\.bench\.json$/);
  });
});
