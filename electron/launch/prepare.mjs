import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const projectFolder = fileURLToPath(new URL('../../', import.meta.url));
const oldestNode = [20, 19];

/**
 * What to tell a person whose Node is too old; null where it is new enough.
 *
 * @param {string} version - As `process.versions.node` has it.
 * @returns {string | null}
 */
export function nodeComplaint(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  const [wantedMajor = 0, wantedMinor = 0] = oldestNode;
  if (major > wantedMajor || (major === wantedMajor && minor >= wantedMinor)) return null;
  return `Snugfield needs Node ${oldestNode.join('.')} or newer and this is ${version}. Install a current Node from https://nodejs.org and start again.`;
}

/** @typedef {{ readonly packages?: Record<string, { readonly version?: string, readonly optional?: boolean }> }} Lock */

/**
 * Whether what is installed is what the lock file asks for. npm keeps its own list of what it installed in
 * `node_modules/.package-lock.json`; comparing the two lists, unlike comparing file times, survives a fresh checkout.
 *
 * @param {Lock} wanted - The project's lock file.
 * @param {Lock | null} installed - npm's own list; null where nothing is installed.
 */
export function isInstalled(wanted, installed) {
  const have = installed?.packages;
  if (!have) return false;
  return Object.entries(wanted.packages ?? {}).every(([folder, { version, optional }]) => {
    // The project itself, and optional packages made for other machines.
    if (folder === '' || (optional && !have[folder])) return true;
    return have[folder] !== undefined && have[folder].version === version;
  });
}

/**
 * @param {string} file
 * @returns {Lock | null}
 */
function readLock(file) {
  return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : null;
}

/**
 * Checks Node and installs the packages if they are missing or not those of the lock file.
 * Everything goes to stderr, so that a command's own output stays clean.
 *
 * @returns {number} Exit code; 0 when all is there.
 */
export function prepare() {
  const complaint = nodeComplaint(process.versions.node);
  if (complaint) {
    console.error(complaint);
    return 1;
  }
  const wanted = readLock(path.join(projectFolder, 'package-lock.json'));
  if (!wanted) {
    console.error('package-lock.json is missing: this folder is not a whole copy of the project.');
    return 1;
  }
  if (isInstalled(wanted, readLock(path.join(projectFolder, 'node_modules/.package-lock.json')))) return 0;
  console.error('Installing the packages (once, a minute or three) ...');
  return install();
}

/** @returns {number} Exit code. */
function install() {
  // Under npm this is npm's own script, which starts the same way on every system; `npm` by name needs a shell on Windows.
  const npmScript = process.env['npm_execpath'];
  const byScript = npmScript !== undefined && /\.c?js$/.test(npmScript);
  const words = ['ci', '--include=dev', '--no-audit', '--no-fund', '--loglevel=error'];
  const { status, stdout, stderr, error } = spawnSync(
    byScript ? process.execPath : 'npm',
    byScript ? [npmScript, ...words] : words,
    {
      cwd: projectFolder,
      encoding: 'utf8',
      shell: !byScript && process.platform === 'win32',
      maxBuffer: 2 ** 26,
    },
  );
  if (status === 0) return 0;
  process.stderr.write(`${stdout ?? ''}${stderr ?? ''}`);
  console.error(
    `The packages could not be installed${error ? ` (${error.message})` : ''}. With a network connection, "npm ci" in this folder tries again.`,
  );
  return status ?? 1;
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) process.exitCode = prepare();
