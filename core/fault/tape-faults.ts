/** Size charts that cannot be read. Rows count from 1. */
export interface TapeFaults {
  'chart/no-sizes': { found: string };
  'chart/no-rows': { name: string };
  'chart/unknown-measure': { row: number; value: string; known: string };
  'chart/twice': { row: number; what: string; value: string };
  'chart/bad-unit': { value: string; known: string };
  'chart/bad-value': { row: number; column: number; size: string; value: string };
  'chart/out-of-range': {
    row: number;
    size: string;
    measure: string;
    valueMm: number;
    lowestMm: number;
    highestMm: number;
  };
  'chart/no-such-size': { size: string; known: string };
  'chart/ragged-row': { row: number; cellCount: number; columnCount: number };
}
