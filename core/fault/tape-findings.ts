/** What measuring a body leaves in doubt. */
export interface TapeFindings {
  /** Landmarks that could not be found on this mesh, comma-separated. */
  'tape/not-found': { landmarks: string };
  /** A tape there would run round more than was meant, so nothing is read: limb and trunk are one piece. */
  'tape/pieces-join': { level: string; girthMm: number };
  /** Both legs are one piece there: it was parted half way between them. */
  'tape/thighs-parted': { level: string; girthMm: number };
  /** Front and back could not be told with certainty. */
  'tape/facing-unsure': { turnDegrees: number };
  /** The waist has no narrowest place: taken by proportion. */
  'tape/no-waist': { heightMm: number };
  /** The limb or neck ends there: the girth is that just before the end. */
  'tape/limb-ends': { level: string };
  /** The body is neither upright nor a person as far as can be seen. */
  'tape/no-person': { problem: string };
}
