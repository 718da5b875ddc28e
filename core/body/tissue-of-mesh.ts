import { Fault } from '../fault/fault.ts';
import type { Girth } from './body.ts';
import { FOUNDATION_MODULUS, makeFitBody } from './fit-body.ts';
import type { FitMeasures } from './fit-measures.ts';
import type { MappedBody } from './tissue-coordinates.ts';
import { transferredDepth } from './tissue-transfer.ts';

/** The fit body's crotch stands at this share of its stature: a body's stature where it has no head. */
const CROTCH_SHARE = 0.454;
/** Of the skin that depths are taken from, m; coarser than usual, since depths change slowly. */
const SPACING = 0.01;
/** Used where the fit body cannot be made to a body's measures; its depths are scaled by girth, m. */
const USUAL: Readonly<Record<'female' | 'male', FitMeasures>> = {
  female: { stature: 1.68, bust: 0.88, underbust: 0.75, waist: 0.72, hip: 0.97 },
  male: { stature: 1.78, bust: 1, underbust: 0.9, waist: 0.86, hip: 1, figure: 'male' },
};

/**
 * Tissue of a standing person's mesh as the fit body has it: one is made to the same measures and its depths are carried
 * over by landmarks. Estimates: of the shape only the outside is known.
 *
 * @returns Depth in m and modulus in Pa per vertex, and whether the fit body met the measures.
 */
export function tissueOfMesh(body: MappedBody & { readonly girths: readonly Girth[] }): {
  readonly depth: Float64Array;
  readonly modulus: number;
  readonly isToMeasure: boolean;
} {
  const { fit, isToMeasure } = nearestFit(measuresOf(body));
  const depth = transferredDepth({ ...fit, regions: fit.regions! }, body);
  return { depth, modulus: FOUNDATION_MODULUS, isToMeasure };
}

/** What the fit body is asked for; a girth that is missing stays usual. */
function measuresOf({
  girths,
  landmarks,
  floor,
  skin,
}: MappedBody & { readonly girths: readonly Girth[] }): FitMeasures {
  const figure = landmarks.bustFront === undefined ? 'male' : 'female';
  const usual = USUAL[figure];
  const girth = (name: string): number | undefined => girths.find((one) => one.name === name)?.girth;
  const crotch = landmarks.crotch!.point[1] - floor;
  // On the fit body the neck's cut stands low: taller than the crotch tells means that there is a head.
  let top = -Infinity;
  for (let i = 1; i < skin.positions.length; i += 3) top = Math.max(top, skin.positions[i]!);
  const stature = Math.max(crotch / CROTCH_SHARE, top - floor);
  return {
    figure,
    stature,
    bust: girth('bust') ?? girth('chest') ?? usual.bust,
    underbust: girth('underbust') ?? usual.underbust,
    waist: girth('waist') ?? usual.waist,
    hip: girth('hip') ?? usual.hip,
  };
}

function nearestFit(measures: FitMeasures) {
  try {
    return { fit: makeFitBody(measures, { spacing: SPACING }), isToMeasure: true };
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return { fit: makeFitBody(USUAL[measures.figure ?? 'female'], { spacing: SPACING }), isToMeasure: false };
  }
}
