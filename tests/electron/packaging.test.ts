/** How the program is packed, read and judged by the packer itself. Source: electron-builder's own schema; Electron documentation, "Electron Fuses". */
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';

import { describe, expect, it } from 'vitest';

interface Configuration {
  appId: string;
  asar: boolean;
  files: unknown;
  electronFuses: Record<string, boolean>;
  win: { target: unknown };
  mac: { target: unknown };
  linux: { target: unknown };
}

interface Builder {
  readonly getConfig: (folder: string, file: null, given: null) => Promise<Configuration>;
  readonly validateConfiguration: (configuration: unknown, log: { isEnabled: boolean }) => Promise<void>;
}

const project = fileURLToPath(new URL('../../', import.meta.url));
const require = createRequire(createRequire(import.meta.url).resolve('electron-builder'));
const { getConfig, validateConfiguration } = require('app-builder-lib/out/util/config/config.js') as Builder;
const read = () => getConfig(project, null, null);

describe('electron-builder.yml', () => {
  it('is right by the packer’s schema', async () => {
    await expect(validateConfiguration(await read(), { isEnabled: false })).resolves.toBeUndefined();
  });

  it('would be found wrong if it were', async () => {
    const wrong = { ...(await read()), asar: 'perhaps', noSuchKey: 1 };
    await expect(validateConfiguration(wrong, { isEnabled: false })).rejects.toThrow(/noSuchKey/);
  });

  it('packs for the three systems', async () => {
    const { win, mac, linux } = await read();
    expect([win.target, mac.target, linux.target]).not.toContain(undefined);
  });

  it('sets every fuse that closes a way in', async () => {
    const { electronFuses, asar } = await read();
    expect(asar).toBe(true);
    expect(electronFuses).toMatchObject({
      runAsNode: false,
      enableNodeOptionsEnvironmentVariable: false,
      enableNodeCliInspectArguments: false,
      enableEmbeddedAsarIntegrityValidation: true,
      onlyLoadAppFromAsar: true,
      grantFileProtocolExtraPrivileges: false,
    });
  });
});
