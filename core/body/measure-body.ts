import type { Finding } from '../fault/finding.ts';
import { sectionAt } from '../mesh/section.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { triple, type Triple } from '../mesh/triple.ts';
import { mmFromMetres } from '../units/units.ts';
import type { BodyHeight, BodyTape, TapeLine, TapeReading } from './body-tape.ts';
import { findLandmarks } from './landmark-find.ts';
import {
  LEG_LEVEL_NAMES,
  TRUNK_LEVEL_NAMES,
  type LandmarkName,
  type Landmarks,
  type PlacedLandmarks,
} from './landmarks.ts';
import { extentOf } from '../mesh/extent.ts';
import { tapeLines } from './tape-lines.ts';
import { withPlaced } from './tape-place.ts';
import { readTape, REACH, type TapeCut } from './tape-read.ts';
import { sliceRound } from './tape-slices.ts';

/** What is to be measured besides what the shape itself tells. */
export interface TapeWishes {
  /** What the body already knows of itself; found on the skin when left out. */
  readonly known?: {
    readonly landmarks: Landmarks;
    readonly floor: number;
    readonly forward: Readonly<Triple>;
    readonly findings?: readonly Finding[];
  };
  /** Landmarks placed by hand, m. */
  readonly placed?: PlacedLandmarks;
  /** Tapes of the wearer's own, at any level and tilt; one with the name and side of a found one lies in its stead. */
  readonly lines?: readonly TapeLine[];
}

/**
 * Measures a standing body as a tape would: the ISO 8559-1 set that its landmarks allow, the wearer's own lines, heights.
 *
 * Thighs that have grown together are parted half way between the two legs, which a finding says; an arm that has grown
 * together with the trunk is left out.
 *
 * @param skin - m, y up, closed.
 */
export function measureBody(skin: TriangleMesh, wishes: TapeWishes = {}): BodyTape {
  const known = wishes.known ?? findLandmarks(skin);
  const landmarks =
    wishes.placed === undefined
      ? known.landmarks
      : withPlaced(skin, known.landmarks, wishes.placed, known.forward);
  const findings: Finding[] = [...(known.findings ?? [])];
  const readings: TapeReading[] = [];
  const own = wishes.lines ?? [];
  const found = tapeLines(landmarks).filter(
    ({ name, side }) => !own.some((line) => line.name === name && line.side === side),
  );
  for (const line of [...found, ...own]) {
    const { reading, finding } = readApart(skin, line, { landmarks, floor: known.floor });
    if (finding !== null) findings.push(finding);
    if (reading !== null) readings.push(reading);
  }
  return {
    landmarks,
    floor: known.floor,
    forward: known.forward,
    readings,
    heights: heightsOf(skin, landmarks, known.floor),
    findings,
  };
}

interface Measured {
  readonly reading: TapeReading | null;
  readonly finding: Finding | null;
}

/** A limb that is one piece with its neighbour is cut from it where that makes sense. */
function readApart(
  skin: TriangleMesh,
  line: TapeLine,
  { landmarks, floor }: { landmarks: Landmarks; floor: number },
): Measured {
  if (line.kind === 'trunk') return { reading: readTape(skin, line, { floor }), finding: null };
  const cut = isLeg(line) ? cutBetweenLegs(skin, line, landmarks) : undefined;
  const reading = readTape(skin, line, { floor, ...(cut !== undefined && { cut }) });
  const joins = cut !== undefined || (reading !== null && goesRoundTrunk(reading, landmarks));
  if (!joins || reading === null) return { reading, finding: null };
  const facts = { level: `${line.name} ${line.side}`, girthMm: mmFromMetres(reading.girth) };
  return {
    reading: cut === undefined ? null : reading,
    finding: { code: cut === undefined ? 'tape/pieces-join' : 'tape/thighs-parted', facts },
  };
}

const isLeg = ({ name }: TapeLine): boolean => LEG_LEVEL_NAMES.some((level) => level === name);

/** Set where the piece of a leg is also that of the other leg. */
function cutBetweenLegs(skin: TriangleMesh, line: TapeLine, landmarks: Landmarks): TapeCut | undefined {
  const name = LEG_LEVEL_NAMES.find((level) => level === line.name);
  const [own, other] = line.side === 'left' ? (['Left', 'Right'] as const) : (['Right', 'Left'] as const);
  const here = landmarks[`${name ?? 'thigh'}${own}`]?.point;
  const there = landmarks[`${name ?? 'thigh'}${other}`]?.point;
  if (here === undefined || there === undefined) return undefined;
  const sections = sectionAt(skin, line.center[1]);
  const piece = sliceRound(sections, [here[0], here[2]], REACH);
  if (piece === null || piece !== sliceRound(sections, [there[0], there[2]], REACH)) return undefined;
  return {
    point: triple((k) => 0.5 * (here[k]! + there[k]!)),
    towards: triple((k) => here[k]! - there[k]!),
  };
}

/** Whether a tape meant for a limb goes round the middle of the trunk, by its reach. */
function goesRoundTrunk(reading: TapeReading, landmarks: Landmarks): boolean {
  const hip = landmarks.hipFront?.point;
  const back = landmarks.hipBack?.point;
  if (hip === undefined || back === undefined) return false;
  const [x, z] = [0.5 * (hip[0] + back[0]), 0.5 * (hip[2] + back[2])];
  const { points } = reading;
  let inside = false;
  for (let i = 0, j = points.length - 3; i < points.length; j = i, i += 3) {
    const [xi, zi, xj, zj] = [points[i]!, points[i + 2]!, points[j]!, points[j + 2]!];
    if (zi > z !== zj > z && x < ((xj - xi) * (z - zi)) / (zj - zi) + xi) inside = !inside;
  }
  return inside;
}

const HEIGHT_OF: readonly (readonly [BodyHeight['name'], LandmarkName])[] = [
  ...TRUNK_LEVEL_NAMES.map((name) => [name, `${name}Front`] as const),
  ['shoulder', 'shoulderLeft'],
  ['armpit', 'armpitLeft'],
  ['seatPoint', 'seatPointLeft'],
  ['crotch', 'crotch'],
  ...LEG_LEVEL_NAMES.map((name) => [name, `${name}Left`] as const),
];

/** Of the left side where there are two; the stature only where the body has a head above its neck. */
function heightsOf(skin: TriangleMesh, landmarks: Landmarks, floor: number): BodyHeight[] {
  const heights = HEIGHT_OF.flatMap(([name, landmark]): BodyHeight[] => {
    const at = landmarks[landmark];
    return at === undefined ? [] : [{ name, height: at.point[1] - floor }];
  });
  const top = extentOf(skin).high[1];
  const neck = landmarks.neckFront?.point[1];
  const hasHead = neck !== undefined && top - neck > HEAD_SHARE * (neck - floor);
  const all = hasHead ? [{ name: 'stature' as const, height: top - floor }, ...heights] : heights;
  return all.sort((one, other) => other.height - one.height);
}

/** Above the neck's tape a head stands at least so far, as a share of the neck's height; a bare neck ends sooner. */
const HEAD_SHARE = 0.08;
