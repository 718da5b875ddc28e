/** Which installed browser is taken, on machines described by hand. Program places: common practice of each vendor's installer. */
import { describe, expect, it } from 'vitest';

import { findBrowser, hasDisplay } from '../../electron/launch/find-browser.mjs';

interface Described {
  readonly platform: string;
  readonly env?: Record<string, string>;
  readonly files: readonly string[];
}

const machine = ({ platform, env = {}, files }: Described) => ({
  platform,
  env,
  exists: (file: string) => files.includes(file),
});

const linux = { PATH: '/usr/local/bin:relative:/usr/bin' };
const windows = {
  ProgramFiles: 'C:\\Program Files',
  'ProgramFiles(x86)': 'C:\\Program Files (x86)',
  LOCALAPPDATA: 'C:\\U\\Local',
};
const edge = 'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe';
const chromeForOne = 'C:\\U\\Local\\Google\\Chrome\\Application\\chrome.exe';
const macChrome = '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome';

describe('findBrowser', () => {
  it.each<[string, Described, string | null]>([
    ['nothing on Linux', { platform: 'linux', env: linux, files: [] }, null],
    ['no PATH at all', { platform: 'linux', files: ['/usr/bin/chromium'] }, null],
    [
      'Chromium on Linux',
      { platform: 'linux', env: linux, files: ['/usr/bin/chromium'] },
      '/usr/bin/chromium',
    ],
    [
      'Chrome before Chromium, wherever it stands in PATH',
      { platform: 'linux', env: linux, files: ['/usr/local/bin/chromium', '/usr/bin/google-chrome'] },
      '/usr/bin/google-chrome',
    ],
    [
      'nothing from a relative folder of PATH',
      { platform: 'linux', env: linux, files: ['relative/chromium'] },
      null,
    ],
    ['Edge on Windows', { platform: 'win32', env: windows, files: [edge] }, edge],
    [
      'Chrome of one user before Edge',
      { platform: 'win32', env: windows, files: [edge, chromeForOne] },
      chromeForOne,
    ],
    ['Chrome on a Mac', { platform: 'darwin', env: { HOME: '/Users/a' }, files: [macChrome] }, macChrome],
    [
      'Chrome in a person’s own Applications',
      { platform: 'darwin', env: { HOME: '/Users/a' }, files: [`/Users/a${macChrome}`] },
      `/Users/a${macChrome}`,
    ],
    [
      'the one that is named',
      {
        platform: 'linux',
        env: { ...linux, SNUGFIELD_BROWSER: '/opt/b' },
        files: ['/opt/b', '/usr/bin/chromium'],
      },
      '/opt/b',
    ],
    [
      'none where the one that is named is missing',
      { platform: 'linux', env: { ...linux, SNUGFIELD_BROWSER: '/opt/b' }, files: ['/usr/bin/chromium'] },
      null,
    ],
  ])('finds %s', (_name, described, expected) => {
    expect(findBrowser(machine(described))).toBe(expected);
  });
});

describe('hasDisplay', () => {
  it.each([
    ['linux', {}, false],
    ['linux', { DISPLAY: ':0' }, true],
    ['linux', { DISPLAY: '', WAYLAND_DISPLAY: 'wayland-0' }, true],
    ['linux', { DISPLAY: '' }, false],
    ['win32', {}, true],
    ['darwin', {}, true],
  ])('on %s with %o: %s', (platform, env, expected) => {
    expect(hasDisplay({ platform, env })).toBe(expected);
  });
});
