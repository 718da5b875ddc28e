/** Spec sheets of cut garments that cannot be drafted. */
export interface BlockFaults {
  /** The body has no such named point: nobody found or placed it. */
  'block/no-landmark': { landmark: string };
  'block/girth-missing': { level: string };
  'block/length-missing': { length: string };
}
