import { randomBytes, timingSafeEqual } from 'node:crypto';
import { readFile, realpath } from 'node:fs/promises';
import { createServer } from 'node:http';
import path from 'node:path';

import { fileUnder, filesIn, guardHeaders, mediaType } from './served-files.mjs';

/** @typedef {{ readonly status: number, readonly headers: Record<string, string>, readonly body: string | Buffer }} Answer */
/** @typedef {{ readonly page: string, readonly demo: string }} Folders */
/** @typedef {{ readonly address: string, readonly port: number, readonly close: () => Promise<void> }} LoopbackHost */

/**
 * Below the range from which systems hand out free ports: 32768 and up on Linux, 49152 and up elsewhere.
 *
 * @see ip-sysctl, ip_local_port_range; RFC 6335, section 6
 */
const usualPort = 23_917;

/**
 * Serves on the usual port, where the browser finds again what it remembered there, or else on a free one.
 *
 * @param {Folders & { readonly usual?: number }} options
 * @returns {Promise<LoopbackHost & { readonly isUsual: boolean }>}
 */
export async function startUsualHost({ usual = usualPort, ...folders }) {
  try {
    return { ...(await startLoopbackHost({ ...folders, port: usual })), isUsual: true };
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : '';
    // EACCES: Windows keeps ranges of ports for itself.
    if (code !== 'EADDRINUSE' && code !== 'EACCES') throw error;
    return { ...(await startLoopbackHost(folders)), isUsual: false };
  }
}

/**
 * Serves the built page and the demo study to this machine only. It reads two folders and does nothing else.
 *
 * Every path starts with a random token, so that another page or another user of the machine cannot guess the address;
 * a request that names any other host is refused, so that no foreign domain name can be pointed at it (DNS rebinding).
 *
 * @param {Folders & { readonly port?: number }} options - Absolute folders; port 0, the default, takes a free one.
 * @returns {Promise<LoopbackHost>}
 */
export async function startLoopbackHost({ page, demo, port = 0 }) {
  const token = randomBytes(24).toString('base64url');
  const server = createServer((request, response) => {
    void respond(request, response, { token, port: listeningPort(server) });
  });
  /**
   * @param {import('node:http').IncomingMessage} request
   * @param {import('node:http').ServerResponse} response
   * @param {{ readonly token: string, readonly port: number }} door
   */
  async function respond(request, response, door) {
    const { method = '', url = '' } = request;
    const asked = { method, url, host: request.headers.host ?? '' };
    const answer = await answerTo(asked, door, { page, demo }).catch(() =>
      plain(500, 'The file could not be read.'),
    );
    const { status, headers, body } = answer;
    const length = String(Buffer.byteLength(body));
    response.writeHead(status, { ...guardHeaders, 'Content-Length': length, ...headers });
    response.end(method === 'HEAD' ? undefined : body);
  }
  await new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => resolve(undefined));
  });
  const taken = listeningPort(server);
  return {
    address: `http://127.0.0.1:${taken}/${token}/`,
    port: taken,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

/** @param {import('node:http').Server} server */
function listeningPort(server) {
  const address = server.address();
  return typeof address === 'object' && address !== null ? address.port : 0;
}

/**
 * What one request gets.
 *
 * @param {{ readonly method: string, readonly url: string, readonly host: string }} request - Path and Host header as they came.
 * @param {{ readonly token: string, readonly port: number }} door
 * @param {Folders} folders
 * @returns {Promise<Answer>}
 */
export async function answerTo({ method, url, host }, { token, port }, folders) {
  if (host !== `127.0.0.1:${port}` && host !== `localhost:${port}`) {
    return plain(421, 'This address serves this machine only.');
  }
  if (method !== 'GET' && method !== 'HEAD') return plain(405, 'Only GET and HEAD.', { Allow: 'GET, HEAD' });
  const [given = '', ...rest] = (url.split(/[?#]/, 1)[0] ?? '').replace(/^\//, '').split('/');
  if (!sameText(given, token)) return plain(403, 'The address is not complete: open it as it was printed.');
  // Without the last slash the page's relative addresses would lose the token.
  if (rest.length === 0) return plain(308, 'Here.', { Location: `/${token}/` });
  const wanted = rest.join('/');
  if (wanted === 'demo/files.json') {
    return { status: 200, headers: typed('x.json'), body: JSON.stringify(await filesIn(folders.demo)) };
  }
  return wanted.startsWith('demo/')
    ? fileAnswer(folders.demo, wanted.slice('demo/'.length))
    : fileAnswer(folders.page, wanted === '' ? 'index.html' : wanted);
}

/**
 * @param {string} root
 * @param {string} wanted
 * @returns {Promise<Answer>}
 */
async function fileAnswer(root, wanted) {
  const file = fileUnder(root, wanted);
  if (file === null) return plain(400, 'No such path.');
  try {
    // A link inside the folder must not lead out of it.
    const [realFile, realRoot] = await Promise.all([realpath(file), realpath(root)]);
    if (!realFile.startsWith(realRoot + path.sep)) return plain(404, 'Not here.');
    return { status: 200, headers: typed(file), body: await readFile(realFile) };
  } catch {
    return plain(404, 'Not here.');
  }
}

/** @param {string} file */
const typed = (file) => ({ 'Content-Type': mediaType(file) });

/**
 * @param {number} status
 * @param {string} words
 * @param {Record<string, string>} [headers]
 * @returns {Answer}
 */
const plain = (status, words, headers = {}) => ({
  status,
  headers: { ...typed('x.txt'), ...headers },
  body: `${words}\n`,
});

/**
 * Compares without telling by its duration how much was right.
 *
 * @param {string} given
 * @param {string} wanted
 */
function sameText(given, wanted) {
  const [a, b] = [Buffer.from(given), Buffer.from(wanted)];
  return a.length === b.length && timingSafeEqual(a, b);
}
