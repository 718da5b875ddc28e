/** What a body leaves in doubt. */
export interface BodyFindings {
  'body/tissue-estimated': { modulusKPa: number };
  /** One depth and one modulus for the whole skin, as the study gives them. */
  'body/tissue-even': { depthMm: number; modulusKPa: number };
  'body/taken-as-rigid': { stiffnessKPaPerMm: number };
  'body/turned-outward': { triangleCount: number };
  'body/joined-vertices': { vertexCount: number };
  'body/several-pieces': { pieceCount: number };
  'body/pinched': { vertexCount: number };
  'body/no-area': { triangleCount: number };
  'body/coarse-skin': { edgeMm: number; finestMm: number };
}
