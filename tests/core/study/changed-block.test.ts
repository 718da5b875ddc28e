import { expect, it } from 'vitest';
import type { BlockSheet } from '../../../core/block/blocks.ts';
import { changedBlock } from '../../../core/block/changed-block.ts';
import { plainBlockChange, specFields } from '../../../core/sheet/spec-sheet.ts';

const short: BlockSheet = {
  block: 'short',
  construction: 'cut',
  girths: { waist: 0.612, topHip: 0.735, hip: 0.812, thigh: 0.48, hem: 0.424 },
  lengths: { side: 0.392, frontRise: 0.273, backRise: 0.292, inseam: 0.13 },
};

it('writes single measures otherwise; what is left out stays, the sheet given too', () => {
  const before = structuredClone(short);
  const changed = changedBlock(short, {
    girths: { waist: 0.6 },
    lengths: { inseam: 0.15 },
    laid: { hem: 0.62 },
    construction: 'moulded',
  });
  expect(changed).toEqual({
    ...short,
    construction: 'moulded',
    girths: { ...short.girths, waist: 0.6 },
    lengths: { ...short.lengths, inseam: 0.15 },
    laid: { hem: 0.62 },
  });
  expect(short).toEqual(before);
  expect(changedBlock(short, {})).toEqual(short);
});

it('takes a measure in or out that the block can do without, in the block’s order', () => {
  const { girths } = changedBlock(short, { girths: { midThigh: 0.45, topHip: null } });
  expect(Object.keys(girths)).toEqual(['waist', 'hip', 'thigh', 'midThigh', 'hem']);
  expect(changedBlock({ ...short, laid: { waist: 1.04 } }, { laid: { waist: null } })).toEqual(short);
});

it('says nothing of what the sheet says already, however it was typed', () => {
  expect(plainBlockChange(short, {})).toBeNull();
  expect(
    plainBlockChange(short, {
      girths: { waist: 0.612 + 1e-9, midThigh: null },
      lengths: { side: 0.392 },
      laid: { hem: null },
      construction: 'cut',
    }),
  ).toBeNull();
  expect(plainBlockChange(short, { girths: { topHip: null, hip: 0.82 }, laid: {} })).toEqual({
    girths: { hip: 0.82, topHip: null },
  });
});

it('fills the fields of the sheet with what is tried, girths as cut larger or smaller', () => {
  const { girths, lengths, laid, construction } = specFields(short, { girths: { waist: 0.6 } }, 0.9);
  expect(girths.map(({ name, needed }) => (needed ? name : `(${name})`))).toEqual([
    'waist',
    '(topHip)',
    'hip',
    'thigh',
    '(midThigh)',
    'hem',
  ]);
  expect(girths[0]).toMatchObject({ value: expect.closeTo(0.54, 12) as number, opened: 0.612 });
  expect(girths[4]).toMatchObject({ value: null, opened: null });
  expect(lengths.map(({ value }) => value)).toEqual(Object.values(short.lengths));
  expect(laid.map(({ name, value }) => [name, value])).toEqual([
    ['waist', null],
    ['hem', null],
  ]);
  expect(construction).toBe('cut');
});
