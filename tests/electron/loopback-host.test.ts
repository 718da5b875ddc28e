/** What the loopback host gives and refuses, asked over real sockets with requests that `fetch` would tidy up first. */
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import path from 'node:path';

import { afterAll, beforeAll, describe, expect, it } from 'vitest';

import { startLoopbackHost, startUsualHost } from '../../electron/launch/loopback-host.mjs';

const folder = mkdtempSync(path.join(tmpdir(), 'loopback-'));
let host: Awaited<ReturnType<typeof startLoopbackHost>>;
let port: number;
let token: string;

interface Asked {
  readonly path: string;
  readonly method?: string;
  readonly host?: string;
}

/** Sends a request line exactly as written. */
const ask = ({ path: line, method = 'GET', host: named = `127.0.0.1:${port}` }: Asked) =>
  new Promise<{ status: number; headers: NodeJS.Dict<string | string[]>; body: string }>(
    (resolve, reject) => {
      const asking = request(
        { port, host: '127.0.0.1', path: line, method, headers: { host: named } },
        (answer) => {
          let body = '';
          answer.setEncoding('utf8').on('data', (text: string) => (body += text));
          answer.on('end', () => {
            resolve({ status: answer.statusCode ?? 0, headers: answer.headers, body });
          });
        },
      );
      asking.once('error', reject);
      asking.end();
    },
  );

beforeAll(async () => {
  mkdirSync(path.join(folder, 'page/assets'), { recursive: true });
  mkdirSync(path.join(folder, 'demo/fabrics'), { recursive: true });
  writeFileSync(path.join(folder, 'page/index.html'), '<!doctype html><title>page</title>');
  writeFileSync(path.join(folder, 'page/assets/main.js'), 'export {};');
  writeFileSync(path.join(folder, 'page/assets/a b.svg'), '<svg/>');
  writeFileSync(path.join(folder, 'demo/study.json'), '{}');
  writeFileSync(path.join(folder, 'demo/fabrics/one.json'), '{"one":1}');
  writeFileSync(path.join(folder, 'secret.txt'), 'secret');
  symlinkSync(path.join(folder, 'secret.txt'), path.join(folder, 'page/link.txt'));
  host = await startLoopbackHost({ page: path.join(folder, 'page'), demo: path.join(folder, 'demo') });
  const { port: given, pathname, hostname } = new URL(host.address);
  expect(hostname).toBe('127.0.0.1');
  port = Number(given);
  token = pathname.slice(1, -1);
});

afterAll(async () => {
  await host.close();
  rmSync(folder, { recursive: true });
});

describe('the loopback host', () => {
  it('makes a token of at least 128 bits, new at each start', async () => {
    const other = await startLoopbackHost({ page: folder, demo: folder });
    const otherToken = new URL(other.address).pathname.slice(1, -1);
    await other.close();
    expect(Buffer.from(token, 'base64url').length).toBeGreaterThanOrEqual(16);
    expect(otherToken).not.toBe(token);
  });

  it('serves on the usual port, and on a free one while that is taken', async () => {
    const folders = { page: folder, demo: folder };
    const second = await startUsualHost({ ...folders, usual: port });
    expect(second.isUsual).toBe(false);
    expect([0, port]).not.toContain(second.port);
    await second.close();
    const again = await startUsualHost({ ...folders, usual: second.port });
    expect([again.isUsual, again.port]).toEqual([true, second.port]);
    expect(again.address).not.toBe(second.address);
    await again.close();
  });

  it('serves the page, its parts and the demo with their types', async () => {
    const [page, script, drawing, list, sheet] = await Promise.all(
      ['', 'assets/main.js', 'assets/a%20b.svg', 'demo/files.json', 'demo/fabrics/one.json?again'].map(
        (part) => ask({ path: `/${token}/${part}` }),
      ),
    );
    expect([page!.status, page!.headers['content-type']]).toEqual([200, 'text/html; charset=utf-8']);
    expect([script!.status, script!.headers['content-type']]).toEqual([
      200,
      'text/javascript; charset=utf-8',
    ]);
    expect([drawing!.status, drawing!.headers['content-type']]).toEqual([200, 'image/svg+xml']);
    expect(JSON.parse(list!.body)).toEqual(['fabrics/one.json', 'study.json']);
    expect(JSON.parse(sheet!.body)).toEqual({ one: 1 });
  });

  it('answers HEAD with the length and no body', async () => {
    const { status, headers, body } = await ask({ path: `/${token}/assets/main.js`, method: 'HEAD' });
    expect([status, headers['content-length'], body]).toEqual([200, '10', '']);
  });

  it('sends guard headers with every answer, refusals too', async () => {
    const answers = await Promise.all(
      [`/${token}/`, `/${token}/nothing`, '/', `/${token}/%2e%2e/secret.txt`].map((line) =>
        ask({ path: line }),
      ),
    );
    for (const { headers } of answers) {
      expect(headers['content-security-policy']).toContain("default-src 'none'");
      expect(headers['content-security-policy']).not.toMatch(/unsafe-(inline|eval)/);
      expect(headers['x-content-type-options']).toBe('nosniff');
      expect(headers['cache-control']).toBe('no-store');
      expect(headers['referrer-policy']).toBe('no-referrer');
    }
  });

  it('refuses without the token, and with a wrong one', async () => {
    const wrong = `${token.slice(0, -1)}${token.endsWith('A') ? 'B' : 'A'}`;
    const lines = [
      '/',
      '/index.html',
      '/demo/study.json',
      `/${wrong}/`,
      `/${token.slice(1)}/`,
      `/x/${token}/`,
      `//${token}/`,
    ];
    for (const line of lines) expect([line, (await ask({ path: line })).status]).toEqual([line, 403]);
  });

  it('refuses a foreign Host header, so that no domain name can be pointed at it', async () => {
    for (const named of [
      'example.com',
      `example.com:${port}`,
      '127.0.0.1',
      `127.0.0.1:${port + 1}`,
      `127.0.0.1.example.com:${port}`,
    ]) {
      expect([named, (await ask({ path: `/${token}/`, host: named })).status]).toEqual([named, 421]);
    }
    expect((await ask({ path: `/${token}/`, host: `localhost:${port}` })).status).toBe(200);
  });

  it('lets no path out of its folders, however it is written', async () => {
    const escapes = [
      '../secret.txt',
      '%2e%2e/secret.txt',
      '%2E%2E%2Fsecret.txt',
      'assets/../../secret.txt',
      'assets/%2e%2e/%2e%2e/secret.txt',
      '..%5csecret.txt',
      String.raw`..\secret.txt`,
      '%252e%252e/secret.txt',
      'demo/../../secret.txt',
      'demo/%2e%2e/%2e%2e/secret.txt',
      'demo/%2e%2e%2f%2e%2e%2fsecret.txt',
      './secret.txt',
      'assets//main.js',
      '%00secret.txt',
      'index.html%00.txt',
      '%zz',
      'C:/secret.txt',
      'index.html::$DATA',
      'link.txt',
      'assets',
    ];
    for (const escape of escapes) {
      const { status, body } = await ask({ path: `/${token}/${escape}` });
      expect([escape, status === 400 || status === 404]).toEqual([escape, true]);
      expect(body).not.toContain('secret');
    }
    // The whole path in front of the token must not lead anywhere either.
    expect((await ask({ path: `/${token}/../secret.txt` })).body).not.toContain('secret');
    expect((await ask({ path: `http://127.0.0.1:${port}/${token}/` })).status).not.toBe(200);
  });

  it('refuses every method that could change something', async () => {
    for (const method of ['POST', 'PUT', 'DELETE', 'PATCH', 'OPTIONS', 'TRACE']) {
      const { status, headers } = await ask({ path: `/${token}/`, method });
      expect([method, status, headers['allow']]).toEqual([method, 405, 'GET, HEAD']);
    }
  });

  it('listens on the loopback address alone', async () => {
    const { networkInterfaces } = await import('node:os');
    const outward = Object.values(networkInterfaces())
      .flatMap((list) => list ?? [])
      .find(({ internal, family }) => !internal && family === 'IPv4');
    // A machine without another address has nothing to ask from.
    const tried = outward
      ? await fetch(`http://${outward.address}:${port}/${token}/`).then(
          () => 'answered',
          () => 'refused',
        )
      : 'refused';
    expect(tried).toBe('refused');
  });
});
