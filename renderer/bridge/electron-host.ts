import type { Host } from '../../electron/contract.ts';

/** The shell that Electron's preload exposes as `window.snugfield`, or null where there is none. */
export function electronHost(scope: object): Host | null {
  return 'snugfield' in scope ? (scope.snugfield as Host) : null;
}
