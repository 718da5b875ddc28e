/** What the reader of a tensile tester's table must know. Rows and columns count from 1. */
export interface TableFindings {
  'table/rows-passed-over': { row: number; count: number; value: string };
  /** `count` rows without force or extension, left out as wished; the first is named. */
  'table/rows-left-out': { row: number; column: number; header: string; value: string; count: number };
  'table/cycles-counted': { cycles: number; thresholdPercent: number };
  'table/cycle-chosen': { cycle: number; cycles: number };
  /** No cycle with both load and return. */
  'table/no-complete-cycle': { cycle: number };
  'table/cycle-incomplete': { direction: string; specimen: number; cycle: number; row: number };
  'table/falls-before-first-load': { specimen: number; row: number; count: number };
  'table/hold-left-out': { specimen: number; cycle: number; row: number; count: number };
  'table/width-is-constant': { column: number; header: string; widthMm: number };
  'table/value-without-unit': { row: number; column: number; key: string; value: string };
  'table/no-return': { direction: string; specimen: number; cycle: number };
  'table/negative-set-to-zero': { direction: string; branch: string; specimen: number; count: number };
  'table/readings-merged': { direction: string; branch: string; specimen: number; count: number };
  'table/strip-widths-differ': { specimen: number; widthMm: number; sheetMm: number };
}
