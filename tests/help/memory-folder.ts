import type { FileHandle, FolderDoor, FolderHandle } from '../../renderer/bridge/folder-door.ts';

/** A folder that is held in memory and behaves as a browser's directory handle. */
export interface MemoryFolder extends FolderHandle {
  readonly kind: 'directory';
  readonly entries: Map<string, MemoryFile | MemoryFolder>;
  /** What is answered when leave is asked for, and what is the case now. */
  leave: { now: string; whenAsked: string };
  /** What writing ends in; null where it goes well. */
  trouble: { readonly name: string; readonly at: 'create' | 'write' } | null;
}

export interface MemoryFile extends FileHandle {
  content: string;
}

const domError = (name: string): DOMException => new DOMException(name, name);

function checkName(step: string): void {
  // File System Standard, "valid file name".
  if (step === '' || step === '.' || step === '..' || /[/\\]/.test(step)) throw new TypeError('Name');
}

/** @param contents - Text by path; a folder for each step before the last. */
export function memoryFolder(name: string, contents: Readonly<Record<string, string>> = {}): MemoryFolder {
  const entries: MemoryFolder['entries'] = new Map();
  const makeFile = (fileName: string, content: string): MemoryFile => {
    let changed = 1000;
    const file: MemoryFile = {
      kind: 'file',
      name: fileName,
      content,
      getFile: async () => new File([file.content], fileName, { lastModified: changed }),
      createWritable: async () => {
        if (folder.trouble?.at === 'create') throw domError(folder.trouble.name);
        let written = '';
        return {
          write: async (text) => {
            if (folder.trouble?.at === 'write') throw domError(folder.trouble.name);
            written += text;
          },
          // As in a browser: nothing shows before the stream closes.
          close: async () => {
            file.content = written;
            changed += 1000;
          },
          abort: async () => {},
        };
      },
    };
    return file;
  };
  const folder: MemoryFolder = {
    kind: 'directory',
    name,
    entries,
    leave: { now: 'granted', whenAsked: 'granted' },
    trouble: null,
    values: async function* values() {
      yield* entries.values();
    },
    getDirectoryHandle: async (step) => {
      checkName(step);
      const found = entries.get(step);
      if (found?.kind !== 'directory') throw domError(found ? 'TypeMismatchError' : 'NotFoundError');
      return found;
    },
    getFileHandle: async (step, options) => {
      checkName(step);
      const found = entries.get(step);
      if (found?.kind === 'file') return found;
      if (found) throw domError('TypeMismatchError');
      if (options?.create !== true) throw domError('NotFoundError');
      const made = makeFile(step, '');
      entries.set(step, made);
      return made;
    },
    removeEntry: async (step) => void entries.delete(step),
    queryPermission: async () => folder.leave.now,
    requestPermission: async () => (folder.leave.now = folder.leave.whenAsked),
  };
  for (const [path, content] of Object.entries(contents)) {
    const [first, ...rest] = path.split('/');
    if (rest.length === 0) entries.set(first!, makeFile(first!, content));
    else {
      const below = entries.get(first!) ?? memoryFolder(first!);
      entries.set(first!, below);
      for (const [step, entry] of memoryFolder(first!, { [rest.join('/')]: content }).entries) {
        if (below.kind === 'directory') below.entries.set(step, entry);
      }
    }
  }
  return folder;
}

/** The text at a path in a memory folder; null where there is none. */
export function memoryText(folder: MemoryFolder, path: string): string | null {
  const [first, ...rest] = path.split('/');
  const found = folder.entries.get(first!);
  if (found === undefined) return null;
  if (found.kind === 'file') return rest.length === 0 ? found.content : null;
  return memoryText(found, rest.join('/'));
}

/** A door that opens on what `picked` gives, and remembers it. */
export function memoryDoor(picked: () => FolderHandle | null): FolderDoor {
  let kept: FolderHandle | null = null;
  return {
    pick: async () => picked(),
    recall: async () => kept,
    keep: async (folder) => void (kept = folder),
  };
}
