import type { BlockFaults } from '../fault/block-faults.ts';
import type { FaultWords } from './word-tables.ts';

/** `kneeLeft` -> `knee left`. */
const plain = (name: string): string => name.replaceAll(/([A-Z])/g, ' $1').toLowerCase();

/** What is said of a spec sheet that cannot be drafted. */
export const blockFaultWords: FaultWords<BlockFaults> = {
  'block/no-landmark': ({ landmark }) => ({
    what: `This body has no ${plain(landmark)}: the block cannot be drafted on it.`,
    remedy: 'Place that level on the body by hand, or leave its girth out of the sheet.',
  }),
  'block/girth-missing': ({ level }) => ({
    what: `The sheet gives no ${plain(level)} girth.`,
    remedy: `Give the relaxed ${plain(level)} girth of the garment lying flat, in mm.`,
  }),
  'block/length-missing': ({ length }) => ({
    what: `The sheet gives no ${plain(length)} length.`,
    remedy: `Give the relaxed ${plain(length)} length of the garment lying flat, in mm.`,
  }),
};
