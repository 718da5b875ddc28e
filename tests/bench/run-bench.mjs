/**
 * `npm run bench`: cold solves of the demo study at three mesh sizes, the targets of the search for rest, drapes of the demo fabrics and the fit of a long bench
 * sheet, each in a process of its own, 20 000 damaged mesh files, and the cost of a frame. Figures are given beside a yardstick of the same run, because machines differ and are shared.
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { build } from 'vite';
import { projectFolder } from '../../electron/launch/build.mjs';
import { findBrowser } from '../../electron/launch/find-browser.mjs';
import { measureTargets, printTargets } from './targets.mjs';

const into = path.join(projectFolder, 'dist/bench');

/** Edge lengths (mm) that give about 2,000, 10,000 and 40,000 vertices. */
const EDGES = [9, 4, 2];

/** Targets of the bench place: a drape of 3,000 vertices, a fit of a sheet as long as they come. */
const DRAPE_SECONDS = 3;
const FIT_SECONDS = 0.1;

/** @param {string} entry @param {boolean} forPage */
async function bundle(entry, forPage) {
  await build({
    configFile: false,
    root: projectFolder,
    logLevel: 'error',
    build: {
      outDir: into,
      emptyOutDir: false,
      minify: false,
      ...(forPage
        ? {
            lib: {
              entry: `tests/bench/${entry}.ts`,
              formats: ['iife'],
              name: 'bench',
              fileName: () => `${entry}.js`,
            },
          }
        : {
            ssr: `tests/bench/${entry}.ts`,
            target: 'node20',
            rollupOptions: { output: { entryFileNames: `${entry}.mjs` } },
          }),
    },
    ...(forPage ? {} : { ssr: { noExternal: true } }),
  });
}

/** @param {number} edge @param {number} friction */
function solveOnce(edge, friction) {
  const words = [path.join(into, 'solve-once.mjs'), String(edge), String(friction)];
  return JSON.parse(execFileSync(process.execPath, words, { cwd: projectFolder, encoding: 'utf8' }));
}

/** @param {string[]} words */
function drapeOnce(...words) {
  const all = [path.join(into, 'drape-once.mjs'), ...words];
  return JSON.parse(execFileSync(process.execPath, all, { cwd: projectFolder, encoding: 'utf8' }));
}

/** Seconds with multiples of the yardstick, and whether they stay below the target. */
const timed = (/** @type {number} */ seconds, /** @type {any} */ run, /** @type {number} */ target) =>
  `${seconds.toFixed(seconds < 1 ? 3 : 2)} s (${(seconds / run.yardstickSeconds).toFixed(1)} x)${seconds < target ? '' : `  OVER ${target} s`}`;

/** Slope of ln seconds against ln vertices between the first and the last run. */
const exponent = (/** @type {any[]} */ runs, /** @type {string} */ key) =>
  Math.log(runs.at(-1)[key] / runs[0][key]) / Math.log(runs.at(-1).vertexCount / runs[0].vertexCount);

mkdirSync(into, { recursive: true });
await bundle('solve-once', false);
console.log(
  'Cold runs of the demo study, one fabric, friction 0.5; seconds (and multiples of the yardstick):',
);
console.log('vertices   body  garment  settle          Newton  linear  residual  memory');
const runs = EDGES.map((edge) => {
  const run = solveOnce(edge, 0.5);
  const multiple = (run.settleSeconds / run.yardstickSeconds).toFixed(0);
  console.log(
    [
      String(run.vertexCount).padStart(8),
      run.bodySeconds.toFixed(2).padStart(6),
      run.garmentSeconds.toFixed(2).padStart(8),
      `${run.settleSeconds.toFixed(2).padStart(7)} (${multiple} x)`.padEnd(16),
      String(run.newtonSteps).padStart(6),
      String(run.linearIterations).padStart(7),
      run.residual.toExponential(1).padStart(9),
      `${run.memoryMb.toFixed(0)} MB${run.atRest ? '' : '  NOT AT REST'}`.padStart(8),
    ].join(' '),
  );
  return run;
});
console.log(`settling grows as vertices ^ ${exponent(runs, 'settleSeconds').toFixed(2)}\n`);

for (const entry of ['targets-once', 'hourglass-once', 'hourglass-deck', 'accuracy-once'])
  await bundle(entry, false);
const bundled = (/** @type {string} */ entry) => path.join(into, `${entry}.mjs`);
printTargets(
  measureTargets({
    targets: bundled('targets-once'),
    hourglass: bundled('hourglass-once'),
    deck: bundled('hourglass-deck'),
    accuracy: bundled('accuracy-once'),
    work: path.join(into, 'calculix'),
  }),
  runs[0].yardstickSeconds,
);
console.log('');

await bundle('drape-once', false);
console.log(`Cold drape over a round table, target below ${DRAPE_SECONDS} s:`);
for (const name of ['plover-185', 'tern-210', 'siskin-160']) {
  const run = drapeOnce('drape', name);
  console.log(
    [
      `${name.padEnd(10)} ${run.vertexCount} vertices`,
      timed(run.drapeSeconds, run, DRAPE_SECONDS),
      `${run.steps.join(' + ')} steps`,
      `residual ${run.residual.toExponential(1)}${run.atRest ? '' : '  NOT AT REST'}`,
      `drape coefficient ${(100 * run.drapeCoefficient).toFixed(1)} %, ${run.foldCount} folds`,
    ].join(', '),
  );
}
const fit = drapeOnce('fit');
console.log(
  `Fit of ${fit.readingCount} readings (500 x 3 specimens x 3 directions, load and return), target below ${FIT_SECONDS} s:`,
);
console.log(
  `cold ${timed(fit.coldSeconds, fit, FIT_SECONDS)}; warm ${timed(fit.warmSeconds, fit, FIT_SECONDS)}\n`,
);

await bundle('damaged-meshes-once', false);
console.log('Damaged mesh files (OBJ, PLY, STL, glTF), each read and made a body of where it can be:');
try {
  const words = [path.join(into, 'damaged-meshes-once.mjs')];
  const run = JSON.parse(execFileSync(process.execPath, words, { cwd: projectFolder, encoding: 'utf8' }));
  const told = Object.entries(run.outcomes).map(([outcome, count]) => `${count} ${outcome}`);
  console.log(`${run.count} files in ${run.seconds.toFixed(0)} s: ${told.join(', ')}; no other failure\n`);
} catch (error) {
  console.log(`FAILED: ${/** @type {any} */ (error).stdout ?? error}\n`);
}

const browserPath = findBrowser();
if (browserPath === null) {
  console.log('No browser was found: the cost of a frame was not measured.');
} else {
  await bundle('frame-cost', true);
  const browser = await chromium.launch({
    executablePath: browserPath,
    args: ['--no-sandbox', '--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'],
  });
  const page = await browser.newPage();
  await page.addScriptTag({ content: readFileSync(path.join(into, 'frame-cost.js'), 'utf8') });
  console.log(
    'Cost of a frame at 1280 x 800, drawn in software, ms: painted form / same meshes plain = ratio',
  );
  for (const edge of EDGES) {
    const cost = await page.evaluate(
      (wanted) => /** @type {any} */ (globalThis).frameCost(wanted / 1000),
      edge,
    );
    const ratio = (cost.ours / cost.bare).toFixed(2);
    console.log(
      `${String(cost.vertexCount).padStart(8)} vertices: ${cost.ours.toFixed(1)} / ${cost.bare.toFixed(1)} = ${ratio}`,
    );
  }
  await browser.close();
}
