import { describe, expect, it } from 'vitest';
import { Fault } from '../../core/fault/fault.ts';
import { checkBenchSheet, readBenchSheet } from '../../core/io/read-bench-sheet.ts';
import { withPart, withTable, type BenchDraft, type StripName } from '../../renderer/store/bench-draft.ts';
import { draftFromSheet } from '../../renderer/store/bench-from-sheet.ts';
import { placeOfFault, placeOfFinding } from '../../renderer/store/bench-places.ts';
import { sheetFromDraft } from '../../renderer/store/bench-to-sheet.ts';
import type { PostedFault } from '../../renderer/worker/messages.ts';
import { demoSheetText } from '../help/demo-sheet.ts';

const draft = (): BenchDraft => draftFromSheet(checkBenchSheet(JSON.parse(demoSheetText('tern-210'))));

/** The draft with one reading typed otherwise. */
function typed(strip: StripName, curve: 'load' | 'return' | 'width', row: number, text: string): BenchDraft {
  const start = draft();
  const rows = start.stretch.strips[strip][0]![curve];
  return withTable(start, { strip, specimen: 0, curve }, rows.with(row, [rows[row]![0], text]));
}

/** Where the reader's own fault of a draft is said. */
function placed(spoilt: BenchDraft) {
  try {
    readBenchSheet(JSON.stringify(sheetFromDraft(spoilt).sheet));
  } catch (error) {
    if (error instanceof Fault) return placeOfFault(error as PostedFault, spoilt);
    throw error;
  }
  throw new Error('these readings were to be refused');
}

describe('a refusal stands at the field it is about', () => {
  it.each([
    ['a force that falls', typed('warp', 'load', 5, '2'), 'stretch', 'stretch.warp[0].load[5][1]'],
    ['a width out of line', typed('weft', 'width', 3, '30'), 'stretch', 'stretch.weft[0].width[3][1]'],
    ['a return above the load', typed('warp', 'return', 4, '9'), 'stretch', 'stretch.warp[0].return[4][1]'],
    [
      'a strip too heavy',
      withPart(draft(), 'weigh', { apart: { warp: ['4'], weft: ['2.1'], bias: ['2.1'] } }),
      'weigh',
      'weigh.warp[0]',
    ],
    [
      'a cloth denser than fibre',
      withPart(draft(), 'thickness', { values: ['0.1'] }),
      'thickness',
      'thickness.values[0]',
    ],
    [
      'an overhang beyond the strip',
      withPart(draft(), 'bend', { overhang: { warp: ['20'], weft: ['300'], bias: ['20'] } }),
      'bend',
      'bend.weft[0]',
    ],
  ] as const)('%s', (_, spoilt, step, field) => {
    expect(placed(spoilt)).toMatchObject({ step, field });
  });

  it.each([
    ['a strip beyond the bench', withPart(draft(), 'weigh', { length: '9000' }), 'weigh', 'weigh.length'],
    ['a slope beyond the tester', withPart(draft(), 'bend', { angle: '89' }), 'bend', 'bend.angle'],
    [
      'the third repeat, a blank one before it',
      withPart(draft(), 'thickness', { values: ['0.45', '', '99'] }),
      'thickness',
      'thickness.values[2]',
    ],
    [
      'a reading below a blank row',
      withTable(draft(), { strip: 'bias', specimen: 0, curve: 'width' }, [
        ['0', '50'],
        ['', ''],
        ['10', '99999'],
      ]),
      'stretch',
      'stretch.bias[0].width[2][1]',
    ],
    [
      'a reading of the second strip',
      withTable(draft(), { strip: 'warp', specimen: 1, curve: 'load' }, [
        ['10', '1.6'],
        ['20', '2000000'],
      ]),
      'stretch',
      'stretch.warp[1].load[1][1]',
    ],
  ] as const)('a number out of range: %s', (_, spoilt, step, field) => {
    expect(placed(spoilt)).toMatchObject({ step, field });
  });
});

it('a remark names the extension in the units of the bench', () => {
  const inMm = withPart(draft(), 'stretch', {
    gauge: '200',
    units: { extension: 'mm', force: 'N', width: 'mm' },
  });
  const finding = {
    code: 'bench/width-smoothed',
    facts: { direction: 'warp', extensionPercent: 20, widthMm: 46, usedMm: 47 },
  } as const;
  // 20 % of 200 mm is 40 mm, which stands in the fifth row.
  expect(placeOfFinding(finding, inMm).field).toBe('stretch.warp[0].width[4][1]');
});
