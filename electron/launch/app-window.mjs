import { spawn } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';

/**
 * How a browser of the Chromium family shows one page as a window of its own.
 *
 * @param {{ readonly address: string, readonly profile: string, readonly isRoot: boolean }} options
 * @returns {string[]}
 */
export const appWindowArguments = ({ address, profile, isRoot }) => [
  `--app=${address}`,
  // A profile of ours makes this process the one that lives as long as the window, and keeps the person's own untouched.
  `--user-data-dir=${profile}`,
  '--window-size=1440,900',
  '--no-first-run',
  '--no-default-browser-check',
  '--disable-sync',
  '--disable-extensions',
  '--disable-background-networking',
  '--disable-component-update',
  // A profile that lasts must neither ask about a window that was ended with Ctrl-C nor go on without any window.
  '--hide-crash-restore-bubble',
  '--disable-background-mode',
  // Otherwise a fresh profile may ask for the system's keyring.
  '--password-store=basic',
  '--use-mock-keychain',
  // Where there is no graphics card, draw in software: safe here, since the only page shown is ours.
  '--enable-unsafe-swiftshader',
  // Chromium refuses to start as root with its sandbox, and without it shows a warning bar unless under test.
  ...(isRoot ? ['--no-sandbox', '--test-type'] : []),
];

/**
 * Shows the page in a window of an installed browser until that is closed.
 *
 * @param {string} browser - Its program.
 * @param {string} address
 * @param {{ readonly profile: string | null, readonly say: (line: string) => void, readonly stop: AbortSignal }} options -
 *   `profile` lasts beyond the window; null, or a browser that will not have it, gets one that is thrown away, which `say`
 *   hears. `stop` closes the window.
 * @returns {Promise<boolean>} False where the browser could not be started or ended at once with an error.
 */
export async function showAppWindow(browser, address, { profile, say, stop }) {
  if (profile !== null) {
    if (await showWithProfile(browser, { address, profile, stop })) return true;
    // A browser in a cage of its own (snap) may be kept from the folder.
    say(`${browser} could not open a window on ${profile}; trying once with a profile that is thrown away.`);
  }
  const thrownAway = mkdtempSync(path.join(tmpdir(), 'snugfield-window-'));
  try {
    return await showWithProfile(browser, { address, profile: thrownAway, stop });
  } finally {
    // Its helpers may still be writing for a moment.
    await rm(thrownAway, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 }).catch(() => {});
  }
}

/**
 * @param {string} browser
 * @param {{ readonly address: string, readonly profile: string, readonly stop: AbortSignal }} options
 * @returns {Promise<boolean>}
 */
async function showWithProfile(browser, { address, profile, stop }) {
  const isRoot = process.getuid?.() === 0;
  const started = Date.now();
  const code = await exitOf(browser, appWindowArguments({ address, profile, isRoot }), stop);
  return stop.aborted || code === 0 || Date.now() - started > 5000;
}

/**
 * Runs a program that talks to no one, and waits for its end.
 *
 * @param {string} program
 * @param {readonly string[]} words
 * @param {AbortSignal} stop
 * @returns {Promise<number | null>} Exit code; null where it was ended by a signal or could not be started.
 */
export function exitOf(program, words, stop) {
  const child = spawn(program, words, { stdio: 'ignore' });
  const end = () => void child.kill();
  stop.addEventListener('abort', end);
  return new Promise((resolve) => {
    const done = (/** @type {number | null} */ code) => {
      stop.removeEventListener('abort', end);
      resolve(code);
    };
    child.once('error', () => done(null));
    child.once('exit', done);
  });
}
