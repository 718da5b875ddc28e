/** What a worn garment leaves in doubt. */
export interface WornFindings {
  /** The search for rest ended before the forces balanced. */
  'worn/not-at-rest': { residual: number; tolerance: number };
  'worn/return-not-measured': { fabric: string };
  /** The coupling is known so loosely that the shape would be another at its ends, and they did not settle. N/m. */
  'worn/band-wide': { fabric: string; low: number; high: number };
  'worn/beyond-readings': { sharePercent: number };
  'worn/slack': { sharePercent: number };
  'worn/off-skin': { sharePercent: number; largestGapMm: number };
  /** Cloth where skin presses on skin or leaves no room for it; between which heights. */
  'worn/pinched': { areaCm2: number; lowMm: number; highMm: number };
  /** Of the outer layer's press, the share that falls where the inner one stands off the skin. */
  'worn/layer-on-bridge': { sharePercent: number; largestGapMm: number };
  /** The layers' give was not shared out to the end. Pa. */
  'worn/layers-not-settled': { changePercent: number };
  /** Cloth gathered so far that its folds lie on one another. */
  'worn/packed': { sharePercent: number };
  /** A hem has crept from where it was laid; the share of its length that has used up its grip. */
  'worn/hem-moves': {
    hem: 'lower' | 'upper';
    way: 'up' | 'down';
    shiftMm: number;
    friction: number;
    spentPercent: number;
  };
  /** Flesh as a layer was worn at one end of its bracket. */
  'worn/flesh-bracket': { poisson: number; skin: 'slides' | 'held' };
  'worn/frictionless': { shiftMm: number };
  /** The layer of flesh holds within 15 % no further than w/H 0.15 or p/E 0.4. */
  'worn/flesh-out-of-range': { depthPercent: number; pressurePercent: number };
  /** Beyond w/H 0.35 it is no statement at all. */
  'worn/flesh-too-deep': { depthPercent: number; mostPercent: number };
}
