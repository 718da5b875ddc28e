import { BODY_REGIONS, type BodyRegion } from '../body/body-regions.ts';
import type { TissueCorrections, TissueMap } from '../body/tissue-map.ts';
import { kPaFromPascals, mmFromMetres } from '../units/units.ts';

/** Names of the regions, in the order in which a map counts them. */
export const BODY_REGION_NAMES: readonly BodyRegion[] = BODY_REGIONS;

/** What lies under one region, as a table gives it. */
export interface TissueRow {
  readonly region: BodyRegion;
  /** Mean over the region's vertices. */
  readonly depthMm: number;
  readonly modulusKPa: number;
  /** True where the region's number was typed. */
  readonly isDepthTyped: boolean;
  readonly isModulusTyped: boolean;
}

/** Means by region, in the order of the list of regions; regions that the body has none of are left out. */
export function tissueRows(
  { depth, modulus, region }: TissueMap,
  { regions }: TissueCorrections,
): TissueRow[] {
  if (region === null) return [];
  const count = new Float64Array(BODY_REGIONS.length);
  const depths = new Float64Array(BODY_REGIONS.length);
  const moduli = new Float64Array(BODY_REGIONS.length);
  for (let v = 0; v < region.length; v++) {
    count[region[v]!]!++;
    depths[region[v]!]! += depth[v]!;
    moduli[region[v]!]! += modulus[v]!;
  }
  return BODY_REGIONS.flatMap((name, i): TissueRow[] => {
    if (count[i] === 0) return [];
    const typed = regions.find((one) => one.region === name);
    return [
      {
        region: name,
        depthMm: mmFromMetres(depths[i]! / count[i]!),
        modulusKPa: kPaFromPascals(moduli[i]! / count[i]!),
        isDepthTyped: typed?.depth !== undefined,
        isModulusTyped: typed?.modulus !== undefined,
      },
    ];
  });
}
