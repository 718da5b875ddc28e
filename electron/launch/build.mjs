import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

import { sourceMark } from './source-mark.mjs';
import { takeTurns } from './take-turns.mjs';

/** @typedef {'renderer' | 'electron' | 'headless'} Target */
/** @typedef {{ readonly sources: readonly string[], readonly makes: readonly string[], readonly build: (root: string) => Promise<unknown> }} Recipe */

export const projectFolder = fileURLToPath(new URL('../../', import.meta.url));

/** Every recipe hangs on these too. */
const always = ['package-lock.json', 'electron/launch/build.mjs'];

/**
 * What is built, from what, into what.
 *
 * @type {Readonly<Record<Target, Recipe>>}
 */
const recipes = {
  renderer: {
    sources: ['core', 'renderer', 'electron/contract.ts', ...always],
    makes: ['dist/renderer/index.html'],
    build: buildRenderer,
  },
  electron: {
    sources: ['electron', ...always],
    makes: ['dist/electron/main.js', 'dist/electron/preload.cjs'],
    build: async (root) => {
      await buildForNode(root, { entry: 'electron/main.ts', into: 'dist/electron/main.js' });
      await buildForNode(root, { entry: 'electron/preload.ts', into: 'dist/electron/preload.cjs' });
    },
  },
  headless: {
    sources: ['core', 'electron/headless', 'electron/write-whole.ts', ...always],
    makes: ['dist/headless/snugfield.js'],
    build: (root) =>
      buildForNode(root, { entry: 'electron/headless/main.ts', into: 'dist/headless/snugfield.js' }),
  },
};

/** @type {readonly Target[]} */
export const allTargets = ['renderer', 'electron', 'headless'];

/**
 * Builds those targets whose sources have changed since they were built last. Two calls at once take turns.
 *
 * @param {readonly Target[]} targets
 * @param {{ readonly force?: boolean, readonly say?: (line: string) => void }} [options] - `say` hears one line per target built.
 * @returns {Promise<Target[]>} What was built.
 */
export async function buildStale(targets, { force = false, say = () => {} } = {}) {
  const root = projectFolder;
  if (!force && targets.every((target) => isFresh(root, target))) return [];
  mkdirSync(path.join(root, 'dist'), { recursive: true });
  return takeTurns(path.join(root, 'dist/.building'), async () => {
    /** @type {Target[]} */
    const built = [];
    for (const target of targets) {
      if (!force && isFresh(root, target)) continue;
      say(`Building ${target} ...`);
      // Read before building: a file saved meanwhile makes the result stale again.
      const mark = sourceMark(root, recipes[target].sources);
      rmSync(markFile(root, target), { force: true });
      // Targets share the machine's two or four cores with vite's own threads, so one after another.
      // oxlint-disable-next-line no-await-in-loop
      await recipes[target].build(root);
      writeFileSync(markFile(root, target), mark);
      built.push(target);
    }
    return built;
  });
}

/**
 * @param {string} root
 * @param {Target} target
 */
function isFresh(root, target) {
  const { sources, makes } = recipes[target];
  const mark = markFile(root, target);
  return (
    existsSync(mark) &&
    makes.every((file) => existsSync(path.join(root, file))) &&
    readFileSync(mark, 'utf8') === sourceMark(root, sources)
  );
}

/**
 * @param {string} root
 * @param {Target} target
 */
const markFile = (root, target) => path.join(root, `dist/.${target}-built-from`);

/** @param {string} root */
async function buildRenderer(root) {
  const { build } = await import('vite');
  await build({
    configFile: path.join(root, 'renderer/vite.config.ts'),
    root: path.join(root, 'renderer'),
    // Relative addresses: the page lives under a token in the browser and under a scheme of its own in Electron.
    base: './',
    // Warnings would be lost on whoever only starts the program: a package's Node half, left out here, causes some.
    logLevel: 'error',
    build: { outDir: path.join(root, 'dist/renderer'), emptyOutDir: true, chunkSizeWarningLimit: 4000 },
  });
}

/**
 * One file for Node with everything in it but Node and Electron: what is packed needs no node_modules.
 *
 * @param {string} root
 * @param {{ readonly entry: string, readonly into: string }} files - A `.cjs` ending asks for CommonJS.
 */
async function buildForNode(root, { entry, into }) {
  const { build } = await import('vite');
  await build({
    configFile: false,
    root,
    logLevel: 'warn',
    publicDir: false,
    ssr: { noExternal: true, external: ['electron'] },
    build: {
      ssr: path.join(root, entry),
      target: 'node20',
      minify: false,
      outDir: path.join(root, path.dirname(into)),
      emptyOutDir: false,
      rolldownOptions: {
        external: ['electron'],
        output: {
          format: into.endsWith('.cjs') ? 'cjs' : 'esm',
          entryFileNames: path.basename(into),
          codeSplitting: false,
        },
      },
    },
  });
}

/** @param {readonly string[]} words */
async function fromCommandLine(words) {
  const force = words.includes('--force');
  const unknown = words.find((word) => word !== '--force' && !allTargets.some((target) => target === word));
  if (unknown !== undefined) {
    console.error(
      `"${unknown}" cannot be built. Name any of ${allTargets.join(', ')}, or none for all; --force builds what is fresh too.`,
    );
    process.exitCode = 2;
    return;
  }
  const named = allTargets.filter((target) => words.includes(target));
  const targets = named.length > 0 ? named : allTargets;
  const built = await buildStale(targets, { force, say: console.log });
  if (built.length === 0) console.log('Nothing has changed since the last build.');
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  await fromCommandLine(process.argv.slice(2));
}
