import type { TapeLine } from '../body/body-tape.ts';
import type { Body } from '../body/body.ts';
import type { FitMeasures } from '../body/fit-measures.ts';
import type { FitShape } from '../body/fit-shape.ts';
import type { PlacedLandmarks } from '../body/landmarks.ts';
import type { TissueCorrections } from '../body/tissue-map.ts';
import type { Equilibrium, SettleProgress } from '../equilibrium/equilibrium.ts';
import type { Branch, Fabric } from '../fabric/fabric.ts';
import type { Finding } from '../fault/finding.ts';
import type { Field } from '../fields/field.ts';
import type { Garment } from '../garment/garment.ts';
import type { BlockChange } from '../block/changed-block.ts';
import type { GarmentSheet } from '../block/garment-sheet.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';

/** The body a study asks for: our own form by its measures, or a mesh that was read from a file. SI. */
export type BodyChoice =
  | { readonly kind: 'fitBody'; readonly measures: FitMeasures; readonly shape?: FitShape }
  | {
      readonly kind: 'mesh';
      /** Already in m, y up. */
      readonly skin: TriangleMesh;
      readonly sourceUp: 'x' | 'y' | 'z';
      readonly tissue:
        'rigid' | 'transferred' | { readonly depth: number; readonly foundationModulus: number };
    };

/** Where a friction coefficient is from: a published one for dry or damp skin, or typed by whoever asks. */
export type FrictionFrom = 'dry' | 'damp' | 'typed';

/** How the flesh gives way: each place on its own (the fast choice), or as a nearly incompressible layer that bulges. */
export type FleshChoice =
  | { readonly kind: 'foundation' }
  | {
      readonly kind: 'layer';
      /** Poisson's ratio of the tissue; 0.45 and 0.49 are the bracket. */
      readonly poisson: number;
      /** Whether the skin slides under the cloth or is held by it: the other bracket. */
      readonly skin: 'slides' | 'held';
    };

/** How a study's body is measured by hand: levels that were moved, and tapes of the wearer's own. */
export interface TapeNotes {
  readonly placed: PlacedLandmarks;
  /** One with the name and side of a found tape lies in its stead. */
  readonly lines: readonly TapeLine[];
}

/** What may be tried on a settled study without reading it anew; what is left out stays. */
export interface StudyChange {
  readonly friction?: { readonly coefficient: number; readonly from: FrictionFrom };
  readonly flesh?: FleshChoice;
  readonly branch?: Branch;
  /** All relaxed girths times this; 1 is the sheet's. */
  readonly girthScale?: number;
  /** Where the hems of a tube are laid, m. */
  readonly from?: number;
  readonly to?: number;
  /** Of a block's sheet, single measures; without effect on a tube. */
  readonly block?: BlockChange;
  /** Of our own form, all of them; without effect on a mesh. */
  readonly measures?: FitMeasures;
  /** How our own form stands and is shaped, all of it; likewise. */
  readonly shape?: FitShape;
  readonly tape?: TapeNotes;
  readonly tissue?: TissueCorrections;
}

/** All that one question needs: one body, one garment, the fabrics to compare. */
export interface Study {
  readonly name: string;
  readonly body: BodyChoice;
  readonly fabrics: readonly { readonly id: string; readonly fabric: Fabric }[];
  readonly garment: GarmentSheet;
  /** Of linings that are not cut from the fabric worn: fabric 1 of the garment is the first of these. */
  readonly liningFabrics?: readonly Fabric[];
  readonly friction: number;
  /** `typed` if left out. */
  readonly frictionFrom?: FrictionFrom;
  /** The foundation if left out. */
  readonly flesh?: FleshChoice;
  /** What a designer corrected of the tissue by hand; nothing if left out. */
  readonly tissue?: TissueCorrections;
  /** Where tapes are laid by hand; as found if left out. Nothing of the cloth depends on it. */
  readonly tape?: TapeNotes;
  /** Whether the cloth resists being bent, as its strips did over the bench's edge; it folds freely if left out. */
  readonly bending?: boolean;
  readonly branch: Branch;
  /** Wanted edge length of the cloth mesh, m. */
  readonly edge: number;
}

/** One fabric worn. */
export interface WornResult {
  readonly fabricId: string;
  readonly equilibrium: Equilibrium;
  readonly fields: readonly Field[];
  readonly findings: readonly Finding[];
  /** The skin as it lies under this cloth, bulges included; 3*(vertices of the skin), m. Left out by the foundation. */
  readonly movedSkin?: Float64Array;
}

/** A body as results carry it: plain data that can cross to another thread. */
export type StandingBody = Omit<Body, 'contactField'>;

export interface StudyResult {
  readonly body: StandingBody;
  readonly garment: Garment;
  readonly worn: readonly WornResult[];
}

/** Which step of the chain is under way. */
export type StudyProgress =
  | { readonly step: 'body' }
  | { readonly step: 'garment' }
  | { readonly step: 'settle'; readonly fabricId: string; readonly settle: SettleProgress };
