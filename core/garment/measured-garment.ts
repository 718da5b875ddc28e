import type { RestQuality } from './rest-edges.ts';

/** One of the sheet's measures as the unstretched mesh has it, m. */
export interface RestMeasure {
  readonly name: string;
  /** What the sheet asks for; null where it asks for nothing. */
  readonly sheet: number | null;
  /** Null where the mesh has no such line. */
  readonly relaxed: number | null;
}

/** A girth: all round, of one leg where it goes round one. */
export interface RestGirth extends RestMeasure {
  /** Height on the body where it is worn, m; null where the body has no such level. */
  readonly at: number | null;
}

/** A garment measured on its mesh as it is before it is stretched. */
export interface MeasuredGarment {
  readonly girths: readonly RestGirth[];
  readonly lengths: readonly RestMeasure[];
  /** As many pieces as there are of it together; m^2. */
  readonly panels: readonly { readonly name: string; readonly area: number }[];
  readonly quality: RestQuality;
  /** Where the wearer lays each edge, m: its mean height. */
  readonly laid: readonly { readonly name: string; readonly at: number }[];
}
