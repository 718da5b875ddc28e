import type { FieldId, FieldUnit, ValueBand } from '../../core/fields/field.ts';
import type { Showing } from '../../core/sheet/field-range.ts';

/** What lies under the pointer. */
export interface PointerReading {
  /** From the stage's left and upper edge, px. */
  readonly x: number;
  readonly y: number;
  readonly field: FieldId;
  readonly unit: FieldUnit;
  readonly showing: Showing;
  /** SI; null where the quantity has no meaning here. */
  readonly value: number | null;
  /** How far it may lie off, SI; null where the quantity bears no band. */
  readonly band: ValueBand | null;
  /** The same quantity of the first two fabrics, SI, beside a difference. */
  readonly pair: readonly [number, number] | null;
}

/** A place on the form that a leader line points at. */
export interface NotchPoint {
  /** The zone's number in the leaf, from 1. */
  readonly zone: number;
  readonly x: number;
  readonly y: number;
  /** False where the form itself hides it. */
  readonly isVisible: boolean;
}

/** Where the stage's notches are now. */
export interface NotchFrame {
  readonly points: readonly NotchPoint[];
  /** Left and right edge of the cloth on the stage, px. */
  readonly left: number;
  readonly right: number;
  /** What paper leaves free of the stage, px from its left edge. */
  readonly room: { readonly left: number; readonly right: number };
}

export const NO_NOTCHES: NotchFrame = { points: [], left: 0, right: 0, room: { left: 0, right: 0 } };

/** A value that changes as often as the picture: heard directly, never through React. */
export interface Signal<T> {
  readonly get: () => T;
  readonly set: (value: T) => void;
  /** Calls `listener` at every change until the returned function is called. */
  readonly listen: (listener: (value: T) => void) => () => void;
}

export function createSignal<T>(start: T): Signal<T> {
  let value = start;
  const listeners = new Set<(value: T) => void>();
  return {
    get: () => value,
    set: (next) => {
      value = next;
      for (const listener of listeners) listener(next);
    },
    listen: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** A place on the bare form beside which something is written. */
export interface StageMark {
  /** Which tape or bony place. */
  readonly key: string;
  readonly x: number;
  readonly y: number;
  /** False where the form itself hides it. */
  readonly isVisible: boolean;
}

/** A place on the skin under the pointer, while the flesh is shown. */
export interface TissuePlace {
  /** From the stage's left and upper edge, px. */
  readonly x: number;
  readonly y: number;
  /** Of the skin, the nearest. */
  readonly vertex: number;
}

/** What is written on the bare form now, and how much room there is. */
export interface MarkFrame {
  readonly marks: readonly StageMark[];
  /** Left and right edge of the form on the stage, px. */
  readonly left: number;
  readonly right: number;
  readonly room: { readonly left: number; readonly right: number };
}

export const NO_MARKS: MarkFrame = { marks: [], left: 0, right: 0, room: { left: 0, right: 0 } };

/** What goes between scene and panels at the picture's own pace. */
export interface StageSignals {
  readonly pointer: Signal<PointerReading | null>;
  readonly notches: Signal<NotchFrame>;
  readonly marks: Signal<MarkFrame>;
  readonly tissue: Signal<TissuePlace | null>;
  /** Lays one stroke of the brush at the middle of the stage; set by the scene while flesh is shown. */
  readonly strokeMiddle: Signal<(() => void) | null>;
  /** Which edge of the flat panels is pointed at, by its key: on paper or on the form. */
  readonly edge: Signal<string | null>;
  /** Draws the stage at a size in px; set by the scene once it stands. */
  readonly draw: Signal<((width: number, height: number) => HTMLCanvasElement) | null>;
}

export const createStageSignals = (): StageSignals => ({
  pointer: createSignal<PointerReading | null>(null),
  notches: createSignal<NotchFrame>(NO_NOTCHES),
  marks: createSignal<MarkFrame>(NO_MARKS),
  tissue: createSignal<TissuePlace | null>(null),
  strokeMiddle: createSignal<(() => void) | null>(null),
  edge: createSignal<string | null>(null),
  draw: createSignal<((width: number, height: number) => HTMLCanvasElement) | null>(null),
});
