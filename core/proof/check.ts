/** One outside check: something not of our making, what it says, and what we get. */
export interface Check {
  /** `tube.cylinder.mean-pressure` */
  readonly id: string;
  /** What is looked at, in a few plain words: `mean pressure, 8 mm mesh`. */
  readonly what?: string;
  /** Standard, paper, closed form or other program, and where in it. */
  readonly source: string;
  readonly expected: number;
  readonly got: number;
  readonly unit: string;
  /** Allowed |got - expected|, in the same unit. */
  readonly tolerance: number;
}

export const passes = (check: Check): boolean => Math.abs(check.got - check.expected) <= check.tolerance;
