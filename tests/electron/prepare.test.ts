/** When packages are installed anew, and what a person with an old Node reads. */
import { describe, expect, it } from 'vitest';

import { isInstalled, nodeComplaint } from '../../electron/launch/prepare.mjs';

const wanted = {
  packages: {
    '': { version: '0.1.0' },
    'node_modules/three': { version: '0.187.0' },
    'node_modules/other-system': { version: '1.0.0', optional: true },
  },
};

const three = (version: string) => ({ 'node_modules/three': { version } });

describe('whether the packages are those of the lock file', () => {
  it.each([
    ['nothing installed', null, false],
    ['a list without packages', {}, false],
    ['the same', { packages: three('0.187.0') }, true],
    [
      'the same and more',
      { packages: { ...three('0.187.0'), 'node_modules/old': { version: '1.0.0' } } },
      true,
    ],
    ['another version', { packages: three('0.186.0') }, false],
    ['one missing', { packages: {} }, false],
    [
      'an optional one of another version',
      { packages: { ...three('0.187.0'), 'node_modules/other-system': { version: '0.9.0' } } },
      false,
    ],
  ])('%s', (_name, installed, expected) => {
    expect(isInstalled(wanted, installed)).toBe(expected);
  });
});

describe('the Node version', () => {
  it.each(['20.19.0', '20.20.2', '22.0.0', '24.1.0'])('%s is new enough', (version) => {
    expect(nodeComplaint(version)).toBeNull();
  });
  it.each(['20.18.3', '18.20.4', '8.9.0'])('%s is too old, and both versions are named', (version) => {
    expect(nodeComplaint(version)).toContain('20.19');
    expect(nodeComplaint(version)).toContain(version);
  });
});
