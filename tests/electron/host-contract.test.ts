/**
 * One suite over both shells: what the window is promised holds in each. Electron's side is the built preload wired to the
 * main process's own answers; the browser's side is its host with fetch going to a real loopback host. Dialogs, downloads
 * and the page's document are played by hand.
 */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { runInNewContext } from 'node:vm';

import { afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';

import { answerCalls } from '../../electron/answer-calls.ts';
import { wantLink } from '../../electron/arguments.ts';
import { callNames } from '../../electron/channels.ts';
import type { Host } from '../../electron/contract.ts';
import { makeFileCalls } from '../../electron/files.ts';
import { buildStale, projectFolder } from '../../electron/launch/build.mjs';
import { startLoopbackHost } from '../../electron/launch/loopback-host.mjs';
import { makeLibraryCalls } from '../../electron/library-files.ts';
import { makePictureCalls } from '../../electron/picture.ts';
import { createBrowserHost } from '../../renderer/bridge/browser-host.ts';
import { electronHost } from '../../renderer/bridge/electron-host.ts';
import type { FolderHandle } from '../../renderer/bridge/folder-door.ts';
import { memoryDoor, memoryFolder, memoryText } from '../help/memory-folder.ts';

interface Shell {
  readonly host: Host;
  /** What the person picks at the next question: names in the working folder; none is "cancel". */
  readonly pick: (names: readonly string[]) => void;
  /** The file saved last. */
  readonly saved: () => Promise<Uint8Array>;
  readonly openedLinks: readonly string[];
  /** What stands in the library's folder now. */
  readonly shelved: (path: string) => string | null;
  /** The host of the next start, which has its memory only. */
  readonly next: () => Host;
  readonly end: () => Promise<void>;
}

let folder: string;
const demo = () => path.join(folder, 'demo');
const work = (name: string) => path.join(folder, 'work', name);
const text = (bytes: Uint8Array | undefined) => new TextDecoder().decode(bytes);

const files: Readonly<Record<string, string>> = {
  'demo/a.study.json': '{"snugfield":1}',
  'demo/fabrics/ä b.bench.json': '{"snugfieldBench":1}',
  'work/my.study.json': '{"snugfield":1,"name":"mine"}',
  'work/one.bench.json': '{"snugfieldBench":1,"name":"one"}',
  'work/form.obj': 'v 0 0 0\n',
};

/** The library's folder, called `fabrics`. */
const sheets: Readonly<Record<string, string>> = {
  'tern.bench.json': '{"name":"Tern"}',
  'Größe 50 %.bench.json': '{"name":"Größe"}',
  'jersey/plover.bench.json': '{"name":"Plover"}',
  'jersey/deeper/too-deep.bench.json': '{}',
  'jersey/notes.txt': 'notes',
  'my.study.json': '{}',
  '.hidden.bench.json': '{}',
};

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'contract-'));
  const shelved = Object.entries(sheets).map(([name, content]) => [`fabrics/${name}`, content] as const);
  for (const [name, content] of [...Object.entries(files), ...shelved]) {
    mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
    writeFileSync(path.join(folder, name), content);
  }
});
afterEach(() => {
  vi.unstubAllGlobals();
  rmSync(folder, { recursive: true });
});

type Handler = (event: string, ...given: readonly unknown[]) => Promise<unknown>;

function inElectron(): Promise<Shell> {
  let picked: readonly string[] = [];
  const openedLinks: string[] = [];
  const place = path.join(folder, 'saved');
  const dialogs = {
    open: async ({ properties }: { properties: readonly string[] }) => ({
      canceled: picked.length === 0,
      filePaths: properties.includes('openDirectory') ? [path.join(folder, 'fabrics')] : picked.map(work),
    }),
    save: async () => ({ canceled: picked.length === 0, filePath: picked.length === 0 ? '' : place }),
  };
  const handlers = new Map<string, Handler>();
  const library = () => makeLibraryCalls(dialogs, path.join(folder, 'profile/library.json'));
  answerCalls({ handle: (channel: string, handler: Handler) => handlers.set(channel, handler) }, () => true, {
    ...makeFileCalls(dialogs, demo()),
    ...library(),
    ...makePictureCalls(dialogs, () => ({ printToPDF: async () => new Uint8Array([37, 80, 68, 70]) })),
    openLink: async (url) => {
      openedLinks.push(wantLink(url));
    },
  });
  const page: Record<string, unknown> = {};
  const electron = {
    contextBridge: { exposeInMainWorld: (name: string, value: unknown) => (page[name] = value) },
    ipcRenderer: {
      // What crosses the border is cloned, as between processes.
      invoke: async (channel: string, ...given: unknown[]) =>
        structuredClone(await handlers.get(channel)!('ours', ...structuredClone(given))),
      on: () => {},
      off: () => {},
    },
  };
  const preload = readFileSync(path.join(projectFolder, 'dist/electron/preload.cjs'), 'utf8');
  runInNewContext(preload, { require: () => electron });
  return Promise.resolve({
    host: electronHost(page)!,
    pick: (names) => (picked = names),
    saved: async () => readFileSync(place),
    openedLinks,
    shelved: (name) => {
      const file = path.join(folder, 'fabrics', name);
      return existsSync(file) ? readFileSync(file, 'utf8') : null;
    },
    next: () => ({ ...electronHost(page)!, ...library() }),
    end: () => Promise.resolve(),
  });
}

async function inBrowser(): Promise<Shell> {
  let picked: readonly string[] = [];
  const openedLinks: string[] = [];
  let savedAt = '';
  const loopback = await startLoopbackHost({ page: folder, demo: demo() });
  const fetchFor = globalThis.fetch;
  vi.stubGlobal('fetch', (address: string) => fetchFor(new URL(address, loopback.address)));
  vi.stubGlobal('print', () => {});
  vi.stubGlobal('open', (url: string) => openedLinks.push(url));
  class Element extends EventTarget {
    files: File[] = [];
    href = '';
    click() {
      // A link: the page saves what it points to. Otherwise a file input.
      if (this.href !== '') {
        savedAt = this.href;
        return;
      }
      this.files = picked.map((name) => new File([readFileSync(work(name))], name));
      this.dispatchEvent(new Event(picked.length === 0 ? 'cancel' : 'change'));
    }
  }
  vi.stubGlobal('document', { createElement: () => new Element() });
  // The download's address is an object URL, which Node's own fetch can read.
  const saved = async () => new Uint8Array(await (await fetchFor(savedAt)).arrayBuffer());
  const pick = (names: readonly string[]) => {
    picked = names;
  };
  const shelf = memoryFolder('fabrics', sheets);
  const door = memoryDoor(() => (picked.length === 0 ? null : shelf));
  return {
    host: createBrowserHost(door),
    pick,
    saved,
    openedLinks,
    shelved: (name) => memoryText(shelf, name),
    next: () => createBrowserHost(door),
    end: loopback.close,
  };
}

beforeAll(async () => {
  await buildStale(['electron']);
}, 120_000);

describe.each([
  ['electron', inElectron],
  ['browser', inBrowser],
] as const)('the host in %s', (kind, open) => {
  let shell: Shell;
  let host: Host;
  beforeEach(async () => {
    shell = await open();
    ({ host } = shell);
  });
  afterEach(async () => {
    await shell.end();
  });

  it('is the contract, whole, and says which it is', () => {
    expect(host.kind).toBe(kind);
    expect(Object.keys(host).sort()).toEqual(['kind', 'onMenu', ...callNames].sort());
  });

  it('reads the whole demo, names with blanks and accents too', async () => {
    const read = await host.readDemo();
    expect(read.map((file) => [file.path, text(file.bytes)])).toEqual([
      ['a.study.json', files['demo/a.study.json']],
      ['fabrics/ä b.bench.json', files['demo/fabrics/ä b.bench.json']],
    ]);
    expect(read.every(({ bytes }) => bytes instanceof Uint8Array)).toBe(true);
  });

  it('opens a study and what it names beside it; what is missing is left out', async () => {
    shell.pick(kind === 'browser' ? ['one.bench.json', 'my.study.json', 'form.obj'] : ['my.study.json']);
    const study = await host.openStudy();
    expect([study?.path, text(study?.bytes)]).toEqual(['my.study.json', files['work/my.study.json']]);
    const beside = await host.readBeside(['form.obj', 'none.json', 'one.bench.json']);
    expect(beside.map((file) => [file.path, text(file.bytes)])).toEqual([
      ['form.obj', files['work/form.obj']],
      ['one.bench.json', files['work/one.bench.json']],
    ]);
  });

  it('answers null where the person thinks better of it', async () => {
    expect([await host.openStudy(), await host.openFile('bench'), await host.openFile('body')]).toEqual([
      null,
      null,
      null,
    ]);
  });

  it('opens a single file', async () => {
    shell.pick(['form.obj']);
    const file = await host.openFile('body');
    expect([file?.path, text(file?.bytes)]).toEqual(['form.obj', files['work/form.obj']]);
  });

  it('saves text as UTF-8 and a picture to the byte', async () => {
    shell.pick(['somewhere']);
    expect(await host.saveText('Größe;°\n', 'table.csv')).toEqual(expect.any(String));
    expect(text(await shell.saved())).toBe('Größe;°\n');
    const png = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 255]);
    expect(await host.savePicture(png, 'view.png')).toEqual(expect.any(String));
    expect([...(await shell.saved())]).toEqual([...png]);
  });

  it('prints, opens links outside, and lets a menu listener go', async () => {
    shell.pick(['somewhere']);
    expect(await host.printSheet('sheet.pdf')).toEqual(expect.any(String));
    await host.openLink('https://example.org/method');
    expect(shell.openedLinks).toEqual(['https://example.org/method']);
    expect(host.onMenu(() => {})()).toBeUndefined();
  });
});

describe.each([
  ['electron', inElectron],
  ['browser', inBrowser],
] as const)('the library in %s', (_kind, open) => {
  let shell: Shell;
  let host: Host;
  beforeEach(async () => {
    shell = await open();
    ({ host } = shell);
  });
  afterEach(async () => {
    await shell.end();
  });
  const listed = ['Größe 50 %.bench.json', 'jersey/plover.bench.json', 'tern.bench.json'];
  const opened = async () => {
    shell.pick(['fabrics']);
    const found = await host.openLibrary('picked');
    return found?.kind === 'open' ? found.files : [];
  };

  it('is none until a folder is picked, and null where the person thinks better of it', async () => {
    expect(await host.openLibrary('remembered')).toEqual({ kind: 'none', keepsFolder: true });
    expect(await host.openLibrary('picked')).toBeNull();
    expect(await host.readLibrary(['tern.bench.json'])).toEqual([]);
    expect(await host.writeLibrary('new.bench.json', '{}', false)).toEqual({
      kind: 'refused',
      reason: 'gone',
    });
  });

  it('lists the bench sheets of the folder and one folder down, with size and date', async () => {
    shell.pick(['fabrics']);
    expect(await host.openLibrary('picked')).toMatchObject({
      kind: 'open',
      name: 'fabrics',
      writes: 'folder',
      leftOut: 0,
    });
    const found = await opened();
    expect(found.map((file) => file.path)).toEqual(listed);
    expect(found.map(({ size }) => size)).toEqual(
      listed.map((name) => new TextEncoder().encode(sheets[name]).length),
    );
    expect(found.every(({ changed }) => changed > 0)).toBe(true);
  });

  it('is there again at the next start', async () => {
    await opened();
    const next = shell.next();
    expect(await next.openLibrary('remembered')).toMatchObject({ kind: 'open', name: 'fabrics' });
    expect((await next.readLibrary(['tern.bench.json'])).map(({ bytes }) => text(bytes))).toEqual([
      sheets['tern.bench.json'],
    ]);
  });

  it('reads what was asked for, in that order, and nothing that is no sheet of the library', async () => {
    await opened();
    const asked = ['tern.bench.json', 'gone.bench.json', 'jersey/plover.bench.json'];
    expect((await host.readLibrary(asked)).map((file) => [file.path, text(file.bytes)])).toEqual([
      ['tern.bench.json', sheets['tern.bench.json']],
      ['jersey/plover.bench.json', sheets['jersey/plover.bench.json']],
    ]);
    const elsewhere = [
      '../work/one.bench.json',
      'jersey/../tern.bench.json',
      'jersey/deeper/too-deep.bench.json',
      'jersey/notes.txt',
      'my.study.json',
      '.hidden.bench.json',
      '/tern.bench.json',
      '',
    ];
    expect(await host.readLibrary(elsewhere)).toEqual([]);
  });

  it('writes a new sheet whole, and lists it', async () => {
    await opened();
    const done = await host.writeLibrary('jersey/neu ü.bench.json', '{"ü":1}', false);
    expect(done).toMatchObject({ kind: 'written', file: { path: 'jersey/neu ü.bench.json', size: 8 } });
    expect(shell.shelved('jersey/neu ü.bench.json')).toBe('{"ü":1}');
    expect(await opened()).toContainEqual(done.kind === 'written' ? done.file : null);
  });

  it('replaces a sheet only where told to', async () => {
    await opened();
    expect(await host.writeLibrary('tern.bench.json', '{}', false)).toEqual({
      kind: 'exists',
      path: 'tern.bench.json',
    });
    expect(shell.shelved('tern.bench.json')).toBe(sheets['tern.bench.json']);
    expect(await host.writeLibrary('tern.bench.json', '{}', true)).toMatchObject({ kind: 'written' });
    expect(shell.shelved('tern.bench.json')).toBe('{}');
  });

  it('makes no folders', async () => {
    await opened();
    expect(await host.writeLibrary('nosuch/new.bench.json', '{}', false)).toEqual({
      kind: 'refused',
      reason: 'gone',
    });
  });

  it.each([
    ['plain', 'plain.bench.json'],
    ['a<b>:c|d?*".bench.json', 'abcd.bench.json'],
    ['..hidden.bench.json', 'hidden.bench.json'],
    ['ends in dots. . .', 'ends in dots.bench.json'],
    ['CON', 'CON-sheet.bench.json'],
    ['lpt1.x.bench.json', 'lpt1.x-sheet.bench.json'],
    ['', 'sheet.bench.json'],
    ['...', 'sheet.bench.json'],
    ['Tern.BENCH.JSON', 'Tern.bench.json'],
    ['line\nbreak', 'linebreak.bench.json'],
    [String.raw`jersey\x`, 'jersey/x.bench.json'],
  ])('a sheet to be written as %o becomes %o', async (given, expected) => {
    await opened();
    expect(await host.writeLibrary(given, '{}', false)).toMatchObject({ file: { path: expected } });
    expect(shell.shelved(expected)).toBe('{}');
  });

  it.each([
    '../x',
    'jersey/../x',
    'jersey/deeper/x',
    '/x',
    String.raw`..\x`,
    String.raw`C:\x`,
    './x',
    'x'.repeat(241),
  ])('a sheet is not written to %o', async (given) => {
    await opened();
    await expect(host.writeLibrary(given, '{}', true)).rejects.toThrow('may not');
  });
});

/** A browser host that was given this folder at an earlier start. */
function hostOn(shelf: FolderHandle): Host {
  const door = memoryDoor(() => shelf);
  void door.keep(shelf);
  return createBrowserHost(door);
}

// oxlint-disable-next-line require-yield -- it fails before the first
async function* goneValues(): AsyncGenerator<never> {
  throw new DOMException('gone', 'NotFoundError');
}

describe('the library in a browser', () => {
  it('waits for a click where leave has to be given again', async () => {
    const shelf = memoryFolder('fabrics', sheets);
    shelf.leave = { now: 'prompt', whenAsked: 'denied' };
    const locked = { kind: 'locked', name: 'fabrics' };
    expect(await hostOn(shelf).openLibrary('remembered')).toEqual(locked);
    expect(await hostOn(shelf).openLibrary('allowed')).toEqual(locked);
    shelf.leave.whenAsked = 'granted';
    expect(await hostOn(shelf).openLibrary('allowed')).toMatchObject({ kind: 'open', name: 'fabrics' });
  });

  it('says that the folder is gone', async () => {
    const gone = { ...memoryFolder('fabrics'), values: goneValues };
    expect(await hostOn(gone).openLibrary('remembered')).toEqual({
      kind: 'missing',
      name: 'fabrics',
      reason: 'gone',
    });
  });

  it.each([
    ['NotAllowedError', 'create', 'not allowed'],
    ['QuotaExceededError', 'write', 'no room'],
  ] as const)('%s on %s leaves everything as it was: %s', async (name, at, reason) => {
    const shelf = memoryFolder('fabrics', sheets);
    shelf.trouble = { name, at };
    const refused = { kind: 'refused', reason };
    expect(await hostOn(shelf).writeLibrary('new.bench.json', '{}', false)).toEqual(refused);
    expect(memoryText(shelf, 'new.bench.json')).toBeNull();
    expect(await hostOn(shelf).writeLibrary('tern.bench.json', '{}', true)).toEqual(refused);
    expect(memoryText(shelf, 'tern.bench.json')).toBe(sheets['tern.bench.json']);
  });
});

describe('the library of a browser that lets a page have no folder', () => {
  it('is the sheets handed over at once, and downloads', async () => {
    const shell = await inBrowser();
    const host = createBrowserHost(null);
    expect(await host.openLibrary('remembered')).toEqual({ kind: 'none', keepsFolder: false });
    expect(await host.openLibrary('picked')).toBeNull();
    shell.pick(['one.bench.json', 'my.study.json']);
    const found = await host.openLibrary('picked');
    expect(found).toMatchObject({ kind: 'open', writes: 'downloads' });
    expect(found?.kind === 'open' && found.files.map((file) => file.path)).toEqual(['one.bench.json']);
    expect((await host.readLibrary(['one.bench.json', 'x'])).map(({ bytes }) => text(bytes))).toEqual([
      files['work/one.bench.json'],
    ]);
    expect(await host.writeLibrary('one.bench.json', '{}', false)).toMatchObject({ kind: 'exists' });
    expect(await host.writeLibrary('two', '{"two":2}', false)).toMatchObject({
      kind: 'written',
      file: { path: 'two.bench.json', size: 9 },
    });
    expect(text(await shell.saved())).toBe('{"two":2}');
    // What was saved stays in the list until the page is left.
    expect(await host.openLibrary('remembered')).toMatchObject({
      files: [{ path: 'one.bench.json' }, { path: 'two.bench.json' }],
    });
    await shell.end();
  });
});

describe('what is no shell of ours', () => {
  it.each([[{}], [{ snugfield: null }], [{ snugfield: { kind: 'other' } }]])(
    'is not taken for Electron: %o',
    (scope) => {
      expect(electronHost(scope)).toBeNull();
    },
  );
});
