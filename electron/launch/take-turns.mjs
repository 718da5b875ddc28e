import { mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';

/**
 * Runs `work` while no other process of this machine runs under the same lock. A lock whose owner has died is taken over.
 *
 * @template T
 * @param {string} lock - A folder that exists exactly while someone works.
 * @param {() => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function takeTurns(lock, work) {
  while (!tryTake(lock)) {
    if (ownerIsGone(lock)) rmSync(lock, { recursive: true, force: true });
    // oxlint-disable-next-line no-await-in-loop -- waiting is the point
    else await wait(200);
  }
  try {
    return await work();
  } finally {
    rmSync(lock, { recursive: true, force: true });
  }
}

/** @param {string} lock */
function tryTake(lock) {
  try {
    mkdirSync(lock);
  } catch {
    return false;
  }
  writeFileSync(path.join(lock, 'pid'), String(process.pid));
  return true;
}

/** @param {string} lock */
function ownerIsGone(lock) {
  try {
    const pid = Number(readFileSync(path.join(lock, 'pid'), 'utf8'));
    return pid > 0 ? !isRunning(pid) : false;
  } catch {
    // Taken this instant and not signed yet, or left unsigned by a process that was killed between the two.
    return Date.now() - lastTouched(lock) > 10_000;
  }
}

/** @param {string} lock */
const lastTouched = (lock) => statSync(lock, { throwIfNoEntry: false })?.mtimeMs ?? Date.now();

/** @param {number} pid */
function isRunning(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // EPERM: it runs, but is not ours.
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}
