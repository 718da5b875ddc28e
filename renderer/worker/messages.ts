import type { FaultCode, FaultFacts } from '../../core/fault/fault.ts';
import type { Finding } from '../../core/fault/finding.ts';
import type { Body } from '../../core/body/body.ts';
import type { FitMeasures } from '../../core/body/fit-measures.ts';
import type { FitShape } from '../../core/body/fit-shape.ts';
import type { TissueCorrections } from '../../core/body/tissue-map.ts';
import type { Field } from '../../core/fields/field.ts';
import type { Comparison } from '../../core/judgement/compare.ts';
import type { Review } from '../../core/judgement/review.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import type { GirthRow } from '../../core/sheet/body-sheet.ts';
import type { FabricSheet } from '../../core/sheet/fabric-sheet.ts';
import type { GarmentRow } from '../../core/sheet/garment-sheet.ts';
import type { LevelRow } from '../../core/sheet/level-rows.ts';
import type { EdgeSegments, PanelPicture } from '../../core/sheet/panel-picture.ts';
import type { CouplingBand } from '../../core/fabric/coupling-band.ts';
import type { Branch } from '../../core/fabric/fabric.ts';
import type { GarmentSheet } from '../../core/block/garment-sheet.ts';
import type {
  BodyChoice,
  FleshChoice,
  FrictionFrom,
  StudyChange,
  StudyProgress,
  TapeNotes,
} from '../../core/study/study.ts';

/** What is known as soon as a study's files have been read. */
export interface StudySheet {
  readonly name: string;
  readonly fabrics: readonly FabricSheet[];
  readonly friction: number;
  readonly frictionFrom: FrictionFrom;
  readonly flesh: FleshChoice;
  readonly branch: Branch;
  readonly edge: number;
  readonly garment: GarmentSheet;
  readonly bodyKind: BodyChoice['kind'];
  /** Of our own form; null for a mesh. */
  readonly measures: FitMeasures | null;
  readonly shape: FitShape;
  readonly tape: TapeNotes;
  readonly tissue: TissueCorrections;
}

/** One fabric as worn, ready to be drawn and read. SI. */
export interface WornCloth {
  readonly fabricId: string;
  /** 3·V, m. */
  readonly positions: Float64Array;
  /** Worn area per vertex, m²; V. */
  readonly vertexArea: Float64Array;
  readonly fields: readonly Field[];
  /** What the bands of these fields rest on; null where they bear none. */
  readonly bandFrom: CouplingBand['from'] | null;
  /** Signed distance per vertex from the skin as it would lie if nothing pressed here, V, m: above zero off the skin. */
  readonly distance: Float64Array;
  /** The skin given way under this cloth, for drawing; 3·(vertices of the skin), m. */
  readonly givenSkin: Float64Array;
  /** Unit normals of that skin; 3·(vertices of the skin). */
  readonly givenNormals: Float64Array;
  readonly residual: number;
  readonly atRest: boolean;
  readonly findings: readonly Finding[];
  readonly review: Review;
}

/** A block as its sheet's levels and its flat panels have it. */
export interface CutGarment {
  readonly levels: readonly LevelRow[];
  readonly panels: PanelPicture;
  readonly edges: EdgeSegments;
}

/** A body as tape and flesh need it. SI. */
export type KnownBody = Pick<
  Body,
  'landmarks' | 'floor' | 'forward' | 'regions' | 'tissueDepth' | 'foundation' | 'tissueSource'
>;

/** A study that was run through, as it crosses from the worker to the window. */
export interface SettledStudy {
  readonly skin: TriangleMesh;
  /** What is known of the body under that skin before its flesh was corrected by hand. */
  readonly known: KnownBody;
  readonly girths: readonly GirthRow[];
  readonly bodyFindings: readonly Finding[];
  /** 3·T, shared by all fabrics. */
  readonly clothTriangles: Uint32Array;
  /** 1 on a free edge; V. */
  readonly edgeVertex: Uint8Array;
  readonly garmentRows: readonly GarmentRow[];
  /** What is known of a garment that is cut from panels; null for a tube. */
  readonly cut: CutGarment | null;
  readonly garmentFindings: readonly Finding[];
  readonly worn: readonly WornCloth[];
  /** The first two fabrics side by side; null where there is one only. */
  readonly comparison: Comparison | null;
}

/** A fault as it crosses from the worker. */
export type PostedFault = {
  [C in FaultCode]: { readonly code: C; readonly facts: FaultFacts[C]; readonly file: string | null };
}[FaultCode];

export type ToWorker =
  | { readonly kind: 'run'; readonly name: string; readonly text: string }
  /** The answer to `wantFile`; null where there is no such file. */
  | { readonly kind: 'file'; readonly path: string; readonly bytes: Uint8Array | null }
  /** Tries the study that was run otherwise; whatever was tried before and has not settled is given up. */
  | { readonly kind: 'change'; readonly id: number; readonly change: StudyChange }
  /** Gives up what is being tried. */
  | { readonly kind: 'stop' }
  | { readonly kind: 'wantTable'; readonly fabricId: string };

/** `id` is the change's that is spoken of, 0 for the study as it was opened. */
export type FromWorker =
  | { readonly kind: 'wantFile'; readonly path: string }
  | { readonly kind: 'opened'; readonly sheet: StudySheet }
  | { readonly kind: 'progress'; readonly id: number; readonly progress: StudyProgress }
  | {
      readonly kind: 'settled';
      readonly id: number;
      readonly sheet: StudySheet;
      readonly settled: SettledStudy;
    }
  | { readonly kind: 'table'; readonly fabricId: string; readonly text: string }
  | { readonly kind: 'fault'; readonly id: number; readonly fault: PostedFault }
  | { readonly kind: 'bug'; readonly id: number; readonly message: string };
