import type { DemoList, Host, NamedFile, PickKind } from '../../electron/contract.ts';
import { findBeside } from './find-beside.ts';
import { chooseStudy } from './choose-study.ts';
import { browserFolderDoor, type FolderDoor } from './folder-door.ts';
import { folderLibrary } from './folder-library.ts';
import { handedLibrary } from './handed-library.ts';

/** Endings offered when a person is asked to pick. */
const ENDINGS: Readonly<Record<PickKind, string>> = { bench: '.json', body: '.obj,.glb,.gltf,.ply,.stl' };

/**
 * The shell of a plain page on the loopback host: relative addresses, a file input, downloads.
 *
 * @param door - The way to the library's folder; null where the browser lets a page have none.
 */
export function createBrowserHost(door: FolderDoor | null = browserFolderDoor()): Host {
  const library = door === null ? handedLibrary(handedParts) : folderLibrary(door);
  let picked: readonly NamedFile[] = [];
  return {
    kind: 'browser',
    readDemo: async () => {
      const list: unknown = await (await fetchSound('demo/files.json')).json();
      if (!isDemoList(list)) throw new Error('The list of demonstration files cannot be read.');
      return Promise.all(
        list.map(async (path) => {
          const address = path.split('/').map(encodeURIComponent).join('/');
          return { path, bytes: await bytesOf(await fetchSound(`demo/${address}`)) };
        }),
      );
    },
    openStudy: async () => {
      const files = await pickFiles(`.json,${ENDINGS.body}`, true);
      if (files.length === 0) return null;
      picked = files;
      // The window explains where none of them is a study.
      const choice = chooseStudy(files);
      return choice.kind === 'found' ? choice.study : files[0]!;
    },
    readBeside: (paths) =>
      Promise.resolve(
        paths.flatMap((path) => {
          const file = findBeside(picked, path);
          return file === null ? [] : [{ path, bytes: file.bytes }];
        }),
      ),
    openFile: async (kind) => (await pickFiles(ENDINGS[kind], false))[0] ?? null,
    savePicture: (png, name) => download(new Blob([png.slice()], { type: 'image/png' }), name),
    saveText: (text, name) => download(new Blob([text], { type: 'text/plain;charset=utf-8' }), name),
    printSheet: (name) => {
      globalThis.print();
      return Promise.resolve(name);
    },
    ...library,
    openLink: (url) => {
      globalThis.open(url, '_blank', 'noopener,noreferrer');
      return Promise.resolve();
    },
    // A page has no menu of its own.
    onMenu: () => () => undefined,
  };
}

/** Handed-over files come from the file input and leave as downloads. */
const handedParts: Parameters<typeof handedLibrary>[0] = {
  pick: () => pickFiles('.json', true),
  download: (text, name) => download(new Blob([text], { type: 'application/json' }), name),
  now: () => Date.now(),
};

const isDemoList = (value: unknown): value is DemoList =>
  Array.isArray(value) && value.every((path) => typeof path === 'string');

async function fetchSound(address: string): Promise<Response> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address} could not be read (${response.status}).`);
  return response;
}

const bytesOf = async (body: Response | File): Promise<Uint8Array> =>
  new Uint8Array(await body.arrayBuffer());

/** Asks with the browser's own dialog; none where the person thinks better of it. */
function pickFiles(
  accept: string,
  multiple: boolean,
): Promise<readonly (NamedFile & { readonly changed: number })[]> {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = accept;
  input.multiple = multiple;
  return new Promise((resolve, reject) => {
    input.addEventListener('cancel', () => resolve([]));
    input.addEventListener('change', () => {
      const files = Array.from(input.files ?? [], async (file) => ({
        path: file.name,
        changed: file.lastModified,
        bytes: await bytesOf(file),
      }));
      Promise.all(files).then(resolve, reject);
    });
    input.click();
  });
}

function download(content: Blob, name: string): Promise<string> {
  const address = URL.createObjectURL(content);
  const anchor = document.createElement('a');
  anchor.href = address;
  anchor.download = name;
  anchor.click();
  // The download reads the address after this turn; a minute is long enough for any picture.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
  return Promise.resolve(name);
}
