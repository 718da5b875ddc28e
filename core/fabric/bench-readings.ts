import type { Direction } from './fabric.ts';

/** One force reading. */
export interface ForceReading {
  /** Extension over gauge length. */
  readonly extension: number;
  /** On the whole strip, N. */
  readonly force: number;
}

/** One width reading. */
export interface WidthReading {
  readonly extension: number;
  /** At mid-length, m. */
  readonly width: number;
}

/** One strip pulled out and, perhaps, let back. Readings rise in extension. */
export interface StripReadings {
  readonly load: readonly ForceReading[];
  readonly return: readonly ForceReading[] | null;
  readonly width: readonly WidthReading[] | null;
}

/** What the bench gave for one fabric, in SI, before anything is made of it. */
export interface BenchReadings {
  readonly name: string;
  readonly lot: string;
  /** ISO date. */
  readonly date: string;
  readonly invented: boolean;
  readonly weighed: {
    /** Of every strip, m. */
    readonly length: number;
    readonly width: number;
    /** One per repeat, kg. */
    readonly masses: Readonly<Record<Direction, readonly number[]>>;
  };
  /** m, under `pressure` (Pa). */
  readonly thickness: { readonly value: number; readonly pressure: number };
  readonly stretched: {
    /** Distance of the marks on the unstretched strip, m. */
    readonly gauge: number;
    /** Of every unstretched strip, m. */
    readonly width: number;
    readonly strips: Readonly<Record<Direction, StripReadings>>;
    /** A strip pulled while its width was held. */
    readonly heldWidth: {
      readonly direction: 'warp' | 'weft';
      readonly load: readonly ForceReading[];
    } | null;
  };
  readonly bending: {
    /** Of the slope, rad. */
    readonly angle: number;
    /** m. */
    readonly overhang: Readonly<Record<Direction, number>>;
  };
}
