import { bendOverEdge } from './bend-over-edge.ts';
import { drapeDisc } from './drape-disc.ts';
import type { CantileverRest, DrapeRest, SwatchFabric, SwatchProgress, SwatchWish } from './swatch.ts';

/**
 * Lets a swatch come to rest as wished: a disc over a round table, or a strip over an edge. Yields after every step;
 * whoever stops asking stops the search.
 */
export function settleSwatch(
  fabric: SwatchFabric,
  wish: SwatchWish,
): Generator<SwatchProgress, DrapeRest | CantileverRest> {
  switch (wish.test) {
    case 'drape':
      return drapeDisc(fabric, wish);
    case 'cantilever':
      return bendOverEdge(fabric, wish);
    default: {
      const never: never = wish;
      return never;
    }
  }
}
