import type { Host } from '../../electron/contract.ts';

/** The shell that Electron's preload exposes as `window.snugfield`, or null where there is none. */
export function electronHost(scope: object): Host | null {
  return 'snugfield' in scope && isHost(scope.snugfield) ? scope.snugfield : null;
}

/** The preload is our own: its kind tells it from whatever else a page may have hung there. */
const isHost = (value: unknown): value is Host =>
  typeof value === 'object' && value !== null && 'kind' in value && value.kind === 'electron';
