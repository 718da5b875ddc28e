import { lstatSync, mkdirSync, openSync, closeSync, readlinkSync } from 'node:fs';
import { connect } from 'node:net';
import path from 'node:path';

/** @typedef {{ readonly platform: string, readonly env: Record<string, string | undefined> }} Account */

/** The account this runs under. @returns {Account} */
const thisAccount = () => ({ platform: process.platform, env: process.env });

/**
 * Where a program keeps what it remembers for the person who runs it.
 *
 * @param {Account} account
 * @returns {string | null} Absolute; null where the system names no such place.
 * @see XDG Base Directory Specification 0.8: a relative XDG_DATA_HOME is to be ignored, an empty one means the default.
 */
export function dataFolder({ platform, env }) {
  if (platform === 'win32')
    return env['LOCALAPPDATA'] ? path.win32.join(env['LOCALAPPDATA'], 'Snugfield') : null;
  const home = env['HOME'];
  if (platform === 'darwin')
    return home ? path.posix.join(home, 'Library/Application Support/Snugfield') : null;
  const named = env['XDG_DATA_HOME'];
  if (named?.startsWith('/')) return path.posix.join(named, 'snugfield');
  return home ? path.posix.join(home, '.local/share/snugfield') : null;
}

/**
 * The browser profile that lasts, so that the page finds again what it had the browser remember (the library's folder).
 *
 * Browsers remember per address without its path, hence per port, and so does this: each port has a profile of its own, and
 * whoever serves on the port has its profile. No two starts can, so none needs a lock that a crash would leave behind.
 *
 * @param {number} port - The port that the caller serves on now.
 * @param {Account} [account]
 * @returns {Promise<string | null>} A folder that is there and free; null where there can be none.
 */
export async function lastingProfile(port, account = thisAccount()) {
  const data = dataFolder(account);
  if (data === null) return null;
  const profile = path.join(data, `window-${port}`);
  try {
    mkdirSync(profile, { recursive: true, mode: 0o700 });
  } catch {
    return null;
  }
  return (await isInUse(profile)) ? null : profile;
}

/**
 * Whether a browser that outlived its launcher still has the profile: a second one would only hand it our address and end.
 *
 * Chromium's own marks tell, and none is believed after a crash: on Linux and macOS the link `SingletonSocket` to a socket
 * that answers while it lives, on Windows `lockfile`, which it keeps open and unshared (both from memory).
 *
 * @param {string} profile
 * @returns {Promise<boolean>}
 */
async function isInUse(profile) {
  const socket = path.join(profile, 'SingletonSocket');
  if (isLink(socket)) return answers(path.resolve(profile, readlinkSync(socket)));
  try {
    closeSync(openSync(path.join(profile, 'lockfile'), 'r+'));
    return false;
  } catch (error) {
    return !(error instanceof Error && 'code' in error && error.code === 'ENOENT');
  }
}

/** @param {string} file */
const isLink = (file) => lstatSync(file, { throwIfNoEntry: false })?.isSymbolicLink() ?? false;

/**
 * @param {string} socket
 * @returns {Promise<boolean>}
 */
function answers(socket) {
  return new Promise((resolve) => {
    const caller = connect(socket);
    caller.once('error', () => resolve(false));
    caller.once('connect', () => {
      caller.destroy();
      resolve(true);
    });
  });
}
