/** The targets of the search for rest, measured in one run: what must be, what was to be reached, what is. */
import { execFileSync } from 'node:child_process';
import { appendFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { projectFolder } from '../../electron/launch/build.mjs';
import { runCalculix, STORED_SECONDS } from './calculix.mjs';

const HISTORY = path.join(projectFolder, 'tests/bench/history.jsonl');

/** Without `must` and `reach` a figure is only told. @typedef {{ what: string, got: number, must?: number, reach?: number, unit: string, more?: boolean, ratio?: number, note?: string }} Target */

/** @param {string} bundle @param {string[]} words */
const once = (bundle, ...words) =>
  JSON.parse(execFileSync(process.execPath, [bundle, ...words], { cwd: projectFolder, encoding: 'utf8' }));

/** Wall time of a whole process, the best of five, s. @param {string} bundle */
function processSeconds(bundle) {
  const times = [1, 2, 3, 4, 5].map(() => {
    const start = performance.now();
    execFileSync(process.execPath, [bundle], { cwd: projectFolder });
    return (performance.now() - start) / 1000;
  });
  return Math.min(...times);
}

const unrest = (/** @type {any} */ run) =>
  run.atRest ? '' : `NOT AT REST, ${run.residual.toExponential(0)}`;

/** @param {string} what @param {any} run @param {[number?, number?]} goal @returns {Target} */
const time = (what, run, [must, reach] = []) => ({
  what,
  got: run.seconds,
  must,
  reach,
  unit: 's',
  ratio: run.seconds / run.yardstickSeconds,
  note: unrest(run),
});

/** @typedef {{ targets: string, hourglass: string, deck: string, accuracy: string, work: string }} Bundles */

/** The bridged hollow here and there, whole cold processes. @param {Bundles} bundles @returns {Target[]} */
function besideCalculix({ hourglass, deck, work }) {
  const there = runCalculix(deck, work);
  const ours = processSeconds(hourglass);
  const gap = once(hourglass).find((/** @type {any} */ check) => check.id === 'hourglass.waist-gap').got;
  const how = there
    ? `CalculiX run here: ${there.seconds.toFixed(1)} s, ours ${ours.toFixed(3)} s; gap at the waist ${there.waistGapMm.toFixed(3)} mm, ours ${gap.toFixed(3)} mm`
    : `CalculiX NOT run here: its time is stored, ${STORED_SECONDS} s; ours ${ours.toFixed(3)} s`;
  const got = (there?.seconds ?? STORED_SECONDS) / ours;
  return [
    {
      what: there ? 'hourglass beside CalculiX' : 'hourglass beside CalculiX, stored time',
      got,
      must: 50,
      reach: 100,
      unit: 'times as fast',
      more: true,
      note: how,
    },
  ];
}

/** Worst of each family of outside checks. @param {string} bundle @returns {Target[]} */
function accuracy(bundle) {
  const worst = once(bundle);
  const share = (
    /** @type {string} */ what,
    /** @type {string} */ key,
    /** @type {[number?, number?]} */ [must, reach] = [],
  ) => ({ what, got: worst[key], must, reach, unit: '%' });
  return [
    share('pressure, closed forms, edge <= R/10, rms', 'closedForms', [0.5, 0.3]),
    share('pressure, uneven cloth mesh, 20 mm discs, rms', 'unevenCloth'),
    share('pressure, skin of 8 mm edges, R 40..150 mm, rms', 'meshedEight', [1.5, 1.3]),
    share('pressure, skin of 12 mm edges, R 40..150 mm, rms', 'meshedTwelve', [2, 1.8]),
    share('flesh, indent, worst', 'indent', [6, 3]),
    share('flesh, bulge, worst', 'bulge', [12, 6]),
    share('flesh, hoop waves, worst', 'hoopWaves', [20, 10]),
  ];
}

/** The same cloth with coarse levels by decimation, made within the time, instead of its own. @param {string} bundle */
const withoutHierarchy = (bundle) =>
  [
    [10368, 0],
    [10368, 0.3],
    [41216, 0],
    [41216, 0.3],
  ].map(([size, friction]) => {
    const run = once(bundle, 'any-mesh', String(size), String(friction));
    const steps = `Newton steps on the finest level ${run.newtonSteps.at(-1)}, nested ${run.nestedSteps.at(-1)}`;
    return {
      ...time(`cold without a hierarchy, ${run.vertexCount}, friction ${friction}`, run),
      note: `${steps}; ${run.decimateSeconds.toFixed(2)} s for the levels ${unrest(run)}`,
    };
  });

/** @param {any} warm @returns {Target[]} */
function tries({ jumps, drags, yardstickSeconds }) {
  const dragged = drags.map((/** @type {any} */ run) => ({
    ...time(`dragged: ${run.change}, median of 7`, { ...run, yardstickSeconds }, [0.3, 0.3]),
    note: `slowest ${run.slowest.toFixed(2)} s ${unrest(run)}`,
  }));
  const jumped = jumps.map((/** @type {any} */ run) =>
    time(`tried at once: ${run.change}`, { ...run, yardstickSeconds }, [0.3, 0.3]),
  );
  return [...dragged, ...jumped];
}

/** @param {Bundles} bundles @returns {Target[]} */
export function measureTargets(bundles) {
  const bundle = bundles.targets;
  const torso = [10368, 41216, 98688].map((size) => once(bundle, 'torso', String(size)));
  const [small, middle, large] = torso;
  const growth = Math.log(large.seconds / small.seconds) / Math.log(large.vertexCount / small.vertexCount);
  return [
    time('cold, 10k vertices', small, [1, 0.6]),
    time('cold, 40k vertices', middle, [2.5, 1.5]),
    time('cold, 100k vertices', large, [6, 4]),
    { what: 'growth 10k to 100k', got: growth, must: 1, reach: 0.9, unit: 'exponent' },
    { what: 'process memory, 100k', got: large.memoryMb, must: 350, reach: 280, unit: 'MB' },
    time('cold with friction 0.3, 10k', once(bundle, 'torso', '10368', '0.3'), [2, 1.2]),
    time('cold on the flesh layer, demo study', once(bundle, 'flesh'), [2.5, 1.5]),
    ...tries(once(bundle, 'warm')),
    ...withoutHierarchy(bundle),
    ...besideCalculix(bundles),
    ...accuracy(bundles.accuracy),
  ];
}

/** @param {readonly Target[]} targets @param {number} yardstickSeconds */
export function printTargets(targets, yardstickSeconds) {
  console.log('Targets of the search for rest; times also as multiples of the yardstick of this run:');
  for (const { what, got, must, reach, unit, more = false, ratio, note = '' } of targets) {
    const meets = (/** @type {number | undefined} */ goal) =>
      goal !== undefined && (more ? got >= goal : got <= goal);
    const verdict = must === undefined ? '' : meets(reach) ? 'reached' : meets(must) ? 'met' : 'MISSED';
    const multiple = ratio === undefined ? '' : ` (${ratio.toFixed(1)} x)`;
    const value = `${got.toFixed(got < 10 ? 2 : 0)} ${unit}${multiple}`;
    const goals = must === undefined ? '' : `must ${must}, reach ${reach}`;
    console.log(
      `${verdict.padEnd(8)} ${what.padEnd(50)} ${value.padEnd(22)} ${goals.padEnd(22)} ${note}`.trimEnd(),
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
