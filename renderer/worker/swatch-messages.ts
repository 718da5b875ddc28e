import type { CantileverRest, DrapeRest, SwatchProgress, SwatchWish } from '../../core/swatch/swatch.ts';
import type { PostedFault } from './messages.ts';

/** One swatch to be laid down. */
export interface SwatchOrder {
  /** A bench sheet as its file has it, and what the user calls it. */
  readonly text: string;
  readonly name: string;
  readonly wish: SwatchWish;
  /** Bending rigidity is multiplied by this; other than 1 is an exaggeration. */
  readonly bendingFactor: number;
}

/** A swatch at rest, with what drawing it needs beside. */
export type SettledSwatch =
  | { readonly test: 'drape'; readonly rest: DrapeRest; readonly thickness: number }
  | {
      readonly test: 'cantilever';
      readonly rest: CantileverRest;
      readonly thickness: number;
      /** What the bench read there, m; null where it bent the strip otherwise (heart loop, another slope). */
      readonly benchOverhang: number | null;
    };

export type FromSwatchWorker =
  | { readonly kind: 'progress'; readonly progress: SwatchProgress }
  | { readonly kind: 'settled'; readonly swatch: SettledSwatch }
  | { readonly kind: 'fault'; readonly fault: PostedFault }
  | { readonly kind: 'bug'; readonly message: string };
