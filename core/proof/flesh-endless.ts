import { metresFromMm, pascalsFromKPa } from '../units/units.ts';
import type { Check } from './check.ts';
import { ENDLESS_BANDS } from './data/flesh-special-cases.ts';
import { fleshRing, press } from './flesh-ring.ts';

/** Share of the closed form that may be missed; the printed digits are good to 0.1 % at the smallest. */
const SHARE = 0.001;

/** Of the printed figure. */
const HALF_DIGIT_MM = 0.00005;

/** A belt of 300 N/m about a soft ring of 50 mm with a core of 15 mm. */
interface Belt {
  readonly reduction: number;
  /** kPa. */
  readonly E: number;
  readonly nu: number;
  readonly inMm: number;
  readonly pressurePa: number;
}

/** u = p R c / E and p = k (r / r0 - 1) / r at r = R - u, solved together. */
const BELTS: readonly Belt[] = [
  { reduction: 0.1, E: 15, nu: 0.45, inMm: 0.2761, pressurePa: 633.4 },
  { reduction: 0.1, E: 15, nu: 0.49, inMm: 0.0595, pressurePa: 659.5 },
  { reduction: 0.1, E: 5, nu: 0.45, inMm: 0.752, pressurePa: 575 },
  { reduction: 0.2, E: 15, nu: 0.45, inMm: 0.621, pressurePa: 1424.5 },
  { reduction: 0.2, E: 15, nu: 0.49, inMm: 0.1339, pressurePa: 1483.9 },
  { reduction: 0.2, E: 5, nu: 0.45, inMm: 1.6875, pressurePa: 1290.4 },
  { reduction: 0.3, E: 15, nu: 0.45, inMm: 1.064, pressurePa: 2441 },
  { reduction: 0.3, E: 15, nu: 0.49, inMm: 0.2295, pressurePa: 2543.8 },
  { reduction: 0.3, E: 5, nu: 0.45, inMm: 2.8827, pressurePa: 2204.3 },
];

/** Soft rings squeezed evenly over a length without end: plane strain, small displacements. */
export const fleshEndlessChecks = (): Check[] => [
  ...ENDLESS_BANDS.map((row, index): Check => {
    const { R, H, nu } = row;
    return {
      id: `flesh.endless.${index + 1}`,
      source: `CalculiX ccx 2.20, plane-strain slice, small displacements; R ${R} mm, H ${H} mm, nu ${nu}`,
      expected: row.linearIn,
      got: 1e3 * squeezed(row).movement,
      unit: 'mm',
      tolerance: SHARE * row.linearIn,
    };
  }),
  ...BELTS.flatMap(beltChecks),
];

function beltChecks({ reduction, E, nu, inMm, pressurePa }: Belt): Check[] {
  const band = { k: 300, r0: 50 * (1 - reduction) };
  const { movement, pressure } = squeezed({ R: 50, H: 35, E, nu, p: null, band });
  const id = `flesh.belt.${100 * reduction}-percent.${E}-kPa.nu-${nu}`;
  const source =
    'closed form: plane-strain ring bonded to its core, T = p r; Timoshenko & Goodier (1970), art. 28';
  return [
    {
      id: `${id}.in`,
      source,
      expected: inMm,
      got: 1e3 * movement,
      unit: 'mm',
      tolerance: SHARE * inMm + HALF_DIGIT_MM,
    },
    {
      id: `${id}.pressure`,
      source,
      expected: pressurePa,
      got: pressure,
      unit: 'Pa',
      tolerance: SHARE * pressurePa,
    },
  ];
}

interface Squeeze {
  /** mm, kPa. */
  readonly R: number;
  readonly H: number;
  readonly E: number;
  readonly nu: number;
  /** kPa, or null for a band. */
  readonly p: number | null;
  /** N/m, mm. */
  readonly band: { readonly k: number; readonly r0: number } | null;
}

/** A piece of the ring whose ends are mirrors, pressed all over; m, Pa. */
function squeezed({ R, H, E, nu, p, band }: Squeeze): { movement: number; pressure: number } {
  const size = { R: metresFromMm(R), H: metresFromMm(H), E: pascalsFromKPa(E), nu };
  const rows = Float64Array.from({ length: 9 }, (_, row) => (row * size.H) / 8);
  const ring = fleshRing(size, rows);
  const pressureAt = (w: number) => {
    if (!band) return pascalsFromKPa(p!);
    const r = size.R - w;
    return (band.k * (r / metresFromMm(band.r0) - 1)) / r;
  };
  let movement = 0;
  for (let round = 0; round < 40; round++) {
    movement = press(
      ring,
      rows.map(() => pressureAt(movement)),
      false,
    )[4]!;
  }
  return { movement, pressure: pressureAt(movement) };
}
