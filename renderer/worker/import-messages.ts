import type { ImportChoices, ImportGuess } from '../../core/body/import-choices.ts';
import type { ImportProgress, ImportReport } from '../../core/body/import-report.ts';
import type { MeshScene } from '../../core/mesh/mesh-scene.ts';
import type { Triple } from '../../core/mesh/triple.ts';
import type { PostedFault } from './messages.ts';

/** A surface to be drawn: 3·V positions and unit normals, 3·T corners. */
export interface DrawnSurface {
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly triangles: Uint32Array;
}

/** What a mesh file holds, as the step shows it before anything is done. */
export interface OpenedScene {
  readonly format: MeshScene['format'];
  readonly parts: readonly { readonly name: string; readonly triangleCount: number }[];
  /** Every part, in the file's unit and axes, told from `middle`. */
  readonly surface: DrawnSurface;
  readonly middle: Triple;
  /** Ways through the box of it all, in the file's unit. */
  readonly size: Triple;
  readonly guess: ImportGuess;
}

/** A mesh made ready with some choices. */
export interface MadeBody {
  readonly choices: ImportChoices;
  /** m, y up, z to the front. */
  readonly surface: DrawnSurface;
  readonly low: Triple;
  readonly high: Triple;
  readonly report: ImportReport;
}

/** A level that a tape finds on a standing person. */
export interface TapeLevel {
  readonly name: string;
  readonly levelMm: number;
  readonly girthMm: number;
}

/** Where the work stands. `share` of this doing that is done, 0 to 1. */
export interface ImportStand {
  readonly doing: 'reading' | 'measuring' | ImportProgress['doing'];
  readonly share: number;
}

export type ToImport =
  /** Reads a file, looks at it, and makes a body of it; with the guessed choices where there are none. */
  | {
      readonly kind: 'open';
      readonly turn: number;
      readonly name: string;
      readonly file: Blob;
      readonly choices: ImportChoices | null;
    }
  /** Makes the body otherwise; what was being made is given up. */
  | { readonly kind: 'make'; readonly turn: number; readonly choices: ImportChoices };

/** `turn` is that of the wish that is answered. */
export type FromImport =
  | { readonly kind: 'stand'; readonly turn: number; readonly stand: ImportStand }
  | { readonly kind: 'opened'; readonly turn: number; readonly opened: OpenedScene }
  | { readonly kind: 'made'; readonly turn: number; readonly made: MadeBody }
  /** Of the body made last; null where it is too fine to be measured at once. */
  | { readonly kind: 'measured'; readonly turn: number; readonly levels: readonly TapeLevel[] | null }
  | { readonly kind: 'fault'; readonly turn: number; readonly fault: PostedFault }
  | { readonly kind: 'bug'; readonly turn: number | null; readonly message: string };
