/** What a garment's sheet leaves in doubt. */
export interface GarmentFindings {
  'garment/loose': { atMm: number; relaxedMm: number; bodyMm: number };
  /** An elastic that is no shorter than the cloth under it. */
  'garment/band-loose': { index: number; relaxedMm: number; clothMm: number; bodyMm: number };
  'garment/band-beyond-readings': { index: number; stretchPercent: number; lastPercent: number };
  /** Cloth that was laid in the body and has been brought out to the skin before it settled. */
  'garment/pushed-out': { sharePercent: number; depthMm: number };
  'garment/turned': { sharePercent: number };
  'garment/length-far-from-body': { relaxedMm: number; bodyMm: number };
}
