/** Garments that cannot be laid on this body. */
export interface GarmentFaults {
  'garment/level-off-body': { levelMm: number; lowestMm: number; highestMm: number };
}
