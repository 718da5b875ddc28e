import type { Triple } from '../mesh/triple.ts';
import type { Column, LegColumns } from './landmark-legs.ts';
import {
  bends,
  between,
  eased,
  highestAt,
  hollows,
  lowestAt,
  median,
  peaks,
  profileOf,
  slopes,
  vertexAt,
} from './landmark-profile.ts';
import type { TrunkLevelName } from './landmarks.ts';
import { alongRay, sliceRound, type Slice, type Slicer } from './tape-slices.ts';

/** What is found on a trunk that faces +z. */
export interface TrunkLevels {
  readonly levels: Readonly<Partial<Record<TrunkLevelName, number>>>;
  /** Where the arms leave the trunk; left out for a trunk without arms. */
  readonly armpits: { readonly left?: Triple; readonly right?: Triple };
  /** True where no narrowest place was met between ribs and hips. */
  readonly isWaistByProportion: boolean;
  /** True where the neck has no narrowest place: the body ends there. */
  readonly doesNeckEnd: boolean;
}

/** The trunk's own loop level by level, from the crotch to the top; arms apart from it are left out. */
export function trunkColumn(slicer: Slicer, { crotch, tops }: LegColumns, step: number): Column {
  const column: Slice[] = [];
  let middle: readonly [number, number] = [(tops[0][0] + tops[1][0]) / 2, (tops[0][1] + tops[1][1]) / 2];
  for (let level = crotch + step; level < slicer.high; level += step) {
    const slice = sliceRound(slicer.at(level), middle, 20 * step);
    if (slice === null) break;
    column.push(slice);
    middle = slice.centroid;
  }
  return column;
}

/**
 * Lengths that no proportion gives, for a leg whose crotch stands 763 mm high (that of the fit body); scaled with it. Set
 * by hand: a finger's breadth from the fold of the breast to the tape below it, ...
 */
const FINGER = 0.02;
/** ... from the armpit down to a chest tape, which lies "well up under the arms" (common practice). */
const UNDER_ARM = 0.025;
/** The fold lies no deeper below the foremost point; farther down the waist bends too. Set by hand. */
const BREAST_HEIGHT = 0.085;
/**
 * How deep the cleft between the foremost places must be to make a bust, and how deep to make one surely. Set by
 * hand.
 */
const CLEAVAGE = { least: 0.003, sure: 0.012 } as const;

/**
 * Where the ISO waist, half way from the lowest rib to the top of the hip bone, lies between hip and bust (women,
 * 0.569) or between hip and chest (men: 0.504 up to the nipples; raised by hand to 0.55 for a chest tape that lies
 * under the arms).
 *
 * @see ANSUR II, public data of 1986 women and 4082 men (2012): mean heights of tenth rib, iliocristale, buttock and
 *   chest (women 105.63, 99.57, 83.37, 117.16 cm), computed here.
 */
const WAIST_SHARE = { bust: 0.569, chest: 0.55 } as const;
/** An ordinary breast's foremost point stands so far above its fold, m; set by hand on the fit body. */
const FOLD_TO_POINT = 0.054;
/** The hip lies so far from the largest girth to the greatest prominence of the seat; set by hand on the fit body. */
const SEAT_WEIGHT = 0.1;
/** The high hip lies so far from hip to waist; set by hand on the fit body. */
const HIGH_HIP_SHARE = 0.575;

/**
 * Levels of the trunk from the outlines of its level sections.
 *
 * hip: between the largest girth and the greatest prominence of the seat. bust: where the front stands out most below
 * the armpits, if there is a cleft between; else the chest, just under the arms. underbust: a finger below the fold,
 * where the girth's slope bends most. waist: the middle one of three signs (narrowest girth, hollow of the back,
 * proportion), since rib and hip bone cannot be seen. neck: smallest girth above the shoulders, or where it changes
 * least before the body ends.
 *
 * @param scale - Height of the crotch over that of the fit body.
 */
export function trunkLevels(slicer: Slicer, column: Column, scale: number): TrunkLevels {
  const low = column[0]!.level;
  const armpits = findArmpits(slicer, column);
  const shoulder = Math.min(armpits.left?.[1] ?? Infinity, armpits.right?.[1] ?? Infinity);
  const top = Number.isFinite(shoulder) ? shoulder : low + 0.63 * (column.at(-1)!.level - low);
  // The root of the arm swells the trunk just below the armpit.
  const trunk = column.filter(({ level }) => level < top - 0.002);
  const seat = lowestAt(
    between(
      profileOf(trunk, ({ lowZ }) => lowZ),
      low,
      low + 0.35 * (top - low),
    ),
  );
  const girth = profileOf(trunk, (slice) => slice.girth);
  const widest = highestAt(between(girth, Math.max(low, seat - 0.03 * scale), seat + 0.03 * scale));
  const hip = widest + SEAT_WEIGHT * (seat - widest);
  const chest = bustOrChest(trunk, { hip, top, scale });
  const waist = waistOf(trunk, { ...chest, hip, scale });
  const neck = neckOf(column, top);
  return {
    levels: {
      ...(neck !== null && { neck: neck.level }),
      ...(chest.fold === null
        ? { chest: chest.level }
        : { bust: chest.level, underbust: chest.fold - FINGER * scale }),
      waist: waist.level,
      topHip: hip + HIGH_HIP_SHARE * (waist.level - hip),
      hip,
    },
    armpits,
    isWaistByProportion: !waist.isNarrowest,
    doesNeckEnd: neck !== null && neck.doesEnd,
  };
}

interface Chest {
  readonly level: number;
  /** Where the breast meets the ribs; null on a chest without. */
  readonly fold: number | null;
}

function bustOrChest(trunk: Column, { hip, top, scale }: { hip: number; top: number; scale: number }): Chest {
  const upper = trunk.filter(({ level }) => level > hip + 0.5 * (top - hip));
  const front = profileOf(upper, ({ highZ }) => highZ);
  const foremost = peaks(front, 0.03 * scale).at(-1);
  if (foremost === undefined || !isBreast(trunk, upper[foremost]!, scale)) {
    return { level: top - UNDER_ARM * scale, fold: null };
  }
  const level = vertexAt(front, foremost);
  const girth = eased(
    profileOf(trunk, (slice) => slice.girth),
    2,
  );
  const bend = between(bends(girth, 0.006 * scale), level - BREAST_HEIGHT * scale, level - 0.015 * scale);
  return { level, fold: highestAt(bend) };
}

/**
 * A breast parts the front deeply, or a little and the girth falls again above it; a man's chest widens up to the
 * arms.
 */
function isBreast(trunk: Column, foremost: Slice, scale: number): boolean {
  const depth = cleft(foremost) / scale;
  if (depth > CLEAVAGE.sure) return true;
  if (depth < CLEAVAGE.least) return false;
  const near = trunk.filter(({ level }) => Math.abs(level - foremost.level) < 0.03 * scale);
  const largest = Math.max(...near.map(({ girth }) => girth));
  return near.at(-1)!.girth < largest;
}

/** How far the middle of the front lies behind the foremost places beside it. */
function cleft(slice: Slice): number {
  const middle = alongRay(slice, [slice.centroid[0], slice.centroid[1]], [0, 1]);
  return middle === null ? 0 : slice.highZ - middle[1];
}

function waistOf(
  trunk: Column,
  at: Chest & { readonly hip: number; readonly scale: number },
): { level: number; isNarrowest: boolean } {
  const ribs = at.fold ?? at.level;
  const share = at.fold === null ? WAIST_SHARE.chest : WAIST_SHARE.bust;
  // Large breasts raise the foremost point and sink the fold; the ribs behind them stay.
  const chest = at.fold === null ? at.level : Math.min(at.level, at.fold + FOLD_TO_POINT * at.scale);
  const byProportion = at.hip + share * (chest - at.hip);
  const [from, to] = [at.hip + 0.35 * (ribs - at.hip), at.hip + 0.8 * (ribs - at.hip)];
  const girth = between(
    profileOf(trunk, (slice) => slice.girth),
    from,
    to,
  );
  const back = between(
    profileOf(trunk, ({ lowZ }) => lowZ),
    from,
    to,
  );
  const narrowest = hollows(girth, 0.1 * (ribs - at.hip))[0];
  const signs = [highestAt(back), byProportion];
  // A chest hardly narrows towards the waist: proportion counts twice.
  if (at.fold === null) signs.push(byProportion);
  if (narrowest !== undefined) signs.push(vertexAt(girth, narrowest));
  return { level: median(signs), isNarrowest: narrowest !== undefined };
}

/** Widths jump by so much of the half width where an arm joins. */
const ARM_JUMP = 0.2;

/** Going up, the first level above the waist at which an arm joins, on each side. */
function findArmpits(slicer: Slicer, column: Column): TrunkLevels['armpits'] {
  const low = column[0]!.level;
  const from = low + 0.35 * (column.at(-1)!.level - low);
  const found: { left?: Triple; right?: Triple } = {};
  for (const side of ['left', 'right'] as const) {
    const sign = side === 'left' ? 1 : -1;
    const reach = (slice: Slice): number =>
      sign > 0 ? slice.highX - slice.centroid[0] : slice.centroid[0] - slice.lowX;
    const above = column.findIndex((slice, i) => {
      const before = column[i - 1];
      if (before === undefined || slice.level < from) return false;
      return (sign > 0 ? slice.highX - before.highX : before.lowX - slice.lowX) > ARM_JUMP * reach(before);
    });
    if (above < 1) continue;
    found[side] = armpitBetween(slicer, column[above - 1]!, column[above]!.level, sign);
  }
  return found;
}

/** Halves the step below an armpit; the point lies between trunk and arm just before they meet. */
function armpitBetween(slicer: Slicer, below: Slice, joined: number, sign: 1 | -1): Triple {
  let trunk = below;
  let high = joined;
  for (let round = 0; round < 6; round++) {
    const level = (trunk.level + high) / 2;
    const slice = sliceRound(slicer.at(level), trunk.centroid, joined - below.level + 0.02);
    if (slice === null) break;
    const jump = sign > 0 ? slice.highX - trunk.highX : trunk.lowX - slice.lowX;
    if (jump > 0.5 * ARM_JUMP * (trunk.highX - trunk.lowX) * 0.5) high = level;
    else trunk = slice;
  }
  const edge = sign > 0 ? trunk.highX : trunk.lowX;
  const arm = slicer
    .at(trunk.level)
    .filter((slice) => sign * (slice.centroid[0] - edge) > 0)
    .sort((one, other) => sign * (one.centroid[0] - other.centroid[0]))[0];
  const side = outermostAt(trunk, sign);
  if (arm === undefined) return [side[0], trunk.level, side[1]];
  const inner = outermostAt(arm, sign > 0 ? -1 : 1);
  return [(side[0] + inner[0]) / 2, trunk.level, (side[1] + inner[1]) / 2];
}

function outermostAt({ points }: Slice, sign: 1 | -1): readonly [number, number] {
  let at = 0;
  for (let i = 0; i < points.length; i += 2) if (sign * (points[i]! - points[at]!) > 0) at = i;
  return [points[at]!, points[at + 1]!];
}

/** Above the shoulders: the lowest narrowest place; where the neck is cut off, where its girth changes least. */
function neckOf(column: Column, armpit: number): { level: number; doesEnd: boolean } | null {
  const above = column.filter(({ level }) => level > armpit);
  if (above.length < 8) return null;
  const widest = Math.max(...above.map(({ girth }) => girth));
  const first = above.findIndex(({ girth }) => girth < 0.5 * widest);
  const neck = above.slice(first);
  if (first < 0 || neck.length < 5) return null;
  const girth = eased(
    profileOf(neck, (slice) => slice.girth),
    1,
  );
  const narrowest = hollows(girth, 0.1 * (girth.levels.at(-1)! - girth.levels[0]!))[0];
  if (narrowest !== undefined) return { level: vertexAt(girth, narrowest), doesEnd: false };
  const slope = slopes(girth);
  const flattest = slope.values.indexOf(Math.max(...slope.values));
  return { level: vertexAt(slope, flattest), doesEnd: true };
}
