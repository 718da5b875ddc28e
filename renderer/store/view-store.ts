import { createStore, type StoreApi } from 'zustand/vanilla';
import type { CouplingBand } from '../../core/fabric/coupling-band.ts';
import type { Field, FieldId } from '../../core/fields/field.ts';
import { soundRange, type ColourRange, type RampName } from '../../core/sheet/colour-scale.ts';
import { automaticRange, standardRange, symmetricRange, type Showing } from '../../core/sheet/field-range.ts';
import type { LeafName, ViewName } from '../../core/words/stage-words.ts';
import { wornAt, type SettledStudy } from './study-store.ts';

/** How near the camera stands. */
export type Framing = 'garment' | 'form';

/** A view that was asked for; `count` tells two equal wishes apart. */
export interface ViewWish {
  readonly view: ViewName | null;
  readonly framing: Framing;
  /** Degrees to turn about the upright axis and about the level one, and a factor on the distance. */
  readonly turn: { readonly around: number; readonly over: number; readonly distance: number } | null;
  readonly count: number;
}

/** A range per quantity and way of showing it. */
export type Ranges = Readonly<Partial<Record<`${FieldId} ${Showing}`, ColourRange>>>;

export interface ViewState {
  readonly field: FieldId;
  readonly showing: Showing;
  /** Which fabric's values are painted: 0 is A. */
  readonly fabric: number;
  readonly ramp: Exclude<RampName, 'blueRed'>;
  /** Chosen when the study was laid on the table, one per quantity for all its fabrics. */
  readonly standard: Ranges;
  /** Ranges that were typed or fitted since; they win. */
  readonly ranges: Ranges;
  readonly leaf: LeafName | null;
  readonly helpOpen: boolean;
  readonly wish: ViewWish;
}

export type ViewStore = StoreApi<ViewState>;

const START: ViewState = {
  field: 'skinPressure',
  showing: 'values',
  fabric: 0,
  ramp: 'viridis',
  standard: {},
  ranges: {},
  leaf: null,
  helpOpen: false,
  wish: { view: 'threeQuarter', framing: 'garment', turn: null, count: 0 },
};

export const createViewStore = (): ViewStore => createStore<ViewState>(() => START);

/** The range in use, the same for every fabric. */
export function rangeOf({ field, showing, ranges, standard }: ViewState): ColourRange {
  const key = `${field} ${showing}` as const;
  return ranges[key] ?? standard[key] ?? standardRange(field, showing, []);
}

/** The standard ranges of a study: of its fabrics together, and of their difference. */
export function standardRanges(settled: SettledStudy): Ranges {
  const ids = settled.worn[0]?.fields.map(({ id }) => id) ?? [];
  const entries = ids.flatMap((id) => {
    const ofId = (fields: readonly Field[]): readonly Field[] => fields.filter((field) => field.id === id);
    const values = settled.worn.flatMap(({ fields }) => ofId(fields));
    const differences = ofId(settled.comparison?.differences ?? []);
    return [
      [`${id} values`, standardRange(id, 'values', values)],
      [`${id} difference`, standardRange(id, 'difference', differences)],
    ] as const;
  });
  return Object.fromEntries(entries);
}

/** True where the range in use is not the default one. */
export const isRangeChanged = (view: ViewState): boolean =>
  view.ranges[`${view.field} ${view.showing}`] !== undefined;

/** Ranges that stay, and standard ones anew where the sign of a quantity has changed: a give that bulges goes below zero. */
function rangesAgain(
  settled: SettledStudy,
  { standard, ranges }: Pick<ViewState, 'standard' | 'ranges'>,
): Pick<ViewState, 'standard' | 'ranges'> {
  for (const { id } of settled.worn[0]?.fields ?? []) {
    const key = `${id} values` as const;
    const fields = settled.worn.flatMap((worn) => worn.fields.filter((field) => field.id === id));
    const isSymmetric = fields.some(({ kind }) => kind === 'symmetric');
    if (isSymmetric === (standard[key]?.low ?? 0) < 0) continue;
    standard = { ...standard, [key]: standardRange(id, 'values', fields) };
    if (ranges[key] === undefined) continue;
    const { [key]: _typed, ...kept } = ranges;
    ranges = kept;
  }
  return { standard, ranges };
}

/** The field that is painted: one fabric's values, or what B does otherwise than A. */
export function paintedField(settled: SettledStudy, view: ViewState): Field {
  const { field, showing, fabric } = view;
  const fields =
    showing === 'difference' && settled.comparison !== null
      ? settled.comparison.differences
      : wornAt(settled, fabric).fields;
  return fields.find(({ id }) => id === field) ?? fields[0]!;
}

/** What the band of the painted field rests on: of one fabric, or of both in a difference. */
export function bandFrom(
  settled: SettledStudy,
  { showing, fabric }: ViewState,
): readonly CouplingBand['from'][] {
  const painted = showing === 'difference' ? settled.worn.slice(0, 2) : [wornAt(settled, fabric)];
  return painted.flatMap((worn) => worn.bandFrom ?? []);
}

/** Fields that have no value off the skin. */
const ON_SKIN_ONLY: ReadonlySet<FieldId> = new Set(['skinPressure', 'discPressure', 'give', 'gripUsed']);

/**
 * How far each vertex of the painted cloth is from having a value (m, negative where it has one); null where only the
 * vertices themselves are known, as with slack.
 */
export function hatchMargin(
  settled: SettledStudy,
  view: Pick<ViewState, 'field' | 'showing' | 'fabric'>,
): Float64Array | null {
  const isGap = view.field === 'gap';
  if (!isGap && !ON_SKIN_ONLY.has(view.field)) return null;
  const [first, second] = settled.worn;
  // A difference is hatched where both fabrics are: as far as the nearer of the two.
  const distance =
    view.showing === 'difference' && first !== undefined && second !== undefined
      ? first.distance.map((value, v) =>
          isGap ? Math.max(value, second.distance[v]!) : Math.min(value, second.distance[v]!),
        )
      : wornAt(settled, view.fabric).distance;
  return isGap ? distance.map((value) => -value) : distance;
}

/** Everything the keys and the words along the edges can do to the view. */
export interface ViewActions {
  /** The study on the table settled again: ranges stay, but where a quantity now reaches to both sides of zero, or no longer. */
  readonly resettle: (settled: SettledStudy) => void;
  /** A new study lies on the table: its standard ranges hold, typed ones of the last study are put away. */
  readonly lay: (settled: SettledStudy) => void;
  readonly chooseField: (field: FieldId) => void;
  /** The next fabric; leaves a difference. */
  readonly swapFabric: (fabricCount: number) => void;
  readonly chooseFabric: (index: number) => void;
  readonly toggleDifference: () => void;
  readonly changeRamp: () => void;
  /** Locks a typed range, SI. A symmetric one keeps zero in the middle. */
  readonly setRange: (range: ColourRange) => void;
  /** Fits the range once to the values of every fabric. */
  readonly fitRange: (settled: SettledStudy) => void;
  readonly resetRange: () => void;
  /** Opens a leaf, or closes it where it is open. */
  readonly toggleLeaf: (leaf: LeafName) => void;
  readonly closeLeaf: () => void;
  readonly toggleHelp: () => void;
  readonly look: (view: ViewName) => void;
  readonly turn: (around: number, over: number) => void;
  readonly approach: (distance: number) => void;
  readonly toggleFraming: () => void;
}

export function viewActions(store: ViewStore): ViewActions {
  const wish = (part: Partial<Omit<ViewWish, 'count'>>): void =>
    store.setState(({ wish: last }) => ({
      wish: { view: null, turn: null, framing: last.framing, ...part, count: last.count + 1 },
    }));
  return {
    ...rangeActions(store),
    lay: (settled) =>
      store.setState({ standard: standardRanges(settled), ranges: {}, fabric: 0, showing: 'values' }),
    resettle: (settled) => store.setState((view) => rangesAgain(settled, view)),
    chooseField: (field) => store.setState({ field }),
    swapFabric: (count) =>
      store.setState(({ fabric }) => ({ fabric: (fabric + 1) % count, showing: 'values' })),
    chooseFabric: (fabric) => store.setState({ fabric, showing: 'values' }),
    toggleDifference: () =>
      store.setState(({ showing }) => ({ showing: showing === 'values' ? 'difference' : 'values' })),
    changeRamp: () => store.setState(({ ramp }) => ({ ramp: ramp === 'viridis' ? 'cividis' : 'viridis' })),
    toggleLeaf: (leaf) => store.setState((view) => ({ leaf: view.leaf === leaf ? null : leaf })),
    closeLeaf: () => store.setState({ leaf: null, helpOpen: false }),
    toggleHelp: () => store.setState(({ helpOpen }) => ({ helpOpen: !helpOpen })),
    look: (view) => wish({ view }),
    turn: (around, over) => wish({ turn: { around, over, distance: 1 } }),
    approach: (distance) => wish({ turn: { around: 0, over: 0, distance } }),
    toggleFraming: () => wish({ framing: store.getState().wish.framing === 'garment' ? 'form' : 'garment' }),
  };
}

function rangeActions(store: ViewStore): Pick<ViewActions, 'setRange' | 'fitRange' | 'resetRange'> {
  const keep = (range: ColourRange): void =>
    store.setState((view) => ({
      ranges: { ...view.ranges, [`${view.field} ${view.showing}`]: range },
    }));
  return {
    setRange: (range) => {
      const view = store.getState();
      const inUse = rangeOf(view);
      const wanted = view.showing === 'difference' ? symmetricAfterTyping(range, inUse) : range;
      keep(soundRange(wanted, inUse));
    },
    fitRange: (settled) => {
      const view = store.getState();
      const fields =
        view.showing === 'difference'
          ? [paintedField(settled, view)]
          : settled.worn.flatMap(({ fields }) => fields.filter(({ id }) => id === view.field));
      keep(automaticRange(fields, rangeOf(view)));
    },
    resetRange: () =>
      store.setState((view) => {
        const { [`${view.field} ${view.showing}` as const]: _typed, ...ranges } = view.ranges;
        return { ranges };
      }),
  };
}

/** Whichever end was typed, the other follows it. */
function symmetricAfterTyping(typed: ColourRange, before: ColourRange): ColourRange {
  const reach = typed.low === before.low ? Math.abs(typed.high) : Math.abs(typed.low);
  return symmetricRange({ low: -reach, high: reach });
}
