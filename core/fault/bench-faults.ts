/** Readings that contradict themselves or each other. */
export interface BenchFaults {
  'bench/force-falls': { direction: string; extensionPercent: number; forceN: number; previousN: number };
}
