import { existsSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';

import { exitOf, showAppWindow } from './app-window.mjs';
import { buildStale, projectFolder } from './build.mjs';
import { electronRuntime } from './electron-runtime.mjs';
import { findBrowser, hasDisplay } from './find-browser.mjs';
import { startLoopbackHost, startUsualHost } from './loopback-host.mjs';
import { lastingProfile } from './window-profile.mjs';

const help = `Opens Snugfield. Usage: npm start -- [options]

  --browser     use an installed Chrome, Edge or Chromium even where Electron is there
  --no-window   open no window; print the address and serve it until Ctrl-C
  --port <n>    serve on this port of 127.0.0.1 instead of the usual one; 0 takes a free one
  --help        show this

A browser remembers the library's folder per port: always on the usual one or one you name, never on a free one.
Without a display it prints the address as with --no-window.
The same computation without a window: npm run snugfield -- --help`;

/** @typedef {{ readonly browser: boolean, readonly noWindow: boolean, readonly port: number | null }} Wishes */

/**
 * @param {readonly string[]} words
 * @returns {Wishes | 'help'}
 * @throws {RangeError} where the port is none; parseArgs' own error where an option is unknown.
 */
export function readWishes(words) {
  const { values } = parseArgs({
    args: [...words],
    options: {
      browser: { type: 'boolean', default: false },
      'no-window': { type: 'boolean', default: false },
      port: { type: 'string' },
      help: { type: 'boolean', short: 'h', default: false },
    },
  });
  if (values.help) return 'help';
  return { browser: values.browser, noWindow: values['no-window'], port: readPort(values.port) };
}

/**
 * @param {string | undefined} word
 * @returns {number | null} Null where none was asked for.
 */
function readPort(word) {
  if (word === undefined) return null;
  const port = Number(word);
  if (!/^\d+$/.test(word) || port > 65_535) {
    throw new RangeError(`--port wants a number from 0 to 65535, not "${word}".`);
  }
  return port;
}

/**
 * Which window to try first.
 *
 * @param {Wishes} wishes
 * @param {boolean} display
 * @returns {'electron' | 'browser' | 'none'}
 */
export function chooseWindow({ browser, noWindow, port }, display) {
  if (noWindow || !display) return 'none';
  // A port is asked for to be reached there, and Electron serves none.
  return browser || (port ?? 0) !== 0 ? 'browser' : 'electron';
}

/** A signal that comes with Ctrl-C or when the program is asked to end. */
function stopSignal() {
  const controller = new AbortController();
  for (const name of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP'])) {
    process.once(name, () => controller.abort());
  }
  return controller.signal;
}

/** @param {AbortSignal} stop */
const stopped = (stop) =>
  new Promise((resolve) => {
    if (stop.aborted) resolve(undefined);
    else stop.addEventListener('abort', resolve, { once: true });
  });

/**
 * Tries Electron until its window is closed.
 *
 * @param {AbortSignal} stop
 * @returns {Promise<boolean>} False where there is no Electron here, which has then been said.
 */
async function showInElectron(stop) {
  const packageFolder = path.join(projectFolder, 'node_modules/electron');
  const program = existsSync(packageFolder) ? await electronRuntime(packageFolder, console.log) : null;
  if (program === null) {
    console.log('The Electron runtime could not be fetched; an installed browser shows the window instead.');
    return false;
  }
  await buildStale(['electron'], { say: console.log });
  const started = Date.now();
  const asRoot = process.platform === 'linux' && process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  const code = await exitOf(program, [...asRoot, projectFolder], stop);
  if (stop.aborted || code === 0 || Date.now() - started > 5000) return true;
  console.log('Electron could not open a window; an installed browser shows it instead.');
  return false;
}

/**
 * Serves the page where it was asked for.
 *
 * @param {number | null} port - Null takes the usual one, or where that is taken a free one, which is said; 0 a free one.
 * @returns {Promise<{ readonly host: import('./loopback-host.mjs').LoopbackHost, readonly isLasting: boolean }>} Whether
 *   the next start that asks the same can serve there too.
 */
async function serve(port) {
  const folders = {
    page: path.join(projectFolder, 'dist/renderer'),
    demo: path.join(projectFolder, 'assets/demo'),
  };
  if (port !== null) return { host: await startLoopbackHost({ ...folders, port }), isLasting: port !== 0 };
  const host = await startUsualHost(folders);
  if (!host.isUsual) {
    console.log(
      "The usual port is taken (another Snugfield?); on a free one the library's folder is not remembered.",
    );
  }
  return { host, isLasting: host.isUsual };
}

/**
 * Serves the page, and shows it in a browser's window where one is wanted and there.
 *
 * @param {{ readonly withWindow: boolean, readonly port: number | null, readonly why: string, readonly stop: AbortSignal }} options
 */
async function showInBrowser({ withWindow, port, why, stop }) {
  const { host, isLasting } = await serve(port);
  console.log(`Snugfield is at ${host.address}`);
  const browser = withWindow ? findBrowser() : null;
  let reason = withWindow ? 'No Chrome, Edge or Chromium was found' : why;
  if (browser !== null) {
    console.log('Closing its window ends it, and so does Ctrl-C.');
    const profile = isLasting ? await lastingProfile(host.port) : null;
    if (isLasting && profile === null) {
      console.log("The window's own data folder cannot be used now; the library's folder is not remembered.");
    }
    if (await showAppWindow(browser, host.address, { profile, say: console.log, stop })) return host.close();
    reason = `${browser} could not open a window`;
  }
  console.log(`${reason}: open that address in a browser on this machine. Ctrl-C ends it.`);
  console.log('Without a window altogether: npm run snugfield -- --help');
  await stopped(stop);
  return host.close();
}

/** @param {Wishes} wishes */
async function start(wishes) {
  const stop = stopSignal();
  await buildStale(['renderer'], { say: console.log });
  const choice = chooseWindow(wishes, hasDisplay());
  if (choice === 'electron' && (await showInElectron(stop))) return;
  const why = wishes.noWindow ? 'No window was asked for' : 'There is no display here to open a window on';
  await showInBrowser({ withWindow: choice !== 'none', port: wishes.port, why, stop });
}

/** @param {readonly string[]} words */
async function fromCommandLine(words) {
  try {
    const wishes = readWishes(words);
    if (wishes === 'help') console.log(help);
    else await start(wishes);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    const usage = error instanceof RangeError || code.startsWith('ERR_PARSE_ARGS');
    if (!(error instanceof Error) || (!usage && code !== 'EADDRINUSE')) throw error;
    console.error(
      usage
        ? `${error.message}\nnpm start -- --help lists the options.`
        : 'That port is taken: choose another, or none.',
    );
    process.exitCode = 2;
  }
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  await fromCommandLine(process.argv.slice(2));
}
