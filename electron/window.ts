import { wantLink } from './arguments.ts';
import { pageOrigin } from './page.ts';

/**
 * How our window is made: no Node in it, its own process sandbox, the preload in a world of its own.
 *
 * @param preload - Absolute path of the built preload.
 * @see Electron documentation, "Security", checklist items 2 to 8
 */
export const windowOptions = (preload: string) => ({
  width: 1440,
  height: 900,
  minWidth: 960,
  minHeight: 640,
  show: false,
  backgroundColor: '#f4f2ee',
  webPreferences: {
    preload,
    sandbox: true,
    contextIsolation: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    webSecurity: true,
    allowRunningInsecureContent: false,
    webviewTag: false,
    spellcheck: false,
  },
});

interface Preventable {
  readonly preventDefault: () => void;
}

const stay = (event: Preventable): void => {
  event.preventDefault();
};

/** What of `electron.WebContents` the guard needs. */
export interface GuardedContents {
  readonly on: {
    (event: 'will-navigate', listener: (event: Preventable) => void): unknown;
    (event: 'will-redirect', listener: (event: Preventable) => void): unknown;
    (event: 'will-attach-webview', listener: (event: Preventable) => void): unknown;
  };
  readonly setWindowOpenHandler: (handler: (details: { readonly url: string }) => { action: 'deny' }) => void;
}

/** What of `electron.Session` the guard needs. */
export interface GuardedSession {
  readonly setPermissionRequestHandler: (
    handler: (contents: unknown, permission: string, answer: (granted: boolean) => void) => void,
  ) => void;
  readonly setPermissionCheckHandler: (handler: () => boolean) => void;
  readonly setDevicePermissionHandler: (handler: () => boolean) => void;
}

/**
 * Keeps a page where it is: it goes nowhere, opens no window, holds no other page. A link meant for a new window
 * opens in the person's own browser if it is https, and otherwise not at all.
 */
export function guardContents(contents: GuardedContents, openOutside: (url: string) => void): void {
  contents.on('will-navigate', stay);
  contents.on('will-redirect', stay);
  contents.on('will-attach-webview', stay);
  contents.setWindowOpenHandler(({ url }) => {
    try {
      openOutside(wantLink(url));
    } catch {
      // Not https: no other program of the person's is started with it.
    }
    return { action: 'deny' };
  });
}

/** Camera, microphone, position, devices and all the rest: the page needs none and gets none. */
export function guardSession(session: GuardedSession): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => {
    answer(false);
  });
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
}

/** Where a message came from, as `electron.IpcMainInvokeEvent` tells it. */
export interface MessageSource {
  readonly sender: { readonly id: number; readonly mainFrame: unknown };
  readonly senderFrame: { readonly url: string } | null;
}

/** A message counts only from the main frame of our own window, showing our own page. */
export const isFromOurPage = ({ sender, senderFrame }: MessageSource, windowId: number | null): boolean =>
  senderFrame !== null &&
  sender.id === windowId &&
  senderFrame === sender.mainFrame &&
  senderFrame.url.startsWith(`${pageOrigin}/`);
