import type { Direction } from '../fabric/fabric.ts';
import { deviationOf, mean } from '../fabric/mean-of-repeats.ts';
import type { Source } from './bench-sources.ts';
import { fixed } from './number-format.ts';

/** What kind of number the bench derives; `core/words/card-words.ts` says each. */
export type DerivedLabel =
  | 'arealDensity'
  | 'thickness'
  | 'bulkDensity'
  | 'bendingLength'
  | 'bendingRigidity'
  | 'overallRigidity'
  | 'tension'
  | 'returnTension'
  | 'stretchAtLoad'
  | 'lossByEnergy'
  | 'lossByForce'
  | 'growth'
  | 'coupling'
  | 'greatestStretch';

/** What goes into a derived number; `core/words/card-words.ts` says each. */
export type InputName =
  | 'stripMass'
  | 'massTogether'
  | 'stripCount'
  | 'stripLength'
  | 'stripWidth'
  | 'thickness'
  | 'footPressure'
  | 'arealDensity'
  | 'gravity'
  | 'overhang'
  | 'slope'
  | 'elasticaFactor'
  | 'loopStrip'
  | 'loopLength'
  | 'loopHeight'
  | 'bendingLength'
  | 'bendingRigidity'
  | 'force'
  | 'loopForce'
  | 'testWidth'
  | 'gripTravel'
  | 'circumference'
  | 'lastReading'
  | 'cycle'
  | 'statedLoad'
  | 'peakStretch'
  | 'workTaken'
  | 'workReturned'
  | 'tensionOut'
  | 'tensionBack'
  | 'ceasesToPull'
  | 'couplingLow'
  | 'couplingHigh'
  | 'heldWidthReadings'
  | 'secantStiffness'
  | 'secantContraction'
  | 'secantAt'
  | 'couplingFactor'
  | 'widthReadings'
  | 'stretchAtLoad'
  | 'saidGreatest';

/** One line of what a number was worked out from. */
export interface DerivedInput {
  /** As in the formula: `m`. */
  readonly symbol: string;
  readonly what: InputName;
  readonly direction: Direction | null;
  /** `2.098 g` */
  readonly value: string;
  /** How many readings stand behind the value; null where it is no reading. */
  readonly count: number | null;
  /** Standard deviation of those readings (n - 1): `0.012 g`; null for fewer than two. */
  readonly deviation: string | null;
}

/** A number that the bench derives, with all that it rests on. */
export interface DerivedNumber {
  /** Unlike any other of the same fabric: `tension-warp-20`. */
  readonly id: string;
  readonly label: DerivedLabel;
  readonly direction: Direction | null;
  /** At what extension or load it holds: `20 %`; null where there is no such thing. */
  readonly at: string | null;
  /** `209.4 g/m²`: as printed. */
  readonly value: string;
  /** The same in the trade's other unit: `3.06 N/50 mm`. */
  readonly also: string | null;
  /** In SI; NaN where there is none (a direction, a stretch that was not reached). */
  readonly amount: number;
  /** True where it lies beyond the last reading. */
  readonly beyondReadings: boolean;
  /** In the standard's symbols: `M = m / (n l w)`. */
  readonly formula: string;
  readonly inputs: readonly DerivedInput[];
  readonly sources: readonly Source[];
}

/** What a derived number says of itself; the rest is filled in. */
export type DerivedDraft = Pick<
  DerivedNumber,
  'label' | 'value' | 'amount' | 'formula' | 'inputs' | 'sources'
> &
  Partial<Pick<DerivedNumber, 'direction' | 'at' | 'also' | 'beyondReadings'>>;

/** A derived number with what was left out filled in; its id is made of label, direction and place. */
export function derivedNumber(draft: DerivedDraft): DerivedNumber {
  const { label, direction = null, at = null } = draft;
  const place = at?.replaceAll(/\u00a0| |%/g, '') ?? null;
  return {
    also: null,
    beyondReadings: false,
    ...draft,
    direction,
    at,
    id: [label, direction, place].filter((part) => part !== null).join('-'),
  };
}

/** How a number is written: its unit, the way there from SI, decimals. */
export interface Writing {
  readonly unit: string;
  readonly fromSi: (value: number) => number;
  readonly decimals: number;
}

/** `2.098 g` */
export const written = (value: number, { unit, fromSi, decimals }: Writing): string =>
  `${fixed(fromSi(value), decimals)}\u00a0${unit}`;

/** Where an input stands: its symbol, its name, and the direction it belongs to. */
export interface InputPlace {
  readonly symbol: string;
  readonly what: InputName;
  readonly direction?: Direction;
}

/** An input that was read, once or more: mean, count and standard deviation. */
export function readInput(place: InputPlace, values: readonly number[], writing: Writing): DerivedInput {
  const deviation = deviationOf(values);
  return {
    direction: null,
    ...place,
    value: written(mean(values), writing),
    count: values.length,
    deviation: deviation === null ? null : written(deviation, { ...writing, decimals: writing.decimals + 1 }),
  };
}

/** An input that is stated or was derived before: no readings stand directly behind it. */
export const givenInput = (place: InputPlace, value: string): DerivedInput => ({
  direction: null,
  ...place,
  value,
  count: null,
  deviation: null,
});
