/** What the launchers decide without starting anything: what is stale, which window, how tests are counted. */
import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

import { afterEach, beforeEach, describe, expect, it } from 'vitest';

import { appWindowArguments } from '../../electron/launch/app-window.mjs';
import { sourceMark } from '../../electron/launch/source-mark.mjs';
import { chooseWindow, readWishes } from '../../electron/launch/start.mjs';
import { takeTurns } from '../../electron/launch/take-turns.mjs';
import { tallyOf } from '../../electron/launch/test.mjs';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'launch-'));
  mkdirSync(path.join(folder, 'src/deep'), { recursive: true });
  writeFileSync(path.join(folder, 'src/a.ts'), 'a');
  writeFileSync(path.join(folder, 'src/deep/b.ts'), 'b');
});
afterEach(() => {
  rmSync(folder, { recursive: true });
});

const mark = () => sourceMark(folder, ['src', 'lock.json']);

describe('the mark of the sources', () => {
  it('stays when files are only touched', () => {
    const before = mark();
    utimesSync(path.join(folder, 'src/a.ts'), 1, 1);
    expect(mark()).toBe(before);
  });

  it.each<[string, () => void]>([
    ['a file changes', () => writeFileSync(path.join(folder, 'src/deep/b.ts'), 'B')],
    ['a file comes', () => writeFileSync(path.join(folder, 'src/c.ts'), '')],
    ['a file goes', () => rmSync(path.join(folder, 'src/a.ts'))],
    ['a missing one appears', () => writeFileSync(path.join(folder, 'lock.json'), 'missing')],
    [
      'two swap their contents',
      () => {
        writeFileSync(path.join(folder, 'src/a.ts'), 'b');
        writeFileSync(path.join(folder, 'src/deep/b.ts'), 'a');
      },
    ],
  ])('changes when %s', (_name, change) => {
    const before = mark();
    change();
    expect(mark()).not.toBe(before);
  });
});

describe('taking turns', () => {
  it('never lets two work at once, and gives the turn on when one fails', async () => {
    const lock = path.join(folder, 'lock');
    let working = 0;
    let most = 0;
    const work = (fails: boolean) => async () => {
      most = Math.max(most, ++working);
      await new Promise((resolve) => setTimeout(resolve, 20));
      working--;
      if (fails) throw new Error('failed');
      return 'worked';
    };
    const ends = await Promise.allSettled([true, false, false].map((fails) => takeTurns(lock, work(fails))));
    expect(most).toBe(1);
    expect(ends.map(({ status }) => status)).toEqual(['rejected', 'fulfilled', 'fulfilled']);
  });

  it('takes over from a process that has died', async () => {
    const lock = path.join(folder, 'lock');
    mkdirSync(lock);
    // Above the largest process number of Linux (2^22), so surely nobody's. @see proc(5), pid_max
    writeFileSync(path.join(lock, 'pid'), String(2 ** 22 + 1));
    expect(await takeTurns(lock, async () => 'worked')).toBe('worked');
  });
});

describe('which window', () => {
  it.each([
    [[], true, 'electron'],
    [['--browser'], true, 'browser'],
    [['--port', '8123'], true, 'browser'],
    [['--port', '0'], true, 'electron'],
    [['--no-window'], true, 'none'],
    [[], false, 'none'],
    [['--browser'], false, 'none'],
  ])('%j with display %s: %s', (words, display, expected) => {
    const wishes = readWishes(words);
    expect(wishes === 'help' ? 'help' : chooseWindow(wishes, display)).toBe(expected);
  });

  it.each([
    ['the usual port', [], null],
    ['a free one', ['--port', '0'], 0],
    ['one that is named', ['--port', '8123'], 8123],
  ])('%s for %j', (_name, words, port) => {
    expect(readWishes(words)).toMatchObject({ port });
  });

  it.each([[['--port', '-1']], [['--port', '65536']], [['--port', '1e3']], [['--bogus']], [['stray']]])(
    'refuses %j',
    (words) => {
      expect(() => readWishes(words)).toThrow();
    },
  );

  it('keeps the browser’s sandbox for everyone but root, whom Chromium would refuse', () => {
    const asked = { address: 'http://127.0.0.1:1/t/', profile: '/profiles/p' };
    const words = appWindowArguments({ ...asked, isRoot: false });
    expect(words).toContain('--app=http://127.0.0.1:1/t/');
    expect(words).toContain('--user-data-dir=/profiles/p');
    expect(words).not.toContain('--no-sandbox');
    expect(appWindowArguments({ ...asked, isRoot: true })).toContain('--no-sandbox');
  });
});

const report = (...results: { status: string; tests: string[] }[]) =>
  JSON.stringify({
    testResults: results.map(({ status, tests }) => ({
      status,
      assertionResults: tests.map((one) => ({ status: one })),
    })),
  });

describe('counting tests', () => {
  it.each([
    ['all pass', report({ status: 'passed', tests: ['passed', 'passed'] }), 0, [2, 0, 0]],
    ['one fails', report({ status: 'failed', tests: ['passed', 'failed'] }), 1, [1, 1, 0]],
    ['one is left out', report({ status: 'passed', tests: ['passed', 'skipped', 'todo'] }), 0, [1, 0, 2]],
    ['a file cannot be read', report({ status: 'failed', tests: [] }), 1, [0, 1, 0]],
    ['a file fails after its tests', report({ status: 'failed', tests: ['passed'] }), 1, [1, 1, 0]],
    ['the run ends badly for no reason told', report({ status: 'passed', tests: ['passed'] }), 1, [1, 1, 0]],
    ['there is no report', null, 1, [0, 1, 0]],
  ])('%s', (_name, text, code, [passed, failed, skipped]) => {
    expect(tallyOf(text, code)).toEqual({ passed, failed, skipped });
  });
});
