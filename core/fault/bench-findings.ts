/** What the bench readings leave in doubt. */
export interface BenchFindings {
  'bench/width-not-measured': { direction: string };
}
