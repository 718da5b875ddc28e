/**
 * One suite over both shells: what the window is promised holds in each. Electron's side is the built preload wired to the
 * main process's own answers; the browser's side is its host with fetch going to a real loopback host. Dialogs, downloads
 * and the page's document are played by hand.
 */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
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
import { makePictureCalls } from '../../electron/picture.ts';
import { createBrowserHost } from '../../renderer/bridge/browser-host.ts';
import { electronHost } from '../../renderer/bridge/electron-host.ts';

interface Shell {
  readonly host: Host;
  /** What the person picks at the next question: names in the working folder; none is "cancel". */
  readonly pick: (names: readonly string[]) => void;
  /** The file saved last. */
  readonly saved: () => Promise<Uint8Array>;
  readonly openedLinks: readonly string[];
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

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'contract-'));
  for (const [name, content] of Object.entries(files)) {
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
    open: async () => ({ canceled: picked.length === 0, filePaths: picked.map(work) }),
    save: async () => ({ canceled: picked.length === 0, filePath: picked.length === 0 ? '' : place }),
  };
  const handlers = new Map<string, Handler>();
  answerCalls({ handle: (channel: string, handler: Handler) => handlers.set(channel, handler) }, () => true, {
    ...makeFileCalls(dialogs, demo()),
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
  return { host: createBrowserHost(), pick, saved, openedLinks, end: loopback.close };
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

describe('what is no shell of ours', () => {
  it.each([[{}], [{ snugfield: null }], [{ snugfield: { kind: 'other' } }]])(
    'is not taken for Electron: %o',
    (scope) => {
      expect(electronHost(scope)).toBeNull();
    },
  );
});
