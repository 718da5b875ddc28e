import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { triple, type Triple } from '../mesh/triple.ts';
import {
  eased,
  between,
  hollows,
  peaks,
  profileOf,
  slopes,
  vertexAt,
  type Profile,
} from './landmark-profile.ts';
import type { ArmLevelName } from './landmarks.ts';
import { dot, frameAlong, meshInFrame, outOfFrame, unit } from './tape-frame.ts';
import { sliceRound, slicerOf, type Slice } from './tape-slices.ts';

/** One arm, from its section profile. */
export interface ArmLevels {
  readonly shoulder: Triple;
  /** Points of the axis. */
  readonly levels: Readonly<Record<ArmLevelName, Triple>>;
  /** True where the arm ends at the wrist. */
  readonly doesEnd: boolean;
}

/** What an arm is found from; the body faces +z. */
export interface ArmSearch {
  readonly mesh: TriangleMesh;
  readonly armpit: Readonly<Triple>;
  /** 1 for the wearer's left. */
  readonly sign: 1 | -1;
  /** Height of the crotch over that of the fit body. */
  readonly scale: number;
}

/** From the top of the shoulder down to the joint of the fit body, m, for its size; set by hand. */
const JOINT_BELOW_TOP = 0.05;
/** On a lifted arm the joint lies no farther in from the armpit, m; set by hand. */
const JOINT_FROM_ARMPIT = 0.08;
/** The upper arm's tape lies so far from shoulder to elbow; set by hand on the fit body, just above the middle. */
const UPPER_ARM_SHARE = 0.45;
/** The elbow, from the narrowest place above it to the fullest forearm; set by hand on the fit body. */
const ELBOW_SHARE = 1 / 3;
/**
 * Elbow from shoulder to wrist where no narrowest place is seen: radiale between acromion and stylion, 0.56 (from memory
 * of anthropometric surveys).
 */
const ELBOW_PROPORTION = 0.56;
/** The arm is cut at so many places. */
const CUT_COUNT = 160;

/**
 * Levels of one arm, in whatever pose: the piece of skin beyond the armpit is cut square to the line of its own
 * middles. Wrist: the narrowest place beyond the fullest forearm, or where the girth changes least before the arm
 * ends. Elbow: beside the narrowest place above the forearm.
 *
 * @returns null where no arm lies beyond the armpit.
 */
export function findArm(search: ArmSearch): ArmLevels | null {
  const { mesh, armpit, sign, scale } = search;
  const piece = armPiece(mesh, armpit, sign);
  if (piece === null) return null;
  const tip = farthest(piece, armpit);
  const first = unit(triple((k) => armpit[k]! - tip[k]!));
  const rough = cutsAlong(piece, first, armpit);
  if (rough.length < 20) return null;
  const direction = unit(triple((k) => rough.at(-1)!.middle[k]! - rough[0]!.middle[k]!));
  const cuts = cutsAlong(piece, direction, armpit);
  if (cuts.length < 20) return null;
  const axis = axisOf(cuts, direction);
  const shoulder = axis.at(shoulderLevel(axis, piece, search));
  const length = axis.levelOf(shoulder) - cuts[0]!.level;
  if (length < 0.15 * scale) return null;
  const girth = eased(
    profileOf(cuts, (cut) => cut.girth),
    2,
  );
  const { wrist, doesEnd } = wristOf(girth, length);
  const shoulderAt = axis.levelOf(shoulder);
  const elbow = elbowOf(girth, wrist, shoulderAt);
  return {
    shoulder,
    levels: {
      upperArm: axis.at(shoulderAt + UPPER_ARM_SHARE * (elbow - shoulderAt)),
      elbow: axis.at(elbow),
      wrist: axis.at(wrist),
    },
    doesEnd,
  };
}

/** Triangles beyond the armpit that hang together with the highest of them; null where there are few. */
function armPiece(
  { positions, triangles }: TriangleMesh,
  armpit: Readonly<Triple>,
  sign: 1 | -1,
): TriangleMesh | null {
  const beyond = (v: number): boolean => sign * (positions[3 * v]! - armpit[0]) > 0.001;
  const inside: number[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    if (beyond(triangles[i]!) && beyond(triangles[i + 1]!) && beyond(triangles[i + 2]!)) inside.push(i);
  }
  const parent = new Map<number, number>();
  const root = (v: number): number => {
    let at = v;
    for (let up = parent.get(at); up !== undefined; up = parent.get(at)) {
      // Halves the way for whoever asks next.
      const beyond = parent.get(up);
      if (beyond !== undefined) parent.set(at, beyond);
      at = up;
    }
    return at;
  };
  const join = (a: number, b: number): void => {
    const [ra, rb] = [root(a), root(b)];
    if (ra !== rb) parent.set(Math.max(ra, rb), Math.min(ra, rb));
  };
  for (const i of inside) {
    join(triangles[i]!, triangles[i + 1]!);
    join(triangles[i + 1]!, triangles[i + 2]!);
  }
  let highest = -1;
  for (const i of inside) {
    if (highest < 0 || positions[3 * triangles[i]! + 1]! > positions[3 * highest + 1]!)
      highest = triangles[i]!;
  }
  if (highest < 0) return null;
  const own = root(highest);
  const kept = inside.filter((i) => root(triangles[i]!) === own);
  if (kept.length < 60) return null;
  return {
    positions,
    triangles: Uint32Array.from(kept.flatMap((i) => [triangles[i]!, triangles[i + 1]!, triangles[i + 2]!])),
  };
}

function farthest({ positions, triangles }: TriangleMesh, from: Readonly<Triple>): Triple {
  let best = -1;
  let at = triangles[0]!;
  for (const v of triangles) {
    const distance = Math.hypot(...from.map((value, k) => positions[3 * v + k]! - value));
    if (distance > best) [best, at] = [distance, v];
  }
  return triple((k) => positions[3 * at + k]!);
}

/**
 * Vertices of the skin beyond an armpit that hang together with the shoulder: the arm, in a frame in which the wearer
 * faces +z.
 */
export function armPieceVertices(
  mesh: TriangleMesh,
  armpit: Readonly<Triple>,
  sign: 1 | -1,
): ReadonlySet<number> {
  return new Set(armPiece(mesh, armpit, sign)?.triangles ?? []);
}

interface ArmCut {
  /** Along the direction, from hand to shoulder, m. */
  readonly level: number;
  readonly girth: number;
  readonly middle: Triple;
}

/** Cuts square to a direction, as far as the piece is closed all round. */
function cutsAlong(piece: TriangleMesh, direction: Readonly<Triple>, armpit: Readonly<Triple>): ArmCut[] {
  const frame = frameAlong(direction);
  const slicer = slicerOf(meshInFrame(frame, piece));
  const last = Math.min(slicer.high, dot(frame.y, armpit) + 0.1);
  const cuts: ArmCut[] = [];
  let middle: readonly [number, number] | null = null;
  for (let i = 0; i < CUT_COUNT; i++) {
    const level = slicer.low + ((i + 0.5) / CUT_COUNT) * (last - slicer.low);
    const slices: readonly Slice[] = slicer.at(level);
    const slice: Slice | null = middle === null ? (slices[0] ?? null) : sliceRound(slices, middle, 0.05);
    // Beyond the armpit the piece is open: its cuts close no more.
    if (slice === null) {
      if (middle === null) continue;
      break;
    }
    middle = slice.centroid;
    cuts.push({ level, girth: slice.girth, middle: outOfFrame(frame, [middle[0], level, middle[1]]) });
  }
  return cuts;
}

interface Axis {
  readonly at: (level: number) => Triple;
  readonly levelOf: (point: Readonly<Triple>) => number;
}

/** The line of middles, eased; straight on beyond its ends. */
function axisOf(cuts: readonly ArmCut[], direction: Readonly<Triple>): Axis {
  const levels = cuts.map(({ level }) => level);
  const lines = [0, 1, 2].map(
    (k) => eased({ levels, values: cuts.map(({ middle }) => middle[k]!) }, 20).values,
  );
  const step = levels[1]! - levels[0]!;
  const span = 8;
  const place = (level: number): number => (level - levels[0]!) / step;
  const slope = (from: number, to: number): Triple =>
    triple((k) => (lines[k]![to]! - lines[k]![from]!) / (to - from));
  const last = levels.length - 1;
  const at = (level: number): Triple => {
    const i = place(level);
    if (i <= 2) return triple((k) => lines[k]![2]! + (i - 2) * slope(2, 2 + span)[k]!);
    if (i >= last - 2)
      return triple((k) => lines[k]![last - 2]! + (i - last + 2) * slope(last - 2 - 3 * span, last - 2)[k]!);
    const low = Math.floor(i);
    return triple((k) => lines[k]![low]! + (i - low) * (lines[k]![low + 1]! - lines[k]![low]!));
  };
  return { at, levelOf: (point) => dot(direction, point) };
}

/** On a hanging arm a little below the top of the shoulder, on a lifted one right over the armpit. */
function shoulderLevel(axis: Axis, piece: TriangleMesh, { armpit, scale }: ArmSearch): number {
  const from = axis.levelOf(armpit);
  const [here, ahead] = [axis.at(from), axis.at(from + 0.05)];
  const [dx, dy] = [(ahead[0] - here[0]) / 0.05, (ahead[1] - here[1]) / 0.05];
  if (dy <= 0.5) return from + Math.min((armpit[0] - here[0]) / dx, JOINT_FROM_ARMPIT * scale);
  let top = -Infinity;
  for (const v of piece.triangles) top = Math.max(top, piece.positions[3 * v + 1]!);
  return from + (top - JOINT_BELOW_TOP * scale - here[1]) / dy;
}

/** The narrowest place of the half away from the shoulder; at an arm's end, where its girth changes least. */
function wristOf(girth: Profile, length: number): { wrist: number; doesEnd: boolean } {
  const end = girth.levels[0]!;
  const lower = between(girth, end, end + 0.55 * length);
  const narrowest = hollows(lower, 0.05 * length).at(0);
  if (narrowest !== undefined && lower.levels[narrowest]! < end + 0.4 * length) {
    return { wrist: vertexAt(lower, narrowest), doesEnd: false };
  }
  const slope = between(slopes(girth), end, end + 0.12 * length);
  const flattest = slope.values.indexOf(Math.min(...slope.values));
  return { wrist: vertexAt(slope, flattest), doesEnd: true };
}

function elbowOf(girth: Profile, wrist: number, shoulder: number): number {
  const length = shoulder - wrist;
  const middle = between(girth, wrist + 0.15 * length, wrist + 0.75 * length);
  const fullest = peaks(middle, 0.06 * length)[0];
  const above = hollows(middle, 0.06 * length).find((i) => fullest !== undefined && i > fullest);
  if (fullest === undefined || above === undefined) return shoulder + ELBOW_PROPORTION * (wrist - shoulder);
  const [forearm, narrow] = [vertexAt(middle, fullest), vertexAt(middle, above)];
  return narrow + ELBOW_SHARE * (forearm - narrow);
}
