import type { BodyTape } from '../../core/body/body-tape.ts';
import type { SizeChart } from '../../core/body/size-chart.ts';
import type { BonyPoint, TissueCorrections, TissueMap } from '../../core/body/tissue-map.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import type { TissueRow } from '../../core/sheet/tissue-rows.ts';
import type { TapeNotes } from '../../core/study/study.ts';
import type { KnownBody, PostedFault } from './messages.ts';

/** What lies under the skin, ready to be drawn and read. */
export interface ShownFlesh {
  readonly map: TissueMap;
  readonly bony: readonly BonyPoint[];
  readonly rows: readonly TissueRow[];
  /** Skin area per vertex, m²; V. */
  readonly area: Float64Array;
}

export type ToBodyWorker =
  /** The body that everything after it is asked of. */
  | { readonly kind: 'body'; readonly skin: TriangleMesh; readonly known: KnownBody }
  | { readonly kind: 'measure'; readonly id: number; readonly tape: TapeNotes }
  | { readonly kind: 'flesh'; readonly id: number; readonly tissue: TissueCorrections }
  | { readonly kind: 'chart'; readonly id: number; readonly name: string; readonly text: string };

/** `id` is that of what was asked. */
export type FromBodyWorker =
  | { readonly kind: 'measured'; readonly id: number; readonly tape: BodyTape }
  | { readonly kind: 'flesh'; readonly id: number; readonly flesh: ShownFlesh }
  | { readonly kind: 'chart'; readonly id: number; readonly chart: SizeChart }
  | { readonly kind: 'fault'; readonly id: number; readonly fault: PostedFault }
  | { readonly kind: 'bug'; readonly id: number; readonly message: string };
