import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { triple, type Triple } from '../mesh/triple.ts';
import { bodyRow } from './body-rows.ts';

/** The trunk's middle from the waist in front, between the legs, to the waist behind. */
export interface Midline {
  /** Along it from the waist to the crotch, in front and behind, m. */
  readonly front: number;
  readonly back: number;
  /** The point so far along it from the waist in front. */
  readonly at: (way: number) => Triple;
}

const ROWS = 16;
/** The lowest row stays this far above the crotch, where the trunk ends, m. */
const CLEAR_OF_CROTCH = 0.02;
/** The gap between the thighs is read this far below the crotch, where their insides have left each other, m. */
const BELOW_CROTCH = 0.02;

/**
 * Follows a trunk's middle from row to row.
 *
 * @throws {Fault} `garment/level-off-body`, `garment/region-not-here`.
 */
export function midlineOf(skin: TriangleMesh, waist: number, crotch: Readonly<Triple>): Midline {
  const low = crotch[1] + CLEAR_OF_CROTCH;
  const rows = Array.from({ length: ROWS + 1 }, (_, i) =>
    bodyRow(skin, 'trunk', waist + ((low - waist) * i) / ROWS),
  );
  const points: Triple[] = [
    ...rows.map(({ frontEnd }) => frontEnd),
    triple((k) => crotch[k]!),
    ...rows.toReversed().map(({ backEnd }) => backEnd),
  ];
  const along = [0];
  for (let i = 1; i < points.length; i++) {
    along.push(along[i - 1]! + Math.hypot(...triple((k) => points[i]![k]! - points[i - 1]![k]!)));
  }
  const front = along[ROWS + 1]!;
  return {
    front,
    back: along.at(-1)! - front,
    at: (way) => {
      const i = Math.max(
        1,
        Math.min(
          points.length - 1,
          along.findIndex((one) => one >= way),
        ),
      );
      const share = (way - along[i - 1]!) / (along[i]! - along[i - 1]!);
      return triple((k) => points[i - 1]![k]! + share * (points[i]![k]! - points[i - 1]![k]!));
    },
  };
}

/** Room between the thighs just below the crotch, m. */
export const thighGap = (skin: TriangleMesh, crotchHeight: number): number =>
  Math.max(0.012, 2 * bodyRow(skin, 'leftLeg', crotchHeight - BELOW_CROTCH).frontEnd[0]);
