import type { Host } from '../../electron/contract.ts';
import { createBrowserHost } from './browser-host.ts';
import { electronHost } from './electron-host.ts';

/** The shell this window stands in: Electron where its preload has been, else the plain page. */
export const findHost = (): Host => electronHost(globalThis) ?? createBrowserHost();
