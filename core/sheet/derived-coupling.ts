import type { BenchReadings } from '../fabric/bench-readings.ts';
import type { CouplingBand } from '../fabric/coupling-band.ts';
import type { Fabric } from '../fabric/fabric.ts';
import { pullStrip, STRIP_ANGLE } from '../fabric/virtual-strip.ts';
import { BENCH_SOURCES } from './bench-sources.ts';
import { derivedNumber, givenInput, type DerivedInput, type DerivedNumber } from './derived-number.ts';
import { extensionText, tensionRangeText, tensionText } from './derived-tension.ts';
import { fixed } from './number-format.ts';

const DIRECTIONS = ['warp', 'weft'] as const;

const FORMULAS: Readonly<Record<CouplingBand['from'], string>> = {
  'held width': 'T λ = τ(x) + ψ′(x) − ψ′(x − w(x)), ψ″ = c exp(−r z)',
  reciprocity: 'c = √(n₁ n₂ E₁ E₂) / (1 − n₁ n₂)',
  'assumed width': 'c = √(n₁ n₂ E₁ E₂) / (1 − n₁ n₂), n assumed',
};

/** How strongly warp and weft pull on each other, with its band and what it rests on; none without readings behind it. */
export function derivedCoupling(readings: BenchReadings, fabric: Fabric): DerivedNumber[] {
  const { band } = fabric;
  if (band === undefined) return [];
  const { heldWidth, strips } = readings.stretched;
  const widths = DIRECTIONS.flatMap((direction): DerivedInput[] => {
    const read = strips[direction].width;
    if (read === null) return [];
    const count = read.reduce((sum, specimen) => sum + specimen.length, 0);
    return [givenInput({ symbol: '', what: 'widthReadings', direction }, String(count))];
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
        ...secants(fabric),
        ...widths,
        ...held,
      ],
      sources: [BENCH_SOURCES.reciprocity, BENCH_SOURCES.couplingBand],
    }),
  ];
}

/** Secant stiffness E = T λ / x and contraction n = -ln(width ratio) / x of both strips at the x where they were compared. */
function secants({ laws, coupling }: Fabric): DerivedInput[] {
  if (coupling === undefined) return [];
  const x = coupling.secantAt;
  const stretch = Math.exp(x);
  const strips = DIRECTIONS.map((direction, i) => {
    const strip = pullStrip(laws.load, STRIP_ANGLE[direction], stretch);
    const index = ['₁', '₂'][i]!;
    return [
      givenInput(
        { symbol: `E${index}`, what: 'secantStiffness', direction },
        tensionText((strip.tension * stretch) / x),
      ),
      givenInput(
        { symbol: `n${index}`, what: 'secantContraction', direction },
        fixed(-Math.log(strip.width) / x, 3),
      ),
    ];
  });
  return [
    ...strips.flat(),
    givenInput({ symbol: '', what: 'secantAt' }, extensionText(stretch - 1)),
    ...(Math.abs(coupling.factor - 1) < 1e-6
      ? []
      : [givenInput({ symbol: '', what: 'couplingFactor' }, fixed(coupling.factor, 2))]),
  ];
}
