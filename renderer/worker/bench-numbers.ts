import { weighStrips } from '../../core/fabric/areal-density.ts';
import type { BenchReadings } from '../../core/fabric/bench-readings.ts';
import { bendStrips } from '../../core/fabric/bending.ts';
import type { BenchSheet } from '../../core/io/bench-sheet.ts';
import { checkBenchSheet, readingsOf } from '../../core/io/read-bench-sheet.ts';
import type { PartNumbers, SheetParts } from './bench-messages.ts';

/** Stands where a part was not read yet, so that the others can be; its own numbers are never given out. */
const UNREAD: BenchSheet = {
  snugfieldBench: 1,
  name: 'unread',
  lot: '',
  date: '2000-01-01',
  invented: true,
  strip: { lengthMm: 200, widthMm: 50, massG: { warp: 2, weft: 2, bias: 2 } },
  thickness: { mm: 0.5, pressureKPa: 1 },
  stretch: {
    gaugeMm: 100,
    widthMm: 50,
    warp: { load: [[10, 1]] },
    weft: { load: [[10, 1]] },
    bias: { load: [[10, 1]] },
  },
  bending: { angleDeg: 41.5, overhangMm: { warp: 20, weft: 20, bias: 20 } },
};

/**
 * The numbers of those parts of a sheet that have been read.
 *
 * @throws {Fault} `file/wrong-shape` of a part that is there, and the faults of {@link weighStrips} and
 * {@link bendStrips}.
 */
export function partNumbers({ strip, thickness, stretch, bending }: SheetParts): PartNumbers {
  const readings: BenchReadings = readingsOf(
    checkBenchSheet({
      ...UNREAD,
      ...(strip === null ? {} : { strip }),
      // Without a thickness nothing is too dense: a pane of one gram in ten millimetres.
      thickness: thickness ?? { mm: 50, pressureKPa: 1 },
      ...(stretch === null ? {} : { stretch }),
      ...(bending === null ? {} : { bending }),
    }),
  );
  const { values } = readings.thickness;
  const thicknessMean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const arealDensity = strip === null ? null : weighStrips(readings).arealDensity;
  return {
    arealDensity,
    thickness: thickness === null ? null : thicknessMean,
    bendingRigidity: arealDensity === null || bending === null ? null : bendStrips(readings, arealDensity),
  };
}
