import type { Host } from '../../electron/contract.ts';

/** The part of the host that is the library. */
export type LibraryCalls = Pick<Host, 'openLibrary' | 'readLibrary' | 'writeLibrary'>;
