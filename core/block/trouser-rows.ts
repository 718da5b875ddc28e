import type { Body } from '../body/body.ts';
import type { Landmarks } from '../body/landmarks.ts';
import { Fault } from '../fault/fault.ts';
import { triple, type Triple } from '../mesh/triple.ts';
import { monotoneCubic, valueAt, type MonotoneCubic } from '../units/monotone-cubic.ts';
import { BLOCK_LEVELS, type BlockLevel, type TrouserSheet } from './block-sheet.ts';
import type { DraftedMeasure } from './drafted-block.ts';
import { bodyRow, type BodyRow } from './body-rows.ts';

/** Both panels of a half. */
export type Side = 'front' | 'back';

/** Rows of the body that a draft is taken from, on the trunk and on the leg. */
const ROWS = { trunk: 24, leg: 20 };
/** Rows that guide cloth down a leg are this far apart, m. */
const APART = 0.12;
/** Rows stay this far from the crotch, where one becomes two, m. */
const CLEAR_OF_CROTCH = 0.02;
/** Levels nearer to the hem than this, or below it, are the hem, m. */
const CLEAR_OF_HEM = 0.01;
/** Without these girths nothing can be drafted. */
const NEEDED = ['waist', 'hip', 'thigh', 'hem'] as const;

/** The body as the draft sees it; ways are along its side from the hem up. */
export interface TrouserRows {
  readonly waist: BodyRow;
  readonly hip: BodyRow;
  readonly hem: BodyRow;
  /** Between thigh and hem, so close that cloth laid between them goes round the leg the right way. */
  readonly along: readonly BodyRow[];
  readonly crotch: Triple;
  /** Relaxed way along the side seam by height, m. */
  readonly way: MonotoneCubic;
  /** Relaxed over body girth by height, and relaxed over body length of the side seam. */
  readonly ratio: MonotoneCubic;
  readonly scale: number;
  readonly measures: readonly DraftedMeasure[];
  /** Relaxed widths by way, m. */
  readonly trunk: Readonly<Record<Side, MonotoneCubic>>;
  readonly leg: Readonly<Record<Side, MonotoneCubic>>;
}

/**
 * Reads the body where the draft needs it and turns it into the relaxed measures of the sheet.
 *
 * @throws {Fault} `block/no-landmark`, `block/girth-missing`; `garment/...` where the body has no such row.
 */
export function trouserRows({ skin, landmarks }: Body, { girths, lengths, laid }: TrouserSheet): TrouserRows {
  for (const level of NEEDED) {
    if (girths[level] === undefined) throw new Fault('block/girth-missing', { level });
  }
  const heights = levelHeights(landmarks, { laid, inseam: lengths.inseam });
  const { crotch } = heights;
  const rowAt = (height: number) => bodyRow(skin, height > crotch[1] ? 'trunk' : 'leftLeg', height);
  const leg = between(heights.hem, crotch[1] - CLEAR_OF_CROTCH, ROWS.leg).map(rowAt);
  const trunk = between(crotch[1] + CLEAR_OF_CROTCH, heights.waist, ROWS.trunk).map(rowAt);
  // What ends at the ankle has one girth there: the hem's.
  const isOwn = (level: BlockLevel): boolean =>
    level === 'hem' || heightOf(heights, level) > heights.hem + CLEAR_OF_HEM;
  const known = BLOCK_LEVELS.filter((level) => girths[level] !== undefined && isOwn(level))
    .map((level) => {
      const row = rowAt(heightOf(heights, level));
      const whole = (row.height > crotch[1] ? 2 : 1) * (row.front + row.back);
      return { name: level, height: row.height, relaxed: girths[level]!, body: whole };
    })
    .toSorted((one, other) => one.height - other.height);
  const ratio = monotoneCubic(
    known.map(({ height }) => height),
    known.map(({ relaxed, body: whole }) => relaxed / whole),
  );
  const all = [...leg, ...trunk];
  const along = [0];
  for (let i = 1; i < all.length; i++) {
    along.push(along[i - 1]! + Math.hypot(...triple((k) => all[i]!.side[k]! - all[i - 1]!.side[k]!)));
  }
  const scale = lengths.side / along.at(-1)!;
  const way = monotoneCubic(
    all.map(({ height }) => height),
    along.map((one) => scale * one),
  );
  const widths = (some: readonly BodyRow[], side: Side) =>
    monotoneCubic(
      some.map(({ height }) => valueAt(way, height)),
      some.map((row) => valueAt(ratio, row.height) * row[side]),
    );
  const both = (some: readonly BodyRow[]) => ({ front: widths(some, 'front'), back: widths(some, 'back') });
  const every = (APART * (ROWS.leg - 1)) / (leg.at(-1)!.height - heights.hem);
  return {
    waist: trunk.at(-1)!,
    hip: rowAt(heights.hip),
    hem: leg[0]!,
    along: leg.filter(
      (_, i) => i > 0 && i < leg.length - 1 && Math.floor(i / every) > Math.floor((i - 1) / every),
    ),
    crotch,
    way,
    ratio,
    scale,
    measures: [...known.toReversed(), { name: 'side', relaxed: lengths.side, body: along.at(-1)! }],
    trunk: both(trunk),
    leg: both(leg),
  };
}

const between = (low: number, high: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => low + ((high - low) * i) / (count - 1));

/** Heights on the body; of levels that a body need not have, null. */
type LevelHeights = Readonly<Record<BlockLevel, number | null>> & {
  readonly waist: number;
  readonly hip: number;
  readonly hem: number;
  readonly crotch: Triple;
};

function levelHeights(
  landmarks: Landmarks,
  { laid, inseam }: { readonly laid: TrouserSheet['laid']; readonly inseam: number },
): LevelHeights {
  const pointOf = (name: keyof Landmarks): Readonly<Triple> => {
    const landmark = landmarks[name];
    if (!landmark) throw new Fault('block/no-landmark', { landmark: name });
    return landmark.point;
  };
  const heightIf = (name: keyof Landmarks): number | null => landmarks[name]?.point[1] ?? null;
  const crotch = pointOf('crotch');
  return {
    crotch: [crotch[0], crotch[1], crotch[2]],
    waist: laid?.waist ?? pointOf('waistFront')[1],
    topHip: heightIf('topHipFront'),
    hip: pointOf('hipFront')[1],
    // As high as one leg is by itself.
    thigh: Math.min(pointOf('thighLeft')[1], crotch[1] - CLEAR_OF_CROTCH),
    midThigh: heightIf('midThighLeft'),
    knee: heightIf('kneeLeft'),
    calf: heightIf('calfLeft'),
    ankle: heightIf('ankleLeft'),
    hem: laid?.hem ?? crotch[1] - inseam,
  };
}

function heightOf(heights: LevelHeights, level: BlockLevel): number {
  const height = heights[level];
  if (height === null) throw new Fault('block/no-landmark', { landmark: level });
  return height;
}
