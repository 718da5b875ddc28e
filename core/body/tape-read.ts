import { sectionAt, type Section } from '../mesh/section.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import type { TapeLine, TapeReading } from './body-tape.ts';
import { frameAlong, intoFrame, meshInFrame, outOfFrame } from './tape-frame.ts';
import { convexHull } from './tape-girth.ts';
import { sliceRound } from './tape-slices.ts';

/** A centre that lies outside of every piece may miss the nearest by so much, m: a landmark on the skin. */
export const REACH = 0.15;

/** Where a limb has grown together with something else, its own side of the cut between. */
export interface TapeCut {
  /** A point of the cutting plane, m. */
  readonly point: readonly [number, number, number];
  /** From the other piece to the limb. */
  readonly towards: readonly [number, number, number];
}

/**
 * Lays a tape: cuts the skin with the line's plane, takes the piece round its centre, and either draws the tape taut
 * (convex hull) or follows the skin.
 *
 * @param skin - m, y up.
 * @param options.floor - y from which the height counts, m.
 * @param options.cut - Only the part of the piece on this side of a plane is measured, closed straight along it.
 * @returns null where the plane meets no closed piece there.
 * @see ISO 8559-1:2017 (a tape follows the body without sinking in), from memory.
 */
export function readTape(
  skin: TriangleMesh,
  line: TapeLine,
  options: { readonly floor: number; readonly cut?: TapeCut },
): TapeReading | null {
  const frame = frameAlong(line.normal);
  const isLevel = Math.abs(frame.y[1] - 1) < 1e-12;
  const mesh = isLevel ? skin : meshInFrame(frame, skin);
  const [x, level, z] = isLevel ? line.center : intoFrame(frame, line.center);
  const piece = sliceRound(sectionAt(mesh, level), [x, z], REACH);
  if (piece === null) return null;
  const own = options.cut === undefined ? piece.points : ownSide(piece, options.cut, line, isLevel);
  const flat = line.surface === 'taut' ? convexHull(own).flat() : [...own];
  const points = new Float64Array((flat.length / 2) * 3);
  let girth = 0;
  for (let i = 0; i < flat.length; i += 2) {
    const at = [flat[i]!, level, flat[i + 1]!] as const;
    points.set(isLevel ? at : outOfFrame(frame, at), 1.5 * i);
    const next = (i + 2) % flat.length;
    girth += Math.hypot(flat[next]! - at[0], flat[next + 1]! - at[2]);
  }
  return { line, girth, points, height: line.center[1] - options.floor };
}

/** Points of a loop on one side of the cut, with those where it crosses. */
function ownSide(piece: Section, cut: TapeCut, line: TapeLine, isLevel: boolean): Float64Array {
  const frame = frameAlong(line.normal);
  const inPlane = (p: readonly [number, number, number]) => (isLevel ? p : intoFrame(frame, p));
  const [px, , pz] = inPlane(cut.point);
  const [tx, , tz] = inPlane(cut.towards);
  const side = (i: number): number => (piece.points[i]! - px) * tx + (piece.points[i + 1]! - pz) * tz;
  const kept: number[] = [];
  for (let i = 0, j = piece.points.length - 2; i < piece.points.length; j = i, i += 2) {
    const [here, before] = [side(i), side(j)];
    if (here >= 0 !== before >= 0) {
      const share = before / (before - here);
      for (let k = 0; k < 2; k++) {
        kept.push(piece.points[j + k]! + share * (piece.points[i + k]! - piece.points[j + k]!));
      }
    }
    if (here >= 0) kept.push(piece.points[i]!, piece.points[i + 1]!);
  }
  return Float64Array.from(kept);
}
