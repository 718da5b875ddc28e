import { readFile } from 'node:fs/promises';

import { fileUnder, guardHeaders, mediaType } from './launch/served-files.mjs';

/** The scheme and host of the window's one page. A scheme of our own gives it an origin that no web page has. */
export const pageScheme = 'app';
export const pageOrigin = `${pageScheme}://snugfield`;
export const pageAddress = `${pageOrigin}/index.html`;

/** For `protocol.registerSchemesAsPrivileged`: an ordinary, secure origin, with fetch for the demo files' sake. */
export const pagePrivileges = {
  scheme: pageScheme,
  privileges: { standard: true, secure: true, supportFetchAPI: true },
};

/**
 * Answers requests of the page for its own files, with the guard headers; for `protocol.handle`.
 *
 * @param folder - Where the built page lies.
 */
export function servePage(folder: string) {
  return async ({ url, method }: { readonly url: string; readonly method: string }): Promise<Response> => {
    const { host, pathname } = new URL(url);
    const file = host === 'snugfield' && method === 'GET' ? fileUnder(folder, pathname.slice(1)) : null;
    if (file === null) return new Response('Not here.', { status: 400, headers: guardHeaders });
    try {
      const bytes = await readFile(file);
      return new Response(bytes, { headers: { ...guardHeaders, 'Content-Type': mediaType(file) } });
    } catch {
      return new Response('Not here.', { status: 404, headers: guardHeaders });
    }
  };
}
