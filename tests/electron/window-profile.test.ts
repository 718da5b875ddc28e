/** Which browser profile a window gets, and that one in use or refused by the browser is not fought over. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';

import { afterEach, beforeEach, describe, expect, it } from 'vitest';

import { showAppWindow } from '../../electron/launch/app-window.mjs';
import { dataFolder, lastingProfile } from '../../electron/launch/window-profile.mjs';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'profile-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
});

/** An account whose data folder is in the test's own. */
const account = () => ({ platform: 'linux', env: { XDG_DATA_HOME: folder } });

describe('the data folder', () => {
  // XDG Base Directory Specification 0.8 for Linux; the others are common practice.
  it.each<[string, string, Record<string, string>, string | null]>([
    ['Linux', 'linux', { HOME: '/home/a' }, '/home/a/.local/share/snugfield'],
    ['Linux, moved', 'linux', { HOME: '/home/a', XDG_DATA_HOME: '/data' }, '/data/snugfield'],
    ['Linux, moved to nowhere', 'linux', { HOME: '/a', XDG_DATA_HOME: '' }, '/a/.local/share/snugfield'],
    ['Linux, moved relatively', 'linux', { HOME: '/a', XDG_DATA_HOME: 'b' }, '/a/.local/share/snugfield'],
    ['Linux without a home', 'linux', {}, null],
    ['macOS', 'darwin', { HOME: '/Users/a' }, '/Users/a/Library/Application Support/Snugfield'],
    ['macOS without a home', 'darwin', {}, null],
    ['Windows', 'win32', { LOCALAPPDATA: String.raw`C:\a\Local` }, String.raw`C:\a\Local\Snugfield`],
    ['Windows without one', 'win32', { HOME: '/a' }, null],
  ])('%s', (_name, platform, env, expected) => {
    expect(dataFolder({ platform, env })).toBe(expected);
  });
});

describe('the lasting profile', () => {
  it('is the same at every start on a port, and another on another port', async () => {
    const first = await lastingProfile(1111, account());
    expect(first).toBe(path.join(folder, 'snugfield/window-1111'));
    expect(await lastingProfile(1111, account())).toBe(first);
    expect(await lastingProfile(2222, account())).not.toBe(first);
  });

  it('is none where there is no data folder, or where it cannot be made', async () => {
    expect(await lastingProfile(1111, { platform: 'linux', env: {} })).toBeNull();
    writeFileSync(path.join(folder, 'snugfield'), 'a file in the way');
    expect(await lastingProfile(1111, account())).toBeNull();
  });

  it.skipIf(process.platform === 'win32')(
    'is none while a browser still has it, and there again after a crash',
    async () => {
      const profile = path.join(folder, 'snugfield/window-1111');
      mkdirSync(profile, { recursive: true });
      const socket = path.join(folder, 's');
      symlinkSync(socket, path.join(profile, 'SingletonSocket'));
      expect(await lastingProfile(1111, account())).toBe(profile);
      const browser = createServer();
      await new Promise<void>((resolve) => browser.listen(socket, resolve));
      expect(await lastingProfile(1111, account())).toBeNull();
      await new Promise((resolve) => browser.close(resolve));
      expect(await lastingProfile(1111, account())).toBe(profile);
    },
  );
});

/** A stand-in for a browser: notes its profile, and fails on those whose path holds `refused`. */
function standIn(refused: string) {
  const program = path.join(folder, 'browser');
  const note = path.join(folder, 'asked');
  const lines = [
    '#!/bin/sh',
    `for word; do case "$word" in --user-data-dir=*) echo "\${word#*=}" >> '${note}';; esac; done`,
    `case "$*" in *'${refused}'*) exit 21;; esac`,
  ];
  writeFileSync(program, lines.join('\n'), { mode: 0o755 });
  return { program, profiles: () => readFileSync(note, 'utf8').trim().split('\n') };
}

describe.skipIf(process.platform === 'win32')('a window', () => {
  const thrownAway = expect.stringContaining('snugfield-window-') as string;

  it.each<[string, string | null, string, [shown: boolean, tries: number, lines: number]]>([
    ['gets the lasting profile', 'lasting', 'none', [true, 1, 0]],
    ['gets one that is thrown away where none lasts', null, 'none', [true, 1, 0]],
    ['tries one that is thrown away where the lasting one is refused', 'lasting', 'lasting', [true, 2, 1]],
    ['is given up where any is refused', 'lasting', 'user-data-dir', [false, 2, 1]],
  ])('%s', async (_name, lasting, refused, [shown, tries, lines]) => {
    const { program, profiles } = standIn(refused);
    const profile = lasting === null ? null : path.join(folder, lasting);
    const said: string[] = [];
    const say = (line: string) => said.push(line);
    const { signal: stop } = new AbortController();
    expect(await showAppWindow(program, 'http://127.0.0.1:1/t/', { profile, say, stop })).toBe(shown);
    expect(profiles()).toEqual([...(profile === null ? [] : [profile]), thrownAway].slice(0, tries));
    expect(said).toHaveLength(lines);
  });
});
