import type { Host } from './contract.ts';

/** The calls that travel from the window to the main process, each on a channel of its own name. */
export const callNames = [
  'readDemo',
  'openStudy',
  'readBeside',
  'openFile',
  'savePicture',
  'saveText',
  'printSheet',
  'openLibrary',
  'readLibrary',
  'writeLibrary',
  'openLink',
] as const satisfies readonly (keyof Host)[];

export type CallName = (typeof callNames)[number];

/** The one channel the other way: a menu command. */
export const menuChannel = 'menu';
