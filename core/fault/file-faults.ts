/** Files that cannot be read at all, whatever they were to hold. */
export interface FileFaults {
  'file/missing': { path: string };
  'file/not-json': { line: number; column: number; problem: string };
  /** `path` as in `stretch.warp.load[3][1]`; `value` as found. */
  'file/wrong-shape': { path: string; expected: string; value: string };
  'file/unknown-version': { path: string; known: number; value: string };
  'file/unknown-kind': { value: string; known: string };
}
