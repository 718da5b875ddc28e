import type { Finding } from '../fault/finding.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import type { Triple } from '../mesh/triple.ts';
import type { BodyRegions } from './body-regions.ts';
import type { DistanceField } from './distance-field.ts';
import type { Landmarks } from './landmarks.ts';

/** A girth as a tape lies: the convex hull of a horizontal section. */
export interface Girth {
  /** bust, underbust, waist, topHip, hip, thigh, ... */
  readonly name: string;
  /** Height above the floor (or the mesh's own origin), m. */
  readonly level: number;
  readonly girth: number;
}

/** An axis-aligned box, m. */
export interface Box {
  readonly low: readonly [number, number, number];
  readonly high: readonly [number, number, number];
}

/** A standing body: skin at rest, what lies under it, and how it is measured. */
export interface Body {
  readonly skin: TriangleMesh;
  /** The axis of the source that points up; outputs turn back to it. `y` for the fit body. */
  readonly sourceUp: 'x' | 'y' | 'z';
  /** Thickness of soft tissue over bone or firm layer per skin vertex, m; V. */
  readonly tissueDepth: Float64Array;
  /**
   * Stiffness of the skin as an elastic foundation per skin vertex, pressure per depth, Pa/m; V.
   * foundation modulus / tissue depth, or NEAR_RIGID.
   */
  readonly foundation: Float64Array;
  /** Where depth and foundation are from: index into TISSUE_SOURCES; V. */
  readonly tissueSource: Uint8Array;
  readonly girths: readonly Girth[];
  /** Named points; empty where no standing person was seen. */
  readonly landmarks: Landmarks;
  /** y of the floor, m. */
  readonly floor: number;
  /** Level unit vector from the wearer's back to the front. */
  readonly forward: Readonly<Triple>;
  /** Part and region of every vertex; null where no standing person was seen. */
  readonly regions: BodyRegions | null;
  readonly findings: readonly Finding[];
  /** The smooth contact field, valid inside `box` grown by 60 mm. Limbs that cannot be touched may be left out. */
  readonly contactField: (box: Box) => DistanceField;
}

/** Foundation of a body that hardly gives: 50 kPa/mm, Pa/m. */
export const NEAR_RIGID = 50e6;
