import type { Finding } from '../fault/finding.ts';
import { percentFromRatio } from '../units/units.ts';
import type { Direction } from './fabric.ts';
import { forceAt } from './hysteresis.ts';
import type { StripMeans } from './strip-means.ts';

/** A slip of unit: by which factor it makes a number too large, and what it looks like. */
export interface UnitSlip {
  readonly factor: number;
  readonly looksLike: string;
}

/** The slip that brings a number nearest the middle of its usual range; null where none brings it inside. */
export function likelySlip(
  value: number,
  [least, most]: readonly [number, number],
  slips: readonly UnitSlip[],
): string | null {
  const middle = Math.sqrt(least * most);
  const fitting = slips.filter(({ factor }) => value / factor >= least && value / factor <= most);
  const distance = ({ factor }: UnitSlip): number => Math.abs(Math.log(value / factor / middle));
  return fitting.toSorted((a, b) => distance(a) - distance(b))[0]?.looksLike ?? null;
}

/** Force per 50 mm at 40 % that stretch fabrics mostly give, N (common practice). */
const USUAL_FORCE = [0.5, 15] as const;
const USUAL_AT = 0.4;
const FORCE_SLIPS: readonly UnitSlip[] = [
  { factor: 100, looksLike: 'cN or gf read as N' },
  { factor: 20, looksLike: 'N/m or gf/cm read as N' },
  { factor: 1 / 5, looksLike: 'N/cm read as N' },
  { factor: 1 / 9.80665, looksLike: 'kgf read as N' },
  { factor: 1 / 100, looksLike: 'N read as cN or gf' },
];

/** Forces far from what stretch fabrics give: mostly a wrong unit. @param width - Of the unstretched strip, m. */
export function unusualForces(strips: Readonly<Record<Direction, StripMeans>>, width: number): Finding[] {
  return (['warp', 'weft'] as const).flatMap((direction): Finding[] => {
    const { load } = strips[direction];
    const at = Math.min(USUAL_AT, load.at(-1)?.extension ?? 0);
    const forceN = (forceAt(load, at) * 0.05) / width;
    const usual = [(USUAL_FORCE[0] * at) / USUAL_AT, USUAL_FORCE[1]] as const;
    if (forceN >= usual[0] && forceN <= usual[1]) return [];
    const looksLike = likelySlip(forceN, usual, FORCE_SLIPS);
    return [
      {
        code: 'bench/force-unusual',
        facts: { direction, forceN, atPercent: percentFromRatio(at), looksLike },
      },
    ];
  });
}
