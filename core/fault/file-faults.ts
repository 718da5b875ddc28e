/** One thing in a file that is not as it should be. */
export interface ShapeProblem {
  /** As in `stretch.warp.load[3][1]`; empty for the whole file. */
  readonly path: string;
  readonly expected: string;
  /** As found, as JSON; `nothing` where it is missing. */
  readonly value: string;
}

/** Files that cannot be read at all, whatever they were to hold. */
export interface FileFaults {
  'file/missing': { path: string };
  /** Line and column count from 1. */
  'file/not-json': { line: number; column: number; problem: string };
  /** The first problem; `others` holds the next few, if any. */
  'file/wrong-shape': ShapeProblem & { readonly others?: readonly ShapeProblem[] };
  'file/unknown-version': { path: string; known: number; value: string };
  'file/unknown-kind': { value: string; known: string };
}
