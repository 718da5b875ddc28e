/** What a garment's sheet leaves in doubt. */
export interface GarmentFindings {
  'garment/loose': { atMm: number; relaxedMm: number; bodyMm: number };
  'garment/length-far-from-body': { relaxedMm: number; bodyMm: number };
}
