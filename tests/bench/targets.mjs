/** The targets of the search for rest, measured in one run: what must be, what was to be reached, what is. */
import { execFileSync } from 'node:child_process';
import { appendFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { projectFolder } from '../../electron/launch/build.mjs';

const HISTORY = path.join(projectFolder, 'tests/bench/history.jsonl');

/** Wall time of CalculiX ccx 2.20 on the same mesh of the hourglass, one thread, s: read off once, not run here. */
const CALCULIX_SECONDS = 13.6;

/** @typedef {{ what: string, got: number, must: number, reach: number, unit: string, more?: boolean, ratio?: number, note?: string }} Target */

/** @param {string} bundle @param {string[]} words */
const once = (bundle, ...words) =>
  JSON.parse(execFileSync(process.execPath, [bundle, ...words], { cwd: projectFolder, encoding: 'utf8' }));

/** Wall time of a whole process, the best of three, s. @param {string} bundle */
function processSeconds(bundle) {
  const times = [1, 2, 3].map(() => {
    const start = performance.now();
    execFileSync(process.execPath, [bundle], { cwd: projectFolder });
    return (performance.now() - start) / 1000;
  });
  return Math.min(...times);
}

const unrest = (/** @type {any} */ run) =>
  run.atRest ? '' : `NOT AT REST, ${run.residual.toExponential(0)}`;

/** @param {string} what @param {any} run @param {[number, number]} goal @returns {Target} */
const time = (what, run, [must, reach]) => ({
  what,
  got: run.seconds,
  must,
  reach,
  unit: 's',
  ratio: run.seconds / run.yardstickSeconds,
  note: unrest(run),
});

/** @param {string} bundle @param {string} hourglass @returns {Target[]} */
export function measureTargets(bundle, hourglass) {
  const torso = [10368, 41216, 98688].map((size) => once(bundle, 'torso', String(size)));
  const [small, middle, large] = torso;
  const growth = Math.log(large.seconds / small.seconds) / Math.log(large.vertexCount / small.vertexCount);
  const warm = once(bundle, 'warm');
  return [
    time('cold, 10k vertices', small, [1, 0.6]),
    time('cold, 40k vertices', middle, [2.5, 1.5]),
    time('cold, 100k vertices', large, [6, 4]),
    { what: 'growth 10k to 100k', got: growth, must: 1, reach: 0.9, unit: 'exponent' },
    { what: 'process memory, 100k', got: large.memoryMb, must: 350, reach: 280, unit: 'MB' },
    time('cold with friction 0.3, 10k', once(bundle, 'torso', '10368', '0.3'), [2, 1.2]),
    time('cold on the flesh layer, demo study', once(bundle, 'flesh'), [2.5, 1.5]),
    ...warm.changes.map((/** @type {any} */ run) =>
      time(`tried again: ${run.change}`, { ...run, yardstickSeconds: warm.yardstickSeconds }, [0.3, 0.3]),
    ),
    {
      what: 'hourglass, whole cold process, beside CalculiX (its time stored, not run)',
      got: CALCULIX_SECONDS / processSeconds(hourglass),
      must: 50,
      reach: 100,
      unit: 'times as fast',
      more: true,
    },
  ];
}

/** @param {readonly Target[]} targets @param {number} yardstickSeconds */
export function printTargets(targets, yardstickSeconds) {
  console.log('Targets of the search for rest; times also as multiples of the yardstick of this run:');
  for (const { what, got, must, reach, unit, more = false, ratio, note = '' } of targets) {
    const meets = (/** @type {number} */ goal) => (more ? got >= goal : got <= goal);
    const verdict = meets(reach) ? 'reached' : meets(must) ? 'met' : 'MISSED';
    const multiple = ratio === undefined ? '' : ` (${ratio.toFixed(1)} x)`;
    const value = `${got.toFixed(got < 10 ? 2 : 0)} ${unit}${multiple}`;
    console.log(
      `${verdict.padEnd(8)} ${what.padEnd(74)} ${value.padEnd(24)} must ${must}, reach ${reach} ${note}`,
    );
  }
  keepHistory(targets, yardstickSeconds);
}

/** One line per run, so that a slow change shows. @param {readonly Target[]} targets @param {number} yardstickSeconds */
function keepHistory(targets, yardstickSeconds) {
  const figures = Object.fromEntries(targets.map(({ what, got }) => [what, Number(got.toPrecision(4))]));
  const [cpu] = os.cpus();
  const entry = {
    date: new Date().toISOString().slice(0, 16),
    node: process.version,
    cpu: `${os.cpus().length} x ${cpu?.model ?? 'unknown'}`,
    load: Number(os.loadavg()[0]?.toFixed(1)),
    yardstickSeconds: Number(yardstickSeconds.toPrecision(4)),
    figures,
  };
  appendFileSync(HISTORY, `${JSON.stringify(entry)}\n`);
}
