/** The preload as it is built, run alone with Electron's two parts played by hand. */
import { readFileSync } from 'node:fs';
import { runInNewContext } from 'node:vm';

import { beforeAll, describe, expect, it } from 'vitest';

import { callNames } from '../../electron/channels.ts';
import type { Host } from '../../electron/contract.ts';
import { buildStale, projectFolder } from '../../electron/launch/build.mjs';

let script: string;

beforeAll(async () => {
  await buildStale(['electron']);
  script = readFileSync(`${projectFolder}dist/electron/preload.cjs`, 'utf8');
}, 120_000);

type Listener = (event: unknown, command: string) => void;

/** Runs the preload; what it asked for, what it put into the page's world, what it sent. */
function run(invoke: (channel: string, ...given: unknown[]) => Promise<unknown> = async () => null) {
  const exposed: Record<string, unknown> = {};
  const required: string[] = [];
  const listeners = new Map<string, Listener>();
  const electron = {
    contextBridge: {
      exposeInMainWorld: (name: string, value: unknown) => {
        exposed[name] = value;
      },
    },
    ipcRenderer: {
      invoke,
      on: (channel: string, listener: Listener) => listeners.set(channel, listener),
      off: (channel: string, listener: Listener) => {
        if (listeners.get(channel) === listener) listeners.delete(channel);
      },
    },
  };
  const require = (name: string) => {
    required.push(name);
    return electron;
  };
  // Only what a sandboxed preload is given: no process, no Buffer, no Node.
  runInNewContext(script, { require, module: { exports: {} }, exports: {} });
  return { exposed, required, listeners, host: exposed['snugfield'] as Host };
}

describe('the built preload', () => {
  it('is one CommonJS file that asks for Electron and nothing else', () => {
    expect(run().required).toEqual(['electron']);
    expect(script).not.toMatch(/^\s*(import|export)\s/m);
  });

  it('gives the page the contract and nothing beside it', () => {
    const { exposed } = run();
    expect(Object.keys(exposed)).toEqual(['snugfield']);
    expect(Object.keys(exposed['snugfield'] as object).sort()).toEqual(
      ['kind', 'onMenu', ...callNames].sort(),
    );
    expect(Object.keys(exposed['snugfield'] as object).length).toBeLessThanOrEqual(13);
  });

  it('sends each call on the channel of its own name, with what was given and no more', async () => {
    const sent: unknown[][] = [];
    const { host } = run(async (...all) => sent.push(all));
    const png = new Uint8Array([1]);
    await host.readDemo();
    await host.openStudy();
    await host.readBeside(['a']);
    await host.openFile('bench');
    await host.savePicture(png, 'p.png');
    await host.saveText('t', 't.csv');
    await host.printSheet('s.pdf');
    await host.openLibrary('picked');
    await host.readLibrary(['a.bench.json']);
    await host.writeLibrary('a.bench.json', '{}', false);
    await host.openLink('https://example.org/');
    expect(sent).toEqual([
      ['readDemo'],
      ['openStudy'],
      ['readBeside', ['a']],
      ['openFile', 'bench'],
      ['savePicture', png, 'p.png'],
      ['saveText', 't', 't.csv'],
      ['printSheet', 's.pdf'],
      ['openLibrary', 'picked'],
      ['readLibrary', ['a.bench.json']],
      ['writeLibrary', 'a.bench.json', '{}', false],
      ['openLink', 'https://example.org/'],
    ]);
  });

  it('takes Electron’s own words off an error', async () => {
    const { host } = run(async () => {
      throw new Error("Error invoking remote method 'saveText': Error: ENOSPC: no space left on device");
    });
    await expect(host.saveText('t', 't.csv')).rejects.toThrow(/^ENOSPC: no space left on device$/);
  });

  it('passes menu commands on without their event, until told to stop', () => {
    const { host, listeners } = run();
    const heard: unknown[][] = [];
    const stop = host.onMenu((...all) => heard.push(all));
    listeners.get('menu')?.({ sender: 'the way to every channel' }, 'openStudy');
    expect(heard).toEqual([['openStudy']]);
    stop();
    expect(listeners.size).toBe(0);
  });
});
