import { readdir } from 'node:fs/promises';
import path from 'node:path';

/**
 * What a page of ours may do, as one header line. Both shells send it with every answer.
 *
 * @see W3C Content Security Policy Level 3, section 6 (the directives)
 */
export const contentSecurityPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "worker-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "font-src 'self'",
  "connect-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

/**
 * The headers both shells put on every answer: the policy, no guessing of types, nothing kept, no address passed on.
 *
 * @type {Readonly<Record<string, string>>}
 */
export const guardHeaders = {
  'Content-Security-Policy': contentSecurityPolicy,
  'X-Content-Type-Options': 'nosniff',
  'X-Frame-Options': 'DENY',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Cache-Control': 'no-store',
};

/** @type {Readonly<Record<string, string>>} */
const mediaTypes = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.csv': 'text/csv; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.obj': 'text/plain; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
  '.glb': 'model/gltf-binary',
};

/**
 * The media type by a file's ending; plain bytes where the ending is not one of ours.
 *
 * @param {string} file
 */
export const mediaType = (file) => mediaTypes[path.extname(file).toLowerCase()] ?? 'application/octet-stream';

/**
 * The file under `root` that a relative request path means, or null where it would leave `root` or is no plain path:
 * `..` and `.` steps, encoded or not, backslashes, drive letters, NUL and broken percent signs.
 * Decodes once: what is encoded twice stays a name with a percent sign in it and is simply not there.
 *
 * @param {string} root - Absolute folder.
 * @param {string} requestPath - As it came, without a leading slash and without the query.
 * @returns {string | null}
 */
export function fileUnder(root, requestPath) {
  const decoded = decodedOnce(requestPath);
  if (decoded === null || decoded === '') return null;
  // A colon would be a drive or an alternate stream on Windows; no file of ours has one.
  if (/[\\:\0]/.test(decoded)) return null;
  if (decoded.split('/').some((step) => step === '' || step === '.' || step === '..')) return null;
  return path.join(root, decoded);
}

/**
 * @param {string} text
 * @returns {string | null}
 */
function decodedOnce(text) {
  try {
    return decodeURIComponent(text);
  } catch {
    return null;
  }
}

/**
 * Every file under a folder, relative, with forward slashes, in alphabetical order; none where the folder is missing.
 * Goes down by itself: inside a packed program Node's own recursive listing is not to be relied on.
 *
 * @param {string} folder
 * @returns {Promise<string[]>}
 */
export async function filesIn(folder) {
  /** @type {import('node:fs').Dirent[]} */
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  const lists = await Promise.all(
    entries.map(async (entry) => {
      if (!entry.isDirectory()) return entry.isFile() ? [entry.name] : [];
      return (await filesIn(path.join(folder, entry.name))).map((name) => `${entry.name}/${name}`);
    }),
  );
  return lists.flat().sort();
}
