import { describe, expect, it } from 'vitest';
import type { BlockSheet } from '../../../core/block/blocks.ts';
import { draftBlock } from '../../../core/block/draft-block.ts';
import { soundDraft } from '../../../core/block/sound-draft.ts';
import { makeFitBody } from '../../../core/body/fit-body.ts';
import { faultOf } from '../../help/fault-of.ts';

const body = makeFitBody({
  stature: 1.68,
  bust: 0.92,
  underbust: 0.79,
  waist: 0.76,
  hip: 1.01,
  figure: 'female',
});
const short: BlockSheet = {
  block: 'short',
  construction: 'cut',
  girths: { waist: 0.612, topHip: 0.735, hip: 0.812, thigh: 0.48, hem: 0.424 },
  lengths: { side: 0.392, frontRise: 0.273, backRise: 0.292, inseam: 0.13 },
};

describe('a draft', () => {
  it.each<BlockSheet>([
    short,
    {
      block: 'legging',
      construction: 'cut',
      girths: { waist: 0.64, topHip: 0.76, hip: 0.85, thigh: 0.495, knee: 0.315, calf: 0.3, hem: 0.195 },
      lengths: { side: 0.905, frontRise: 0.273, backRise: 0.292, inseam: 0.63 },
    },
    {
      block: 'stocking',
      construction: 'cut',
      girths: { B: 0.175, B1: 0.23, C: 0.3, D: 0.295 },
      lengths: { length: 0.315 },
    },
    {
      block: 'brief',
      construction: 'cut',
      girths: { waist: 0.65, topHip: 0.78, hip: 0.87, legOpening: 0.6 },
      lengths: { side: 0.14, frontLength: 0.215, gussetLength: 0.12, backLength: 0.265 },
    },
    {
      block: 'waistShaper',
      construction: 'cut',
      girths: { top: 0.66, waist: 0.6, topHip: 0.735, hem: 0.79 },
      lengths: { side: 0.23 },
    },
  ])('of a $block that can be cut is left as it is', (sheet) => {
    const draft = draftBlock(body, sheet);
    expect(soundDraft(draft)).toBe(draft);
  });

  // A rise more than twice as long as the side seam leaves room for; an inseam as long as the side seam; a waist held at the calf.
  it.each<[string, Partial<BlockSheet>]>([
    ['a front rise of 60 cm', { lengths: { ...short.lengths, frontRise: 0.6 } }],
    ['an inseam longer than the side seam', { lengths: { ...short.lengths, inseam: 0.4 } }],
    ['a waist held at 20 cm', { laid: { waist: 0.2 } }],
  ])('of %s is refused by name, not broken later', (_, part) => {
    const fault = faultOf(() => soundDraft(draftBlock(body, { ...short, ...part })));
    expect(fault.code).toMatch(/^(block|garment)\//);
  });
});
