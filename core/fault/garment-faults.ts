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
  /** The curve of an elastic holds no reading above the relaxed length, or one that does not rise; row from 0. */
  'garment/band-curve-empty': { index: number };
  'garment/band-curve-not-rising': { index: number; row: number; percent: number; forceN: number };
  /** Where the elastic would lie and how long the garment is, both along the skin from the lower hem. */
  'garment/band-off-garment': { index: number; fromMm: number; toMm: number; lengthMm: number };
  'garment/band-too-small': { index: number; relaxedMm: number; bodyMm: number; stretchPercent: number };
  'garment/lining-off-garment': {
    index: number;
    liningFromMm: number;
    liningToMm: number;
    fromMm: number;
    toMm: number;
  };
  /** A position that is no number, or farther away than any body. */
  'garment/lies-nowhere': { vertex: number; xMm: number; yMm: number; zMm: number };
  /** The cloth was laid inside the body, and no way out can be trusted. */
  'garment/inside-body': { sharePercent: number; depthMm: number };
  'garment/too-fine': { edgeMm: number; vertexCount: number; mostVertices: number };
}
