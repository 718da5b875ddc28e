import {
  bends,
  between,
  eased,
  highestAt,
  hollows,
  lowestAt,
  profileOf,
  slopes,
  vertexAt,
} from './landmark-profile.ts';
import type { LegLevelName } from './landmarks.ts';
import { sliceRound, type Slice, type Slicer } from './tape-slices.ts';

/** Level cuts of one leg or of the trunk, rising. */
export type Column = readonly Slice[];

/** The two legs as far as they are apart, and where they meet. */
export interface LegColumns {
  /** In no order of sides. */
  readonly legs: readonly [Column, Column];
  /** The highest level at which they are apart, m. */
  readonly crotch: number;
  /** Middles of both legs just below it; x, z. */
  readonly tops: readonly [Point, Point];
  /** Set where the thighs have grown together below the crotch: from there up, m. */
  readonly joinedFrom: number | null;
}

type Point = readonly [number, number];

/** Levels are looked at in steps of this share of the body's height. */
export const LEVEL_SHARE = 1 / 400;
/** Legs are first looked for from here to there, as shares of the height: below hanging hands, above feet. */
const LEG_SEARCH = [0.06, 0.4] as const;
/** Legs that stay together over this share of the height are the trunk. */
const TRUNK_FROM = 0.08;
/** From one level to the next a leg's middle moves less than this share of the height. */
const STRAY = 0.05;

/**
 * Follows both legs from the shin upwards until they stay one piece, and down to the ground.
 *
 * @returns null where there are no two legs: a torso, a skirt, a seated or lying body.
 */
export function findLegs(slicer: Slicer): LegColumns | null {
  const height = slicer.high - slicer.low;
  const step = height * LEVEL_SHARE;
  const start = startLevel(slicer, height);
  if (start === null) return null;
  const up = climb(slicer, start, { step, reach: STRAY * height, last: slicer.high });
  const down = climb(slicer, start, { step: -step, reach: STRAY * height, last: slicer.low });
  const joined = up.joined;
  const trunk = trunkStart(joined, Math.round(TRUNK_FROM / LEVEL_SHARE));
  if (trunk === null || trunk === 0) return null;
  const apart = up.levels[trunk - 1]!;
  const crotch = highestApart(slicer, apart, up.centres[trunk - 1]!, step);
  const columnOf = (leg: 0 | 1): Column => [
    ...down.slices[leg].toReversed(),
    ...up.slices[leg].slice(1, trunk),
  ];
  const firstJoin = joined.indexOf(true);
  return {
    legs: [columnOf(0), columnOf(1)],
    crotch,
    tops: up.centres[trunk - 1]!,
    joinedFrom: firstJoin < trunk ? up.levels[firstJoin]! : null,
  };
}

interface Start {
  readonly level: number;
  readonly pair: readonly [Slice, Slice];
}

/** A level with two pieces alike in size and nothing else to speak of, as near as can be to a fifth of the height. */
function startLevel(slicer: Slicer, height: number): Start | null {
  const [from, to] = LEG_SEARCH;
  const shares = Array.from({ length: 35 }, (_, i) => from + ((to - from) * i) / 34);
  shares.sort((one, other) => Math.abs(one - 0.2) - Math.abs(other - 0.2));
  for (const share of shares) {
    const level = slicer.low + share * height;
    const [first, second, third] = slicer.at(level);
    if (first === undefined || second === undefined) continue;
    const isPair = second.area > 0.5 * first.area && (third === undefined || third.area < 0.3 * first.area);
    if (isPair) return { level, pair: [first, second] };
  }
  return null;
}

interface Climb {
  readonly levels: number[];
  readonly slices: readonly [Slice[], Slice[]];
  readonly joined: boolean[];
  readonly centres: (readonly [Point, Point])[];
}

/** Follows both middles level by level; where they are in one piece, they go straight on. */
function climb(
  slicer: Slicer,
  { level: start, pair }: Start,
  way: { readonly step: number; readonly reach: number; readonly last: number },
): Climb {
  const found: Climb = { levels: [], slices: [[], []], joined: [], centres: [] };
  let centres: readonly [Point, Point] = [pair[0].centroid, pair[1].centroid];
  for (let level = start; (way.last - level) * way.step > 0; level += way.step) {
    const slices = slicer.at(level);
    const [one, other] = [
      sliceRound(slices, centres[0], way.reach),
      sliceRound(slices, centres[1], way.reach),
    ];
    if (one === null || other === null) break;
    const isJoined = one === other;
    if (!isJoined) centres = [one.centroid, other.centroid];
    found.levels.push(level);
    found.slices[0].push(one);
    found.slices[1].push(other);
    found.joined.push(isJoined);
    found.centres.push(centres);
  }
  return found;
}

/** Index of the first level from which the legs stay one piece. */
function trunkStart(joined: readonly boolean[], count: number): number | null {
  let run = 0;
  for (const [i, isJoined] of joined.entries()) {
    run = isJoined ? run + 1 : 0;
    if (run === count) return i - count + 1;
  }
  return null;
}

/** Halves the step between the last level apart and the first together, to a hundredth of it. */
function highestApart(slicer: Slicer, apart: number, tops: readonly [Point, Point], step: number): number {
  let [low, high] = [apart, apart + step];
  for (let round = 0; round < 7; round++) {
    const middle = (low + high) / 2;
    const slices = slicer.at(middle);
    const isApart = sliceRound(slices, tops[0], step) !== sliceRound(slices, tops[1], step);
    if (isApart) low = middle;
    else high = middle;
  }
  return low;
}

/** Levels of one leg that faces +z. */
export interface LegLevels {
  readonly levels: Readonly<Record<LegLevelName, number>>;
  /** True where the leg ends at the ankle. */
  readonly doesEnd: boolean;
}

/**
 * Lengths on the fit body, whose crotch stands 763 mm high; scaled with it, m. Set by hand: below the crotch to a
 * thigh tape, ...
 */
const BELOW_CROTCH = 0.024;
/** ... from the middle of the kneecap up to where the thigh is counted from, ... */
const KNEE_TO_THIGH = 0.011;
/** ... and how far above and below it the leg's front is compared with it. */
const KNEE_REACH = 0.018;

/**
 * Levels of a leg, from the girths and the front outline of its level sections.
 *
 * calf: the largest girth of the lower leg. knee: where the front stands out most before the chord from shin to
 * thigh, the middle of the kneecap. ankle: the smallest girth, or where it changes least before the leg ends. thigh:
 * 24 mm below the crotch (common practice: an inch). midThigh: half way from the crotch to just above the middle of
 * the kneecap.
 */
export function legLevels(leg: Column, at: { crotch: number; floor: number; scale: number }): LegLevels {
  const { crotch, floor, scale } = at;
  const share = (of: number): number => floor + of * (crotch - floor);
  const girth = eased(
    profileOf(leg, (slice) => slice.girth),
    2,
  );
  const calf = highestAt(between(girth, share(0.3), share(0.56)));
  const front = eased(
    profileOf(leg, ({ highZ }) => highZ),
    2,
  );
  const knee = lowestAt(between(bends(front, KNEE_REACH * scale), share(0.53), share(0.72)));
  const ankles = between(girth, leg[0]!.level, share(0.3));
  const narrowest = hollows(ankles, 0.02 * scale)[0];
  const slope = between(slopes(girth), leg[0]!.level, share(0.25));
  const flattest = slope.values.indexOf(Math.min(...slope.values));
  return {
    levels: {
      thigh: crotch - BELOW_CROTCH * scale,
      midThigh: (crotch + knee + KNEE_TO_THIGH * scale) / 2,
      knee,
      calf,
      ankle: narrowest === undefined ? vertexAt(slope, flattest) : vertexAt(ankles, narrowest),
    },
    doesEnd: narrowest === undefined,
  };
}
