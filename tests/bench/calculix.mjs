/** CalculiX ccx on the bridged hollow: run here where the program is installed. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

/** Wall time read off once, ccx 2.20 on one thread of a machine of this kind, s: used, and named so, where it is not installed. */
export const STORED_SECONDS = 13.6;

const COLUMNS = 64;
const WAIST_ROW = 12;
/** Radius of the body at the waist, mm. */
const WAIST_RADIUS = 105;

/** It leaves with a number of its own after telling its version: only a program that cannot be started is missing. */
const isInstalled = () => spawnSync('ccx', ['-v'], { stdio: 'ignore' }).error === undefined;

/** Displacements by node from what the program prints. @param {string} printed */
const displacements = (printed) =>
  new Map(
    printed
      .split('\n')
      .map((line) => line.trim().split(/\s+/).map(Number))
      .filter((numbers) => numbers.length === 4 && numbers.every(Number.isFinite))
      .map(([node, ...moved]) => [node, moved]),
  );

/** Mean gap at the waist, mm. @param {string} deck @param {string} printed */
function waistGap(deck, printed) {
  const moved = displacements(printed);
  let sum = 0;
  for (const line of deck.split('\n')) {
    const [node, x, y, ...rest] = line.split(',').map(Number);
    if (rest.length !== 1 || Math.floor((node - 1) / COLUMNS) !== WAIST_ROW) continue;
    const [dx, dy] = moved.get(node) ?? [NaN, NaN];
    sum += Math.hypot(x + dx, y + dy) - WAIST_RADIUS;
    if (node === COLUMNS * (WAIST_ROW + 1)) break;
  }
  return sum / COLUMNS;
}

/**
 * Wall seconds of the program on this deck and the gap that it finds; null where it is not installed.
 *
 * @param {string} deckBundle - Prints the deck.
 * @param {string} into - Folder to work in.
 */
export function runCalculix(deckBundle, into) {
  if (!isInstalled()) return null;
  mkdirSync(into, { recursive: true });
  const deck = execFileSync(process.execPath, [deckBundle], { encoding: 'utf8', maxBuffer: 2 ** 26 });
  writeFileSync(path.join(into, 'hourglass.inp'), deck);
  const start = performance.now();
  const env = { ...process.env, OMP_NUM_THREADS: '1' };
  const { status } = spawnSync('ccx', ['hourglass'], { cwd: into, stdio: 'ignore', env });
  const seconds = (performance.now() - start) / 1000;
  if (status !== 0) throw new Error(`ccx did not end well: ${String(status)}; see ${into}.`);
  return {
    seconds,
    waistGapMm: waistGap(deck, readFileSync(path.join(into, 'hourglass.dat'), 'utf8')),
  };
}
