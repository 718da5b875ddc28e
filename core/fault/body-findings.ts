/** What a body leaves in doubt. */
export interface BodyFindings {
  'body/tissue-estimated': { modulusKPa: number };
}
