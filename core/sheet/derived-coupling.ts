import type { BenchReadings } from '../fabric/bench-readings.ts';
import type { CouplingBand } from '../fabric/coupling-band.ts';
import type { Fabric } from '../fabric/fabric.ts';
import { BENCH_SOURCES } from './bench-sources.ts';
import { derivedNumber, givenInput, type DerivedInput, type DerivedNumber } from './derived-number.ts';
import { tensionRangeText, tensionText } from './derived-tension.ts';

const FORMULAS: Readonly<Record<CouplingBand['from'], string>> = {
  'held width': 'T λ = τ(x) + ψ′(x) − ψ′(x − w(x)), ψ″ = c exp(−r z)',
  reciprocity: 'c = √(n₁ n₂ E₁ E₂) / (1 − n₁ n₂)',
  'assumed width': 'c = √(n₁ n₂ E₁ E₂) / (1 − n₁ n₂), n assumed',
};

/** How strongly warp and weft pull on each other, with its band and what it rests on; none without readings behind it. */
export function derivedCoupling(readings: BenchReadings, { band }: Fabric): DerivedNumber[] {
  if (band === undefined) return [];
  const { heldWidth, strips } = readings.stretched;
  const widths = (['warp', 'weft'] as const).flatMap((direction): DerivedInput[] => {
    const read = strips[direction].width;
    if (read === null) return [];
    const count = read.reduce((sum, specimen) => sum + specimen.length, 0);
    return [{ ...givenInput({ symbol: 'n', what: 'widthReadings', direction }, String(count)), count }];
  });
  const held =
    heldWidth === null
      ? []
      : [
          givenInput(
            { symbol: 'T', what: 'heldWidthReadings', direction: heldWidth.direction },
            String(heldWidth.load.reduce((sum, specimen) => sum + specimen.length, 0)),
          ),
        ];
  return [
    derivedNumber({
      label: 'coupling',
      value: tensionText(band.shown),
      also: tensionRangeText(band.low, band.high),
      amount: band.shown,
      formula: FORMULAS[band.from],
      inputs: [
        givenInput({ symbol: '', what: 'couplingLow' }, tensionText(band.low)),
        givenInput({ symbol: '', what: 'couplingHigh' }, tensionText(band.high)),
        ...widths,
        ...held,
      ],
      sources: [BENCH_SOURCES.reciprocity, BENCH_SOURCES.couplingBand],
    }),
  ];
}
