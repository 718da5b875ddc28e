import type { KnitScaling } from '../garment/moulded-rest.ts';
import type { Placing } from '../garment/place-pattern.ts';
import type { Pattern } from '../pattern/pattern.ts';

/** One of the sheet's measures beside the body's own, m. */
export interface DraftedMeasure {
  readonly name: string;
  /** Of the garment lying flat. */
  readonly relaxed: number;
  /** Of the body along the skin where the measure is worn. */
  readonly body: number;
}

/** A block drafted for a body, and where it is worn. */
export interface DraftedBlock {
  readonly pattern: Pattern;
  readonly placing: Placing;
  /** What the sheet makes of the body's own girths and lengths: the unstretched shape of a piece knit to shape. */
  readonly scaling: KnitScaling;
  /** The sheet's girths, and those of its lengths that the body has, too. */
  readonly measures: readonly DraftedMeasure[];
  /** Edges of narrow panels on the coarsest mesh, by the panel's name, m; as everywhere if left out. */
  readonly fine?: Readonly<Record<string, number>>;
  /** Whether it is knit to shape; cut from its flat panels if left out. */
  readonly moulded?: boolean;
}
