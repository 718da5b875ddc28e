/** The fit body as contact sees it. */
import { metresFromMm, mmFromMetres } from '../units/units.ts';
import type { Box } from './body.ts';
import type { DistanceField } from './distance-field.ts';
import type { Field, FitField } from './fit-field.ts';
import type { FitFigure } from './fit-figure.ts';
import { areWithinReach } from './fit-thighs.ts';
import { gridFromField } from './grid-from-field.ts';
import { grownBox } from './node-lattice.ts';

/** Spacing of the grid, m: nothing on the body bends more sharply than the crotch, about 12 mm. */
const SPACING = 0.006;
/** Contact is asked this far beyond the box, m. */
const MARGIN = 0.06;

/**
 * The contact field of a box: one grid, or between near thighs one for the left side and its mirror image, since a grid
 * smears what two skins do within a few of its cells. Cloth between such thighs belongs to the one on its side of the
 * middle.
 */
export function contactFieldOf(field: FitField, { shape }: FitFigure): (box: Box) => DistanceField {
  return (box) => {
    const { low, high } = box;
    const isAbove = mmFromMetres(low[1] - MARGIN) > field.aloneBelow;
    if (isAbove || !areWithinReach(shape.thighGap)) return sampled(field.withoutArms, box);
    const nearest = low[0] > 0 ? low[0] : high[0] < 0 ? -high[0] : 0;
    const widest = Math.max(Math.abs(low[0]), Math.abs(high[0]));
    return mirroredField(
      sampled(field.leftSide, { low: [nearest, low[1], low[2]], high: [widest, high[1], high[2]] }),
    );
  };
}

/** A field in mm as a grid in m over a box and what lies around it. */
function sampled(field: Field, box: Box): DistanceField {
  return gridFromField(
    (x, y, z) => metresFromMm(field(mmFromMetres(x), mmFromMetres(y), mmFromMetres(z))),
    grownBox(box, MARGIN),
    SPACING,
  );
}

/** The left side's field on both sides of the midline. */
function mirroredField(left: DistanceField): DistanceField {
  return {
    sample: (x, y, z, into) => {
      left.sample(Math.abs(x), y, z, into);
      if (x >= 0) return;
      // The derivatives that are odd in x: first, xy, xz.
      for (const odd of [1, 5, 6]) into[odd] = 0 - into[odd]!;
    },
  };
}
