import path from 'node:path';

import {
  app,
  BrowserWindow,
  dialog,
  ipcMain,
  type IpcMainInvokeEvent,
  Menu,
  protocol,
  session,
  shell,
} from 'electron';

import { answerCalls } from './answer-calls.ts';
import { wantLink } from './arguments.ts';
import { menuChannel } from './channels.ts';
import { type FileDialogs, makeFileCalls } from './files.ts';
import { makeLibraryCalls } from './library-files.ts';
import { menuTemplate } from './menu.ts';
import { pageAddress, pagePrivileges, pageScheme, servePage } from './page.ts';
import { makePictureCalls } from './picture.ts';
import { guardContents, guardSession, isFromOurPage, windowOptions } from './window.ts';

const dist = path.join(app.getAppPath(), 'dist');
const demo = path.join(app.getAppPath(), 'assets/demo');

/** The one window; null before it opens and after it has closed. */
let window: BrowserWindow | null = null;

const dialogs: FileDialogs = {
  open: (options) => (window ? dialog.showOpenDialog(window, options) : dialog.showOpenDialog(options)),
  save: (options) => (window ? dialog.showSaveDialog(window, options) : dialog.showSaveDialog(options)),
};

const openOutside = (url: string) => {
  void shell.openExternal(url);
};

function openWindow(): void {
  const opened = new BrowserWindow(windowOptions(path.join(dist, 'electron/preload.cjs')));
  window = opened;
  opened.once('ready-to-show', () => {
    opened.show();
  });
  opened.once('closed', () => {
    window = null;
  });
  void opened.loadURL(pageAddress);
}

const isOurs = (event: IpcMainInvokeEvent) => isFromOurPage(event, window?.webContents.id ?? null);

function answerTheWindow(): void {
  const pictures = makePictureCalls(dialogs, () => {
    if (!window) throw new Error('There is no window to print.');
    return window.webContents;
  });
  const links = {
    openLink: async (url: unknown) => {
      await shell.openExternal(wantLink(url));
    },
  };
  const files = makeFileCalls(dialogs, demo);
  const library = makeLibraryCalls(dialogs, path.join(app.getPath('userData'), 'library.json'));
  answerCalls(ipcMain, isOurs, { ...files, ...library, ...pictures, ...links });
}

function onReady(): void {
  guardSession(session.defaultSession);
  protocol.handle(pageScheme, servePage(path.join(dist, 'renderer')));
  answerTheWindow();
  const template = menuTemplate(process.platform, (command) =>
    window?.webContents.send(menuChannel, command),
  );
  Menu.setApplicationMenu(Menu.buildFromTemplate([...template]));
  openWindow();
}

app.enableSandbox();
protocol.registerSchemesAsPrivileged([pagePrivileges]);
app.on('web-contents-created', (_event, contents) => {
  guardContents(contents, openOutside);
});
app.on('window-all-closed', () => {
  if (process.platform !== 'darwin') app.quit();
});
app.on('activate', () => {
  if (!window) openWindow();
});

// A second start shows the window of the first: two would fight over the same profile folder.
if (app.requestSingleInstanceLock()) {
  app.on('second-instance', () => {
    window?.focus();
  });
  void app.whenReady().then(onReady);
} else {
  app.quit();
}
