import { describe, expect, it } from 'vitest';
import { BLOCKS, type BlockName, type BlockSheet } from '../../../core/block/blocks.ts';
import { draftBlock } from '../../../core/block/draft-block.ts';
import { readPatternDxf } from '../../../core/io/read-pattern-dxf.ts';
import { readPatternSvg } from '../../../core/io/read-pattern-svg.ts';
import { writePatternDxf } from '../../../core/io/write-pattern-dxf.ts';
import { writePatternSvg } from '../../../core/io/write-pattern-svg.ts';
import { curveLength } from '../../../core/pattern/arc-length.ts';
import { checkPattern } from '../../../core/pattern/check-pattern.ts';
import { curveOf, type Pattern, type Seam } from '../../../core/pattern/pattern.ts';
import { proposeSeams } from '../../../core/pattern/propose-seams.ts';
import { wholePattern } from '../../../core/pattern/whole-pattern.ts';
import { bodyOf } from '../../help/drafted.ts';
import { expectSamePanels } from '../../help/pattern-round-trip.ts';

/** Invented sheets, m. */
const SHEETS: Readonly<Record<string, Pick<BlockSheet, 'girths' | 'lengths'>>> = {
  short: {
    girths: { waist: 0.612, topHip: 0.735, hip: 0.812, thigh: 0.48, hem: 0.424 },
    lengths: { side: 0.392, frontRise: 0.273, backRise: 0.292, inseam: 0.13 },
  },
  legging: {
    girths: { waist: 0.64, topHip: 0.76, hip: 0.85, thigh: 0.495, knee: 0.315, calf: 0.3, hem: 0.195 },
    lengths: { side: 0.905, frontRise: 0.273, backRise: 0.292, inseam: 0.63 },
  },
  brief: {
    girths: { waist: 0.65, topHip: 0.78, hip: 0.87, legOpening: 0.6 },
    lengths: { side: 0.14, frontLength: 0.215, gussetLength: 0.12, backLength: 0.265 },
  },
  waistShaper: {
    girths: { top: 0.66, waist: 0.6, topHip: 0.735, hem: 0.79 },
    lengths: { side: 0.23 },
  },
  stocking: { girths: { B: 0.175, B1: 0.23, C: 0.3, D: 0.295 }, lengths: { length: 0.315 } },
  top: {
    girths: { band: 0.67, bust: 0.78 },
    lengths: {
      bandDepth: 0.03,
      side: 0.075,
      frontLength: 0.25,
      backLength: 0.24,
      frontNeck: 0.125,
      backNeck: 0.165,
      strap: 0.042,
    },
  },
};

/** Sewn length between every two panels, to a tenth of a millimetre. */
function sewnLengths(pattern: Pattern): Record<string, string> {
  const lengths: Record<string, number> = {};
  for (const { one, other } of pattern.seams) {
    const pair = [one.panel, other.panel].toSorted().join(' - ');
    const both = [one, other].map((edge) => curveLength(curveOf(pattern, edge).points));
    lengths[pair] = (lengths[pair] ?? 0) + both[0]! + both[1]!;
  }
  const entries = Object.entries(lengths).toSorted(([a], [b]) => (a < b ? -1 : 1));
  return Object.fromEntries(entries.map(([pair, length]) => [pair, (500 * length).toFixed(1)]));
}

const edgesOf = ({ one, other }: Seam): string =>
  [`${one.panel} ${one.edge}`, `${other.panel} ${other.edge}`].toSorted().join(' - ');

describe('every block goes out as a pattern and comes back', () => {
  const body = bodyOf(1);

  const drafted = (Object.keys(BLOCKS) as BlockName[]).filter((block) => SHEETS[block] !== undefined);
  it.each(drafted)('%s: same panels, sewn as before from the file alone', (block) => {
    const { pattern } = draftBlock(body, { block, ...SHEETS[block]!, construction: 'cut' });
    const whole = wholePattern(pattern);
    // All pieces can be drawn from their outer side: a garment has one.
    expect(whole.seams.every(({ turned }) => turned)).toBe(true);
    for (const format of ['dxf', 'svg'] as const) {
      const read =
        format === 'dxf'
          ? readPatternDxf(writePatternDxf(pattern))
          : readPatternSvg(writePatternSvg(pattern));
      expect(read.findings).toEqual([]);
      expectSamePanels(read, pattern);
      const taken = proposeSeams(read).filter(({ sureness }) => sureness !== 'possible');
      const again = { name: '', panels: read.panels, seams: taken.map(({ seam }) => seam), centre: [] };
      expect(again.seams.every(({ turned }) => turned)).toBe(true);
      const [found, before] = [sewnLengths(again), sewnLengths(whole)];
      expect(Object.keys(found)).toEqual(Object.keys(before));
      for (const pair of Object.keys(before)) {
        expect(Math.abs(Number(found[pair]) - Number(before[pair]))).toBeLessThan(0.2);
      }
      if (format === 'svg') {
        expect(again.seams.map(edgesOf).toSorted()).toEqual(whole.seams.map(edgesOf).toSorted());
      }
      const bad = checkPattern(again).filter(({ code }) => code !== 'pattern/edges-free');
      expect(bad).toEqual([]);
    }
  });
});
