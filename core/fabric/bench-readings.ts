import type { Direction } from './fabric.ts';

/** One force reading. */
export interface ForceReading {
  /** Extension over gauge length. */
  readonly extension: number;
  /** Of one thickness of strip over its whole width, N. */
  readonly force: number;
}

/** One width reading. */
export interface WidthReading {
  readonly extension: number;
  /** At mid-length, m. */
  readonly width: number;
}

/** The strips of one direction, pulled out and, perhaps, let back: one list per specimen, rising in extension. */
export interface StripReadings {
  readonly load: readonly (readonly ForceReading[])[];
  readonly return: readonly (readonly ForceReading[])[] | null;
  readonly width: readonly (readonly WidthReading[])[] | null;
}

/** What the strips weighed, kg: each direction on its own, or one strip of each direction on the pan together. */
export type StripMasses =
  | { readonly apart: Readonly<Record<Direction, readonly number[]>> }
  | { readonly together: readonly number[] };

/** A standard that fixes the pressure under the thickness gauge's foot. */
export type ThicknessStandard = 'ISO 5084' | 'ASTM D1777';

/** A strip that was pulled while its width was held; one list per specimen. */
export interface HeldWidthReadings {
  readonly direction: 'warp' | 'weft';
  readonly load: readonly (readonly ForceReading[])[];
}

/** How the strips were bent. */
export type BendingReadings =
  | {
      readonly kind: 'cantilever';
      /** Of the slope, rad. */
      readonly angle: number;
      /** One per repeat, m. */
      readonly overhang: Readonly<Record<Direction, readonly number[]>>;
    }
  | {
      readonly kind: 'heartLoop';
      /** Of the strip between the clamps, m. */
      readonly stripLength: number;
      /** From the clamps to the lowest point of the loop; one per repeat, m. */
      readonly height: Readonly<Record<Direction, readonly number[]>>;
    };

/** What the bench gave for one fabric, in SI, before anything is made of it. */
export interface BenchReadings {
  readonly name: string;
  readonly lot: string;
  /** ISO date. */
  readonly date: string;
  readonly invented: boolean;
  readonly note: string | null;
  /** The direction said to stretch most; null where nobody said. */
  readonly greatestStretch: Direction | null;
  readonly weighed: {
    /** Of every strip, m. */
    readonly length: number;
    readonly width: number;
    readonly masses: StripMasses;
  };
  readonly thickness: {
    /** One per place, m. */
    readonly values: readonly number[];
    /** Pa. */
    readonly pressure: number;
    readonly standard: ThicknessStandard | null;
  };
  readonly stretched: {
    readonly test: 'strip' | 'loop';
    /** Of the loading, counted from 1; null where nobody said. */
    readonly cycle: number | null;
    /** Distance of the marks on the unstretched strip, m. */
    readonly gauge: number;
    /** Of every unstretched strip, m. */
    readonly width: number;
    /** Of the loop, m; null for strips. */
    readonly circumference: number | null;
    readonly strips: Readonly<Record<Direction, StripReadings>>;
    readonly heldWidth: HeldWidthReadings | null;
  };
  readonly bending: BendingReadings;
}
