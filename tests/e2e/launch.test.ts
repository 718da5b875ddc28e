/** `npm start` and the command line as a person starts them, each in a process of its own. */
import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

import { chromium } from 'playwright-core';
import { afterEach, describe, expect, it } from 'vitest';

import { projectFolder } from '../../electron/launch/build.mjs';
import { findBrowser } from '../../electron/launch/find-browser.mjs';

const running: ChildProcess[] = [];

afterEach(() => {
  for (const child of running.splice(0)) child.kill();
});

/** The environment without any display to open a window on. */
const blind = (): NodeJS.ProcessEnv => {
  const { DISPLAY: _x, WAYLAND_DISPLAY: _wayland, ...rest } = process.env;
  return rest;
};

interface Started {
  readonly child: ChildProcess;
  /** Waits for a line that matches; what was said so far is in the error if none comes. */
  readonly line: (pattern: RegExp) => Promise<RegExpExecArray>;
  readonly said: () => string;
  readonly ended: Promise<number | null>;
}

function start(words: readonly string[], env: NodeJS.ProcessEnv = blind()): Started {
  const child = spawn(process.execPath, [path.join(projectFolder, 'electron/launch/start.mjs'), ...words], {
    env,
  });
  running.push(child);
  let said = '';
  const hear = (text: string) => (said += text);
  child.stdout.setEncoding('utf8').on('data', hear);
  child.stderr.setEncoding('utf8').on('data', hear);
  const ended = new Promise<number | null>((resolve) => child.once('close', resolve));
  const line = async (pattern: RegExp) => {
    const found = () => pattern.exec(said);
    await expect.poll(found, { timeout: 120_000, message: `waiting for ${pattern}` }).not.toBeNull();
    return found()!;
  };
  return { child, line, said: () => said, ended };
}

const address = /http:\/\/127\.0\.0\.1:(\d+)\/([\w-]+)\//;

describe('npm start without a display', () => {
  it('prints an address that serves the page, names the command line, and ends with Ctrl-C', async () => {
    const { child, line, ended } = start([]);
    const [whole, port] = await line(address);
    await line(/no display/);
    await line(/npm run snugfield/);
    const page = await fetch(whole);
    expect([page.status, page.headers.get('content-type')]).toEqual([200, 'text/html; charset=utf-8']);
    expect(await page.text()).toContain('<title>Snugfield</title>');
    expect((await fetch(`http://127.0.0.1:${port}/`)).status).toBe(403);
    child.kill('SIGINT');
    expect(await ended).toBe(0);
    await expect(fetch(whole)).rejects.toThrow();
  });

  it('serves a page that loads under its policy without a complaint, and every demo file', async () => {
    const { line } = start(['--no-window']);
    const [whole] = await line(address);
    const list: unknown = await (await fetch(`${whole}demo/files.json`)).json();
    expect(list).toContain('harbour-waist-shaper.study.json');
    for (const name of list as string[]) expect((await fetch(`${whole}demo/${name}`)).status).toBe(200);

    const browser = await chromium.launch({ executablePath: findBrowser()!, args: ['--no-sandbox'] });
    try {
      const page = await browser.newPage();
      const complaints: string[] = [];
      page.on('console', (message) => {
        if (message.type() === 'error') complaints.push(message.text());
      });
      page.on('pageerror', (error) => complaints.push(error.message));
      await page.goto(whole, { waitUntil: 'networkidle' });
      expect(complaints).toEqual([]);
    } finally {
      await browser.close();
    }
  });
});

/** A stand-in for a browser, which needs no display: notes what it was asked and "has its window open" for some seconds. */
function standInBrowser(seconds: number) {
  const folder = mkdtempSync(path.join(tmpdir(), 'stand-in-'));
  const program = path.join(folder, 'browser');
  const note = path.join(folder, 'asked');
  writeFileSync(program, `#!/bin/sh\nprintf '%s\\n' "$@" > '${note}'\nexec sleep ${seconds}\n`, {
    mode: 0o755,
  });
  // Wherever the system has it, the data folder is in this one.
  const own = { HOME: folder, XDG_DATA_HOME: folder };
  const env = { ...blind(), ...own, DISPLAY: ':none', SNUGFIELD_BROWSER: program };
  const remove = () => {
    rmSync(folder, { recursive: true });
  };
  return { env, asked: () => readFileSync(note, 'utf8').trim().split('\n'), remove };
}

const profiles = () => readdirSync(tmpdir()).filter((name) => name.startsWith('snugfield-window-'));

describe.skipIf(process.platform === 'win32')('npm start with a display', () => {
  it.each([
    ['the window is closed', 2, false],
    ['Ctrl-C is pressed', 60, true],
  ])(
    'opens an installed browser with a profile of its own, and ends when %s',
    async (_name, seconds, interrupts) => {
      const browser = standInBrowser(seconds);
      const before = profiles();
      const { child, line, ended } = start(['--browser', '--port=0'], browser.env);
      const [whole] = await line(address);
      await line(/Closing its window ends it/);
      expect((await fetch(whole)).status).toBe(200);
      await expect.poll(browser.asked).toContain(`--app=${whole}`);
      const profile = browser.asked().find((word) => word.startsWith('--user-data-dir='));
      expect(before).not.toContain(path.basename(profile ?? ''));
      if (interrupts) child.kill('SIGINT');
      expect(await ended).toBe(0);
      expect(profiles()).toEqual(before);
      await expect(fetch(whole)).rejects.toThrow();
      browser.remove();
    },
  );

  it('gives the lasting profile to one start, and to a second at the same time one that is thrown away', async () => {
    const browser = standInBrowser(60);
    const profileOf = async (page: string) => {
      await expect.poll(browser.asked).toContain(`--app=${page}`);
      return browser.asked().find((word) => word.startsWith('--user-data-dir='));
    };
    const before = profiles();
    const first = start(['--browser'], browser.env);
    const [page, port] = await first.line(address);
    // Where another program has the usual port, the first start is a second one too.
    const isUsual = !/usual port is taken/.test(first.said());
    const lasting = await profileOf(page);
    expect(lasting?.endsWith(`nugfield/window-${port}`)).toBe(isUsual);
    const second = start(['--browser'], browser.env);
    const [otherPage, otherPort] = await second.line(address);
    expect(second.said()).toMatch(/usual port is taken/);
    expect(otherPort).not.toBe(port);
    expect(await profileOf(otherPage)).toContain('snugfield-window-');
    for (const { child } of [first, second]) child.kill('SIGINT');
    expect(await Promise.all([first.ended, second.ended])).toEqual([0, 0]);
    expect(profiles()).toEqual(before);
    // What the next start finds again.
    expect(existsSync(lasting!.slice('--user-data-dir='.length))).toBe(isUsual);
    browser.remove();
  });

  it('says so and goes on serving where no browser is installed', async () => {
    const { line } = start(['--browser'], {
      ...blind(),
      DISPLAY: ':none',
      SNUGFIELD_BROWSER: '/nowhere/browser',
    });
    const [whole] = await line(address);
    await line(/No Chrome, Edge or Chromium was found/);
    expect((await fetch(whole)).status).toBe(200);
  });
});

describe('npm start with a wrong option', () => {
  it.each([['--bogus'], ['--port=seven'], ['--port=70000']])(
    '%s: says what is wrong and ends with 2',
    async (word) => {
      const { ended, said } = start([word]);
      expect(await ended).toBe(2);
      expect(said()).toContain('--help');
    },
  );

  it('shows its options with --help', async () => {
    const { ended, said } = start(['--help']);
    expect(await ended).toBe(0);
    for (const option of ['--browser', '--no-window', '--port']) expect(said()).toContain(option);
  });
});
