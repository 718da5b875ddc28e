import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

/** A download that has brought nothing new for this long will not come. */
const patience = 8000;
const glance = 500;

/**
 * Electron's program. Its npm package comes without it and fetches it when first asked, which a closed network forbids:
 * then, within seconds, the answer is null.
 *
 * @param {string} packageFolder - `node_modules/electron`.
 * @param {(line: string) => void} say - Hears when the first bytes have come.
 * @returns {Promise<string | null>}
 */
export async function electronRuntime(packageFolder, say) {
  const there = installedRuntime(packageFolder);
  if (there !== null || !existsSync(path.join(packageFolder, 'install.js'))) return there;
  return (await fetchRuntime(packageFolder, say)) ? installedRuntime(packageFolder) : null;
}

/**
 * @param {string} packageFolder
 * @returns {string | null}
 */
function installedRuntime(packageFolder) {
  const note = path.join(packageFolder, 'path.txt');
  if (!existsSync(note)) return null;
  const folder = process.env['ELECTRON_OVERRIDE_DIST_PATH'] ?? path.join(packageFolder, 'dist');
  const program = path.join(folder, readFileSync(note, 'utf8').trim());
  return existsSync(program) ? program : null;
}

/**
 * Runs the package's own download, as long as bytes keep coming. They come into a temporary folder, which we name so that
 * we can watch it grow; this works with every mirror and proxy the package knows of.
 *
 * @param {string} packageFolder
 * @param {(line: string) => void} say
 * @returns {Promise<boolean>}
 */
async function fetchRuntime(packageFolder, say) {
  const landing = mkdtempSync(path.join(tmpdir(), 'snugfield-electron-'));
  const env = { ...process.env, TMPDIR: landing, TEMP: landing, TMP: landing };
  const child = spawn(process.execPath, [path.join(packageFolder, 'install.js')], { env, stdio: 'ignore' });
  let size = 0;
  let lastGrowth = Date.now();
  const watch = setInterval(() => {
    const now = sizeOf(landing) + sizeOf(path.join(packageFolder, 'dist'));
    if (size === 0 && now > 0) say('Fetching the Electron runtime (once, about 110 MB) ...');
    if (now !== size) lastGrowth = Date.now();
    size = now;
    if (Date.now() - lastGrowth > patience) child.kill();
  }, glance);
  try {
    return await new Promise((resolve) => {
      child.once('error', () => resolve(false));
      child.once('exit', (code) => resolve(code === 0));
    });
  } finally {
    clearInterval(watch);
    rmSync(landing, { recursive: true, force: true });
  }
}

/**
 * Bytes in a folder and all below; files that vanish while it is read count nothing.
 *
 * @param {string} folder
 * @returns {number}
 */
function sizeOf(folder) {
  if (!existsSync(folder)) return 0;
  let sum = 0;
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (entry.isFile())
      sum += statSync(path.join(entry.parentPath, entry.name), { throwIfNoEntry: false })?.size ?? 0;
  }
  return sum;
}
