/** The calls that move files: what they read and write on a real disk, and what they refuse. Dialogs are answered by hand. */
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

import { afterEach, beforeEach, describe, expect, it } from 'vitest';

import { wantLink, wantName, wantPng } from '../../electron/arguments.ts';
import { makeFileCalls } from '../../electron/files.ts';
import { pageOrigin, servePage } from '../../electron/page.ts';
import { makePictureCalls } from '../../electron/picture.ts';
import { writeAllWhole, writeWhole } from '../../electron/write-whole.ts';

let folder: string;
const inFolder = (name: string) => path.join(folder, name);
const text = (bytes: Uint8Array | undefined) => new TextDecoder().decode(bytes);

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'files-'));
  mkdirSync(inFolder('demo/fabrics'), { recursive: true });
  mkdirSync(inFolder('work/fabrics'), { recursive: true });
  writeFileSync(inFolder('demo/a.study.json'), 'demo');
  writeFileSync(inFolder('demo/fabrics/b.json'), 'fabric');
  writeFileSync(inFolder('work/my.study.json'), 'study');
  writeFileSync(inFolder('work/fabrics/tern 50%.json'), 'tern');
  writeFileSync(inFolder('secret.txt'), 'secret');
  symlinkSync(inFolder('secret.txt'), inFolder('work/link.txt'));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
});

/** Dialogs that answer with these places; null stands for "cancel". */
const dialogs = (opened: string | null, saved: string | null) => ({
  open: async () => ({ canceled: opened === null, filePaths: opened === null ? [] : [opened] }),
  save: async () => ({ canceled: saved === null, filePath: saved ?? '' }),
});
const calls = (opened: string | null = null, saved: string | null = null) =>
  makeFileCalls(dialogs(opened, saved), inFolder('demo'));

describe('reading', () => {
  it('gives the whole demo, by paths from its folder', async () => {
    const files = await calls().readDemo();
    expect(files.map((file) => [file.path, text(file.bytes)])).toEqual([
      ['a.study.json', 'demo'],
      ['fabrics/b.json', 'fabric'],
    ]);
  });

  it('gives the study that was picked, and null for none', async () => {
    const file = await calls(inFolder('work/my.study.json')).openStudy();
    expect([file?.path, text(file?.bytes)]).toEqual(['my.study.json', 'study']);
    expect(await calls(null).openStudy()).toBeNull();
  });

  it('reads beside the study opened last, and leaves out what is not there', async () => {
    const files = calls(inFolder('work/my.study.json'));
    expect(await files.readBeside(['my.study.json'])).toEqual([]);
    await files.openStudy();
    const found = await files.readBeside(['./fabrics/tern 50%.json', 'no.json', 'my.study.json']);
    expect(found.map((file) => [file.path, text(file.bytes)])).toEqual([
      ['./fabrics/tern 50%.json', 'tern'],
      ['my.study.json', 'study'],
    ]);
  });

  it('reads nothing outside the study’s folder', async () => {
    const files = calls(inFolder('work/my.study.json'));
    await files.openStudy();
    const outside = [
      '../secret.txt',
      inFolder('secret.txt'),
      'fabrics/../../secret.txt',
      'link.txt',
      String.raw`..\secret.txt`,
      '',
      '.',
      'fabrics',
    ];
    expect(await files.readBeside(outside)).toEqual([]);
  });

  it.each([['x'], [null], [[1]], [{ length: 1 }]])('refuses %o as a list of paths', async (given) => {
    await expect(calls().readBeside(given)).rejects.toThrow('may not');
  });

  it('refuses a kind of file that it does not know', async () => {
    await expect(calls(inFolder('secret.txt')).openFile('anything')).rejects.toThrow('may not');
  });
});

describe('writing', () => {
  it('saves text whole and tells its name', async () => {
    expect(await calls(null, inFolder('out.csv')).saveText('a,b\n', 'out.csv')).toBe('out.csv');
    expect(readFileSync(inFolder('out.csv'), 'utf8')).toBe('a,b\n');
    expect(await calls(null, null).saveText('a,b\n', 'out.csv')).toBeNull();
  });

  it('leaves the old file as it was where the new one cannot be completed', async () => {
    writeFileSync(inFolder('a.txt'), 'old');
    mkdirSync(inFolder('b.txt'));
    // A folder stands in the second file's place, so that moving it there fails.
    await expect(writeWhole(inFolder('b.txt'), 'new')).rejects.toThrow();
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
    const stop = AbortSignal.abort(new Error('stopped'));
    await expect(writeAllWhole([{ path: inFolder('a.txt'), content: 'new' }], stop)).rejects.toThrow();
    expect(readFileSync(inFolder('a.txt'), 'utf8')).toBe('old');
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  it('saves a PNG and nothing that only claims to be one', async () => {
    const png = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1]);
    const pictures = makePictureCalls(dialogs(null, inFolder('p.png')), () => ({
      printToPDF: async () => new Uint8Array(),
    }));
    expect(await pictures.savePicture(png, 'p.png')).toBe('p.png');
    expect([...readFileSync(inFolder('p.png'))]).toEqual([...png]);
    await expect(pictures.savePicture(new Uint8Array([1, 2, 3]), 'p.png')).rejects.toThrow('PNG');
    expect(() => wantPng('text')).toThrow('may not');
  });

  it('prints with the page’s own backgrounds and paper size', async () => {
    const asked: unknown[] = [];
    const page = { printToPDF: async (options: unknown) => (asked.push(options), new Uint8Array([37])) };
    expect(await makePictureCalls(dialogs(null, inFolder('s.pdf')), () => page).printSheet('s')).toBe(
      's.pdf',
    );
    expect(asked).toEqual([{ printBackground: true, preferCSSPageSize: true }]);
  });
});

describe('what the window sends', () => {
  it.each([
    ['../../etc/passwd', 'passwd.csv'],
    [String.raw`C:\autoexec.bat`, 'autoexec.bat.csv'],
    ['a<b>:c|d?.csv', 'abcd.csv'],
    ['.hidden', 'hidden.csv'],
    ['', 'snugfield.csv'],
    ['table.TXT', 'table.TXT'],
  ])('suggests %o as %o', (given, expected) => {
    expect(wantName(given, ['.csv', '.txt'])).toBe(expected);
  });

  it.each(['http://example.org', 'file:///x', 'https://a:b@example.org', 'example.org', 7])(
    'does not open %o',
    (given) => {
      expect(() => wantLink(given)).toThrow('may not');
    },
  );
});

const get = async (url: string, method = 'GET') => {
  const answer = await servePage(inFolder('demo'))({ url, method });
  return {
    status: answer.status,
    type: answer.headers.get('content-type'),
    policy: answer.headers.get('content-security-policy'),
    body: await answer.text(),
  };
};

describe('the page’s own scheme', () => {
  it('serves the page’s files with type and policy', async () => {
    expect(await get(`${pageOrigin}/fabrics/b.json`)).toMatchObject({
      status: 200,
      type: 'application/json; charset=utf-8',
      body: 'fabric',
    });
    expect((await get(`${pageOrigin}/a.study.json`)).policy).toContain("default-src 'none'");
  });

  it.each([
    ['GET', '/../secret.txt'],
    ['GET', '/%2e%2e/secret.txt'],
    ['GET', '/fabrics/%2e%2e%2f%2e%2e%2fsecret.txt'],
    ['GET', '/..%5csecret.txt'],
    ['GET', '/missing.js'],
    ['GET', '/'],
    ['POST', '/a.study.json'],
  ])('refuses %s %s', async (method, line) => {
    const { status, body } = await get(`${pageOrigin}${line}`, method);
    expect(status === 400 || status === 404).toBe(true);
    expect(body).toBe('Not here.');
  });

  it('refuses another host of its scheme', async () => {
    expect((await get('app://elsewhere/a.study.json')).status).toBe(400);
  });
});
