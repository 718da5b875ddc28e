import type { KnitScaling } from '../garment/moulded-rest.ts';
import type { Placing } from '../garment/place-pattern.ts';
import type { Pattern } from '../pattern/pattern.ts';

/** A block drafted for a body, and where it is worn. */
export interface DraftedBlock {
  readonly pattern: Pattern;
  readonly placing: Placing;
  /** What the sheet makes of the body's own girths and lengths: the unstretched shape of a piece knit to shape. */
  readonly scaling: KnitScaling;
  /** Whether it is knit to shape; cut from its flat panels if left out. */
  readonly moulded?: boolean;
}
