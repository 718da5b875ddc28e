import { contextBridge, ipcRenderer } from 'electron';

import { type CallName, menuChannel } from './channels.ts';
import type { Host, Library, LibraryWriting, MenuCommand, NamedFile } from './contract.ts';

/** Sends one call; Electron puts its own words before the message of an error, which a reader need not see. */
async function call<T>(name: CallName, ...given: readonly unknown[]): Promise<T> {
  try {
    return await ipcRenderer.invoke(name, ...given);
  } catch (error) {
    // As text: the error may come from another realm, where `instanceof` does not see it.
    const words = String(error).replace(
      /^(?:Error: )?Error invoking remote method '[^']*': (?:\w*Error: )?/,
      '',
    );
    throw new Error(words, { cause: error });
  }
}

const host: Host = {
  kind: 'electron',
  readDemo: () => call<readonly NamedFile[]>('readDemo'),
  openStudy: () => call<NamedFile | null>('openStudy'),
  readBeside: (paths) => call<readonly NamedFile[]>('readBeside', paths),
  openFile: (kind) => call<NamedFile | null>('openFile', kind),
  savePicture: (png, suggestedName) => call<string | null>('savePicture', png, suggestedName),
  saveText: (text, suggestedName) => call<string | null>('saveText', text, suggestedName),
  printSheet: (suggestedName) => call<string | null>('printSheet', suggestedName),
  openLibrary: (wish) => call<Library | null>('openLibrary', wish),
  readLibrary: (paths) => call<readonly NamedFile[]>('readLibrary', paths),
  writeLibrary: (path, text, replace) => call<LibraryWriting>('writeLibrary', path, text, replace),
  openLink: (url) => call<void>('openLink', url),
  onMenu: (listener) => {
    // The event itself holds the way to every channel and stays on this side.
    const pass = (_event: unknown, command: MenuCommand) => {
      listener(command);
    };
    ipcRenderer.on(menuChannel, pass);
    return () => {
      ipcRenderer.off(menuChannel, pass);
    };
  },
};

contextBridge.exposeInMainWorld('snugfield', host);
