/** Garments that cannot be laid on this body. */
export interface GarmentFaults {
  'garment/level-off-body': { levelMm: number; lowestMm: number; highestMm: number };
  /** The section at this height does not hold the region that was asked for. */
  'garment/region-not-here': { region: string; levelMm: number; pieceCount: number };
  /** The section holds limbs that the garment cannot go round. */
  'garment/limbs-joined': { region: string; levelMm: number; sectionMm: number; ringMm: number };
  'garment/levels-swapped': { fromMm: number; toMm: number };
  'garment/too-short': { fromMm: number; toMm: number; leastMm: number };
  'garment/girth-off-garment': { index: number; atMm: number; fromMm: number; toMm: number };
  'garment/girths-not-rising': { index: number; atMm: number; previousMm: number };
  'garment/girth-too-small': { index: number; relaxedMm: number; bodyMm: number; stretchPercent: number };
  'garment/too-fine': { edgeMm: number; vertexCount: number; mostVertices: number };
}
