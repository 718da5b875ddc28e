import { existsSync } from 'node:fs';
import path from 'node:path';

/** @typedef {{ readonly platform: string, readonly env: Record<string, string | undefined>, readonly exists: (file: string) => boolean }} Machine */

/** The machine this runs on. @returns {Machine} */
const thisMachine = () => ({ platform: process.platform, env: process.env, exists: existsSync });

/**
 * The installed browser that can show our page as a window of its own: Chrome, Edge or Chromium, in this order.
 * `SNUGFIELD_BROWSER` names another one and then none else is tried.
 *
 * @param {Machine} [machine]
 * @returns {string | null} Absolute path of the program; null where there is none.
 */
export function findBrowser(machine = thisMachine()) {
  const named = machine.env['SNUGFIELD_BROWSER'];
  if (named) return machine.exists(named) ? named : null;
  return candidates(machine).find((file) => machine.exists(file)) ?? null;
}

/**
 * @param {Machine} machine
 * @returns {string[]}
 */
function candidates({ platform, env }) {
  if (platform === 'win32') return onWindows(env);
  return platform === 'darwin' ? onMac(env) : onLinux(env);
}

/**
 * @param {Machine['env']} env
 * @returns {string[]}
 */
function onWindows(env) {
  const folders = ['ProgramFiles', 'ProgramFiles(x86)', 'LOCALAPPDATA'].flatMap((name) => env[name] ?? []);
  const programs = [
    String.raw`Google\Chrome\Application\chrome.exe`,
    String.raw`Microsoft\Edge\Application\msedge.exe`,
    String.raw`Chromium\Application\chrome.exe`,
  ];
  return programs.flatMap((program) => folders.map((folder) => path.win32.join(folder, program)));
}

/**
 * @param {Machine['env']} env
 * @returns {string[]}
 */
function onMac(env) {
  const folders = ['/Applications', ...(env['HOME'] ? [`${env['HOME']}/Applications`] : [])];
  return ['Google Chrome', 'Microsoft Edge', 'Chromium'].flatMap((name) =>
    folders.map((folder) => `${folder}/${name}.app/Contents/MacOS/${name}`),
  );
}

/**
 * @param {Machine['env']} env
 * @returns {string[]}
 */
function onLinux(env) {
  const folders = (env['PATH'] ?? '').split(':').filter((folder) => folder.startsWith('/'));
  const names = [
    'google-chrome',
    'google-chrome-stable',
    'microsoft-edge',
    'microsoft-edge-stable',
    'chromium',
    'chromium-browser',
  ];
  return names.flatMap((name) => folders.map((folder) => path.posix.join(folder, name)));
}

/**
 * Whether a window can be shown at all: on Linux only where a display server is named.
 *
 * @param {Pick<Machine, 'platform' | 'env'>} [machine]
 */
export const hasDisplay = ({ platform, env } = thisMachine()) =>
  platform === 'win32' || platform === 'darwin' || Boolean(env['DISPLAY'] || env['WAYLAND_DISPLAY']);
