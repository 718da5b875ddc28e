import type { Body } from '../body/body.ts';
import { Fault } from '../fault/fault.ts';
import { BLOCKS, type BlockName, type BlockSheet } from './blocks.ts';
import type { DraftedBlock } from './drafted-block.ts';
import { draftBrief } from './brief-block.ts';
import { draftShaper } from './shaper-block.ts';
import { draftStocking } from './stocking-block.ts';
import { draftTrousers } from './trouser-block.ts';

type Draft = (body: Body, sheet: BlockSheet) => DraftedBlock;

const DRAFTS: Readonly<Record<BlockName, Draft>> = {
  short: trousers,
  legging,
  stocking: draftStocking,
  brief: draftBrief,
  waistShaper: draftShaper,
};

/**
 * Drafts the block that a sheet asks for.
 *
 * @throws {Fault} `block/girth-missing`, `block/length-missing`, `block/no-landmark`; `garment/...` where the body has no
 *   such row.
 */
export function draftBlock(body: Body, sheet: BlockSheet): DraftedBlock {
  const { levels, lengths } = BLOCKS[sheet.block];
  for (const { name, needed } of levels) {
    if (needed && sheet.girths[name] === undefined) throw new Fault('block/girth-missing', { level: name });
  }
  for (const { name, needed } of lengths) {
    if (needed && sheet.lengths[name] === undefined) {
      throw new Fault('block/length-missing', { length: name });
    }
  }
  return { ...DRAFTS[sheet.block](body, sheet), moulded: sheet.construction === 'moulded' };
}

function trousers(body: Body, { girths, lengths, laid = {} }: BlockSheet): DraftedBlock {
  return draftTrousers(body, {
    girths,
    lengths: {
      side: lengths['side']!,
      frontRise: lengths['frontRise']!,
      backRise: lengths['backRise']!,
      inseam: lengths['inseam']!,
    },
    laid,
  });
}

/** Unless the sheet says otherwise a legging is drawn down to the ankle. */
function legging(body: Body, sheet: BlockSheet): DraftedBlock {
  const ankle = body.landmarks.ankleLeft?.point[1];
  return trousers(body, { ...sheet, laid: { ...(ankle !== undefined && { hem: ankle }), ...sheet.laid } });
}
