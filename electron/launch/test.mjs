import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

import { projectFolder } from './build.mjs';
import { findBrowser } from './find-browser.mjs';

/** @typedef {{ readonly passed: number, readonly failed: number, readonly skipped: number }} Tally */
/** @typedef {{ readonly code: number | null, readonly output: string }} Ended */
/** @typedef {{ readonly name: string, readonly run: () => Promise<{ readonly tally: Tally, readonly output: string }> }} Stage */

/**
 * What vitest's JSON report says, counted. A test file that could not even be read counts as one failed check, and so does
 * a run that ends badly without any failure in its report, or without a report.
 *
 * @param {string | null} report - The report's text; null where none was written.
 * @param {number | null} code - Vitest's exit code.
 * @returns {Tally}
 */
export function tallyOf(report, code) {
  if (report === null) return { passed: 0, failed: 1, skipped: 0 };
  /** @type {{ testResults: { status: string, assertionResults: { status: string }[] }[] }} */
  const { testResults } = JSON.parse(report);
  const all = testResults.flatMap(({ assertionResults }) => assertionResults.map(({ status }) => status));
  const count = (/** @type {string} */ wanted) => all.filter((status) => status === wanted).length;
  const unreadable = testResults.filter(
    ({ status, assertionResults }) =>
      status === 'failed' && assertionResults.every((result) => result.status !== 'failed'),
  ).length;
  const passed = count('passed');
  const told = count('failed') + unreadable;
  const failed = told === 0 && code !== 0 ? 1 : told;
  return { passed, failed, skipped: all.length - passed - count('failed') };
}

/**
 * Runs a program of this project's packages and collects what it says.
 *
 * @param {string} script - Path of a JavaScript file, relative to the project.
 * @param {readonly string[]} words
 * @returns {Promise<Ended>}
 */
function runScript(script, words) {
  const child = spawn(process.execPath, [path.join(projectFolder, script), ...words], {
    cwd: projectFolder,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, NO_COLOR: '1', FORCE_COLOR: undefined },
  });
  let output = '';
  child.stdout.setEncoding('utf8').on('data', (text) => (output += text));
  child.stderr.setEncoding('utf8').on('data', (text) => (output += text));
  return new Promise((resolve) => {
    child.once('error', (error) => resolve({ code: null, output: error.message }));
    child.once('close', (code) => resolve({ code, output }));
  });
}

/**
 * A stage that passes or fails as a whole: one check.
 *
 * @param {string} name
 * @param {string} script
 * @param {readonly string[]} words
 * @returns {Stage}
 */
const checkStage = (name, script, words) => ({
  name,
  run: async () => {
    const { code, output } = await runScript(script, words);
    return { tally: { passed: code === 0 ? 1 : 0, failed: code === 0 ? 0 : 1, skipped: 0 }, output };
  },
});

/**
 * A stage of many tests.
 *
 * @param {string} name
 * @param {string} project - As vitest.config.ts names it.
 * @returns {Stage}
 */
const vitestStage = (name, project) => ({
  name,
  run: async () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'snugfield-test-'));
    const report = path.join(folder, 'report.json');
    try {
      const { code, output } = await runScript('node_modules/vitest/vitest.mjs', [
        'run',
        '--project',
        project,
        '--reporter=default',
        '--reporter=json',
        `--outputFile.json=${report}`,
      ]);
      return { tally: tallyOf(readIfThere(report), code), output };
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
});

/** @param {string} file */
function readIfThere(file) {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return null;
  }
}

/** The end-to-end tests need a browser; without one that is said, and counts as a failed check. */
const endToEnd = () =>
  findBrowser() === null
    ? {
        name: 'end to end',
        run: async () => ({
          tally: { passed: 0, failed: 1, skipped: 0 },
          output:
            'No Chrome, Edge or Chromium was found. Install one, or name one in the environment variable SNUGFIELD_BROWSER.',
        }),
      }
    : vitestStage('end to end', 'e2e');

const folders = ['core', 'renderer', 'electron', 'tests'];

/** @returns {Stage[]} */
const stages = () => [
  ...folders.map((folder) =>
    checkStage(`types in ${folder}`, 'node_modules/typescript/bin/tsc', ['-p', folder]),
  ),
  checkStage('lint', 'node_modules/oxlint/bin/oxlint', [
    '-c',
    'oxlint.config.mjs',
    '--type-aware',
    '--deny-warnings',
    ...folders,
  ]),
  checkStage('format', 'node_modules/prettier/bin/prettier.cjs', ['--check', '--log-level', 'warn', '.']),
  vitestStage('unit and reference', 'unit'),
  checkStage('build', 'electron/launch/build.mjs', []),
  endToEnd(),
];

/**
 * Says how a stage went, and if badly, all that it said.
 *
 * @param {Tally} tally
 * @param {string} output
 * @param {number} milliseconds
 */
function sayResult({ passed, failed, skipped }, output, milliseconds) {
  const counts = [
    passed > 0 ? `${passed} passed` : '',
    failed > 0 ? `${failed} failed` : '',
    skipped > 0 ? `${skipped} skipped` : '',
  ].filter((text) => text !== '');
  console.log(`${counts.join(', ') || 'nothing to check'}  (${(milliseconds / 1000).toFixed(1)} s)`);
  if (failed > 0) console.log(`\n${output.trimEnd()}\n`);
}

async function runAll() {
  let passed = 0;
  let failed = 0;
  for (const { name, run } of stages()) {
    process.stdout.write(name.padEnd(20));
    const started = Date.now();
    // oxlint-disable-next-line no-await-in-loop -- each stage wants the whole machine
    const { tally, output } = await run();
    sayResult(tally, output, Date.now() - started);
    passed += tally.passed;
    failed += tally.failed;
  }
  console.log(`${passed} passed, ${failed} failed`);
  process.exitCode = failed === 0 ? 0 : 1;
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) await runAll();
