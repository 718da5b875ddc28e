/** What of the File System Access API the library needs; a directory handle of a browser is one. */
export interface FolderHandle {
  readonly name: string;
  readonly values: () => AsyncIterable<FileHandle | (FolderHandle & { readonly kind: 'directory' })>;
  readonly getDirectoryHandle: (name: string) => Promise<FolderHandle>;
  readonly getFileHandle: (name: string, options?: { readonly create: boolean }) => Promise<FileHandle>;
  readonly removeEntry: (name: string) => Promise<void>;
  /** Chromium only, hence perhaps missing: then leave was given with the handle. */
  readonly queryPermission?: (wish: { readonly mode: 'readwrite' }) => Promise<string>;
  readonly requestPermission?: (wish: { readonly mode: 'readwrite' }) => Promise<string>;
}

export interface FileHandle {
  readonly kind: 'file';
  readonly name: string;
  readonly getFile: () => Promise<File>;
  /** What is written shows in the file when the stream closes, all at once. */
  readonly createWritable: () => Promise<{
    readonly write: (text: string) => Promise<void>;
    readonly close: () => Promise<void>;
    readonly abort: () => Promise<void>;
  }>;
}

/** The way to the person's folder: no test can answer the browser's own dialog, so the tests hand in a door of theirs. */
export interface FolderDoor {
  /** Null when the person thinks better of it. */
  readonly pick: () => Promise<FolderHandle | null>;
  /** The folder picked last at this address. */
  readonly recall: () => Promise<FolderHandle | null>;
  readonly keep: (folder: FolderHandle) => Promise<void>;
}

/** The browser's own door; null where it lets a page have no folder. */
export function browserFolderDoor(scope: object = globalThis): FolderDoor | null {
  if (!('showDirectoryPicker' in scope) || typeof scope.showDirectoryPicker !== 'function') return null;
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion -- not in the compiler's library: Chromium only
  const ask = scope.showDirectoryPicker as (options: object) => Promise<FolderHandle>;
  return {
    pick: async () => {
      try {
        return await ask.call(scope, { id: 'snugfield-library', mode: 'readwrite' });
      } catch (error) {
        if (error instanceof DOMException && error.name === 'AbortError') return null;
        throw error;
      }
    },
    recall: async () => {
      // A private window has no store: then the folder is picked anew.
      const kept: unknown = await inStore('readonly', (store) => store.get(KEY)).catch(() => null);
      return isFolder(kept) ? kept : null;
    },
    keep: async (folder) => {
      await inStore('readwrite', (store) => store.put(folder, KEY)).catch(() => undefined);
    },
  };
}

const DATABASE = 'snugfield';
const STORE = 'folders';
const KEY = 'library';

/** One request to the one store of handles. */
function inStore<T>(mode: IDBTransactionMode, ask: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open(DATABASE, 1);
    opening.addEventListener('upgradeneeded', () => {
      opening.result.createObjectStore(STORE);
    });
    opening.addEventListener('error', () => reject(opening.error ?? new Error('No store.')));
    opening.addEventListener('success', () => {
      const database = opening.result;
      const transaction = database.transaction(STORE, mode);
      const request = ask(transaction.objectStore(STORE));
      transaction.addEventListener('complete', () => {
        database.close();
        resolve(request.result);
      });
      transaction.addEventListener('abort', () => {
        database.close();
        reject(transaction.error ?? new Error('The store gave up.'));
      });
    });
  });
}

const isFolder = (value: unknown): value is FolderHandle =>
  typeof value === 'object' && value !== null && 'kind' in value && value.kind === 'directory';
