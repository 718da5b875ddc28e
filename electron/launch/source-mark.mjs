import { createHash } from 'node:crypto';
import { existsSync, readFileSync, readdirSync, statSync } from 'node:fs';
import path from 'node:path';

/**
 * A mark that changes when any of these sources does: the hash of every file's name and content.
 * Content, not time of change: a checkout that touches every file must not rebuild anything.
 *
 * @param {string} root
 * @param {readonly string[]} sources - Files and folders, relative to `root`; a missing one counts as such.
 * @returns {string}
 */
export function sourceMark(root, sources) {
  const hash = createHash('sha256');
  for (const name of sources.flatMap((source) => filesOf(root, source)).sort()) {
    hash.update(`${name}\0`);
    const file = path.join(root, name);
    hash.update(existsSync(file) ? createHash('sha256').update(readFileSync(file)).digest() : 'missing');
  }
  return hash.digest('hex');
}

/**
 * @param {string} root
 * @param {string} source
 * @returns {string[]}
 */
function filesOf(root, source) {
  const place = path.join(root, source);
  if (!existsSync(place) || !statSync(place).isDirectory()) return [source];
  return readdirSync(place, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory() ? filesOf(root, `${source}/${entry.name}`) : [`${source}/${entry.name}`],
  );
}
