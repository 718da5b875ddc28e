/** What a body leaves in doubt. */
export interface BodyFindings {
  'body/tissue-estimated': { modulusKPa: number };
  /** One depth and one modulus for the whole skin, as the study gives them. */
  'body/tissue-even': { depthMm: number; modulusKPa: number };
  /** Depths carried over from the fit body, which could be made to this body's measures, or not. */
  'body/tissue-transferred': { modulusKPa: number; isToMeasure: boolean };
  'body/taken-as-rigid': { stiffnessKPaPerMm: number };
  'body/turned-outward': { triangleCount: number };
  'body/joined-vertices': { vertexCount: number };
  'body/several-pieces': { pieceCount: number };
  'body/pinched': { vertexCount: number };
  'body/no-area': { triangleCount: number };
  /** Edges that turn too far for their mesh; the sharpest lies at x, y, z in the body's axes. */
  'body/crease-rounded': { edgeCount: number; radiusMm: number; xMm: number; yMm: number; zMm: number };
  'body/coarse-skin': { edgeMm: number; finestMm: number };
}
