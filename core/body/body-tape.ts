import type { Finding } from '../fault/finding.ts';
import type { Triple } from '../mesh/triple.ts';
import type { Landmarks, LevelName } from './landmarks.ts';

/** `taut` bridges hollows, as a tight tape does (convex hull); `along` follows the skin into them. */
export type TapeSurface = 'taut' | 'along';

/** Where a tape is laid: on a plane, round that piece of the section which belongs to the limb or the trunk. */
export interface TapeLine {
  /** Of the ISO 8559-1 set, or the wearer's own word. */
  readonly name: LevelName | (string & {});
  readonly kind: 'trunk' | 'limb';
  /** `middle` for the trunk. */
  readonly side: 'left' | 'middle' | 'right';
  /** A point of the plane, in the piece that is measured or on its edge; m. */
  readonly center: Readonly<Triple>;
  /** Of the plane, unit length: straight up for a level tape. */
  readonly normal: Readonly<Triple>;
  readonly surface: TapeSurface;
}

/** What a tape reads. */
export interface TapeReading {
  readonly line: TapeLine;
  /** m. */
  readonly girth: number;
  /** The tape as it lies, closed, the first point not repeated; 3 per point, m. */
  readonly points: Float64Array;
  /** Of the centre above the floor, m. */
  readonly height: number;
}

/** A distance above the floor, m. */
export interface BodyHeight {
  readonly name: LevelName | 'stature' | 'crotch' | 'shoulder' | 'armpit' | 'seatPoint';
  readonly height: number;
}

/** A body measured: what was found or placed, where tapes lie, what they read. */
export interface BodyTape {
  readonly landmarks: Landmarks;
  /** y of the floor, m. */
  readonly floor: number;
  /** Unit vector in the level plane, from the back to the front of the wearer. */
  readonly forward: Readonly<Triple>;
  /**
   * Trunk from the neck down, then both legs from the thigh down, both arms from the shoulder outwards; own lines
   * last.
   */
  readonly readings: readonly TapeReading[];
  readonly heights: readonly BodyHeight[];
  /** What could not be found or is in doubt. */
  readonly findings: readonly Finding[];
}
