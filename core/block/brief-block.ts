import type { Body } from '../body/body.ts';
import { Fault } from '../fault/fault.ts';
import type { PlacedPoint } from '../garment/place-pattern.ts';
import type { Triple } from '../mesh/triple.ts';
import { curveLength } from '../pattern/arc-length.ts';
import type { EdgeOf, FlatPoint, Panel } from '../pattern/pattern.ts';
import { mmFromMetres } from '../units/units.ts';
import { bodyRow, type BodyRow } from './body-rows.ts';
import type { BlockSheet } from './blocks.ts';
import type { DraftedBlock } from './drafted-block.ts';
import { curveBetween } from './flat-curves.ts';
import { gussetPanel, type GussetWidths } from './gusset.ts';
import { directionAt, pointAt } from './side-seam.ts';
import { rowsUpSide } from './rows-up-side.ts';
import { midlineOf, thighGap, type Midline } from './trunk-midline.ts';
import { relaxedWidths, seamPoints, truedHalf, type TruedHalf } from './trued-half.ts';
import type { Side } from './trouser-rows.ts';

const SIDES = ['front', 'back'] as const;
/** Ends of the gusset where the sheet gives none, m: invented, as many briefs have them. */
const GUSSET_ENDS = { front: 0.056, back: 0.068 };
/** Handles of the leg curves, as shares of their chord: the fuller the handles, the longer and more hollow the curve. */
const HANDLES = { least: 0.12, most: 0.7, back: 0.75, atGusset: 1.3, atSide: 0.85 };

const edge = (panel: string, name: string): EdgeOf => ({ panel, edge: name });

/**
 * Drafts a brief by halves: front, back, and a gusset of its own as wide between the thighs as the body has room there.
 *
 * The leg curves leave side seam and gusset square; they are as hollow as makes the leg opening the length that the sheet
 * gives.
 *
 * @throws {Fault} `block/no-landmark`, `block/opening-off`; `garment/...` where the body has no such row.
 */
export function draftBrief(body: Body, sheet: BlockSheet): DraftedBlock {
  const { skin, landmarks } = body;
  const { girths, lengths, laid = {} } = sheet;
  const side = lengths['side']!;
  const waist = laid['waist'] ?? heightOf(landmarks.waistFront, 'waistFront');
  const rows = rowsUpSide(skin, laid['legSide'] ?? waist - side, waist, side);
  const levels = { waist, topHip: landmarks.topHipFront?.point[1], hip: landmarks.hipFront?.point[1] };
  const measures = (['waist', 'topHip', 'hip'] as const)
    .filter((name) => girths[name] !== undefined)
    .map((name) => {
      const height = levels[name];
      if (height === undefined) throw new Fault('block/no-landmark', { landmark: name });
      const { front, back } = bodyRow(skin, 'trunk', height);
      return { name, height, relaxed: girths[name]!, body: 2 * (front + back) };
    });
  const knots = measures.map((one) => ({ way: rows.wayOf(one.height), ratio: one.relaxed / one.body }));
  const crotch = landmarks.crotch?.point;
  if (!crotch) throw new Fault('block/no-landmark', { landmark: 'crotch' });
  const widths: GussetWidths = {
    front: lengths['gussetFront'] ?? GUSSET_ENDS.front,
    middle: lengths['gussetWidth'] ?? thighGap(skin, crotch[1]),
    back: lengths['gussetBack'] ?? GUSSET_ENDS.back,
  };
  const gusset = gussetPanel(widths, lengths['gussetLength']!);
  const widthsOf = (panel: Side) =>
    relaxedWidths(
      rows.rows.map((row, i) => ({ way: rows.ways[i]!, length: row[panel] })),
      knots,
    );
  const halves = {
    front: truedHalf(widthsOf('front').widthAt, side),
    back: truedHalf(widthsOf('back').widthAt, side),
  };
  const gussetLeg = curveLength(gusset.edges.find(({ name }) => name === 'leg')!.points);
  const panelsWith = (handle: number): Panel[] =>
    SIDES.map((name) =>
      panelOf(name, halves[name], {
        side,
        centre: lengths[`${name}Length`]!,
        gusset: widths[name] / 2,
        handle: name === 'back' ? HANDLES.back * handle : handle,
      }),
    );
  const panels = fitted(panelsWith, girths['legOpening']!, gussetLeg);
  const midline = midlineOf(skin, waist, crotch);
  return {
    pattern: {
      name: 'brief',
      panels: [...panels, gusset],
      seams: [
        { name: 'side', one: edge('front', 'side'), other: edge('back', 'side'), turned: false },
        { name: 'gusset front', one: edge('front', 'gusset'), other: edge('gusset', 'front'), turned: true },
        { name: 'gusset back', one: edge('back', 'gusset'), other: edge('gusset', 'back'), turned: false },
      ],
      centre: [...SIDES, 'gusset'].map((name) => edge(name, 'centre')),
    },
    placing: {
      points: pointsOf(panels, { sheet, midline, widths, waist: rows.rows.at(-1)!, leg: rows.rows[0]! }),
      facing: { front: [0.3, 0, 0.95], back: [0.3, 0, -0.95], gusset: [0, -1, 0] },
      held: SIDES.map((name) => ({ edge: edge(name, 'waist'), normal: [0, 1, 0], offset: waist })),
    },
    scaling: { around: (height) => widthsOf('front').ratioAt(rows.wayOf(height)), along: rows.scale },
    measures: [
      ...measures,
      { name: 'side', relaxed: side, body: side / rows.scale },
      {
        name: 'centre line',
        relaxed: lengths['frontLength']! + lengths['gussetLength']! + lengths['backLength']!,
        body: midline.front + midline.back,
      },
    ],
    fine: { gusset: FINEST_GUSSET },
  };
}

/** Edges of the gusset on the coarsest mesh, m: it is narrow between the thighs. */
const FINEST_GUSSET = 0.02;

function heightOf(landmark: { readonly point: Readonly<Triple> } | undefined, name: string): number {
  if (!landmark) throw new Fault('block/no-landmark', { landmark: name });
  return landmark.point[1];
}

interface HalfParts {
  readonly side: number;
  readonly centre: number;
  /** Half the gusset's end. */
  readonly gusset: number;
  readonly handle: number;
}

function panelOf(name: Side, half: TruedHalf, { side, centre, gusset, handle }: HalfParts): Panel {
  const waist = half.row(side);
  const [, top] = waist[0]!;
  const low: FlatPoint = [0, top - centre];
  const corner: FlatPoint = [gusset, low[1]];
  const [dx, dy] = directionAt(half.seam, 0);
  const leg = curveBetween({ at: corner, leave: [0, 1] }, { at: pointAt(half.seam, 0), arrive: [dy, -dx] }, [
    HANDLES.atGusset * handle,
    HANDLES.atSide * handle,
  ]);
  return {
    name,
    edges: [
      { name: 'gusset', points: [low, corner] },
      { name: 'leg', points: leg },
      { name: 'side', points: seamPoints(half, side) },
      { name: 'waist', points: waist.toReversed() },
      { name: 'centre', points: [waist[0]!, low] },
    ],
  };
}

/** The panels whose leg curves are together as long as the sheet says. */
function fitted(panelsWith: (handle: number) => Panel[], asked: number, gussetLeg: number): Panel[] {
  const opening = (handle: number): number =>
    panelsWith(handle).reduce(
      (sum, { edges }) => sum + curveLength(edges.find(({ name }) => name === 'leg')!.points),
      gussetLeg,
    );
  let [low, high]: [number, number] = [HANDLES.least, HANDLES.most];
  const [least, most] = [opening(low), opening(high)];
  if (asked < least || asked > most) {
    throw new Fault('block/opening-off', {
      openingMm: mmFromMetres(asked),
      leastMm: mmFromMetres(least),
      mostMm: mmFromMetres(most),
    });
  }
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (opening(middle) < asked) low = middle;
    else high = middle;
  }
  return panelsWith((low + high) / 2);
}

interface WornPlaces {
  readonly sheet: BlockSheet;
  readonly midline: Midline;
  readonly widths: GussetWidths;
  readonly waist: BodyRow;
  readonly leg: BodyRow;
}

const beside = ([, y, z]: Readonly<Triple>, x: number): Triple => [x, y, z];

/** Where the panels' corners begin on the body; the centre line is shared out by the sheet's lengths. */
function pointsOf(
  panels: readonly Panel[],
  { sheet, midline, widths, waist, leg }: WornPlaces,
): PlacedPoint[] {
  const { lengths } = sheet;
  const [front, back, gusset] = [lengths['frontLength']!, lengths['backLength']!, lengths['gussetLength']!];
  const scale = (midline.front + midline.back) / (front + gusset + back);
  const seams = {
    front: midline.at(scale * front),
    back: midline.at(scale * (front + gusset)),
  };
  const own = SIDES.flatMap((name, i): PlacedPoint[] => {
    const corner = (e: number) => panels[i]!.edges[e]!.points[0]!;
    return [
      { panel: name, at: corner(0), body: beside(seams[name], 0) },
      { panel: name, at: corner(1), body: beside(seams[name], widths[name] / 2) },
      { panel: name, at: corner(2), body: leg.side },
      { panel: name, at: corner(3), body: waist.side },
      { panel: name, at: corner(4), body: name === 'front' ? waist.frontEnd : waist.backEnd },
    ];
  });
  const middle = midline.at(scale * (front + gusset / 2));
  return [
    ...own,
    { panel: 'gusset', at: [0, gusset / 2], body: beside(middle, 0) },
    { panel: 'gusset', at: [widths.middle / 2, gusset / 2], body: beside(middle, widths.middle / 2) },
  ];
}
