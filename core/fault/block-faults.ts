/** Spec sheets of cut garments that cannot be drafted. */
export interface BlockFaults {
  /** The body has no such named point: nobody found or placed it. */
  'block/no-landmark': { landmark: string };
  'block/girth-missing': { level: string };
  /** No leg curve between side seam and gusset is as long as the sheet's leg opening. */
  'block/opening-off': { openingMm: number; leastMm: number; mostMm: number };
  'block/length-missing': { length: string };
  /** The numbers of the sheet leave no curve for this panel, or let it run into itself. */
  'block/no-panel': { panel: string };
}
