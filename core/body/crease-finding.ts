import type { Finding } from '../fault/finding.ts';
import { mmFromMetres } from '../units/units.ts';
import { triple } from '../mesh/triple.ts';
import type { LiftedSurface } from './lifted-surface.ts';
import { isOfFlatCut, sharpEdges } from './sharp-edges.ts';

/** What a spline of the contact field leaves of an edge, in spacings: the rounding that smoothing against facets costs. */
const ROUNDED_SPACINGS = 1.5;

/**
 * Edges that the mesh does not resolve, which contact therefore feels rounded; none, or one finding with the sharpest.
 *
 * The rims of flat cuts, where a body ends at neck, wrist or ankle, are no creases of the skin and are left out.
 *
 * @param spacing - Of the contact field, m.
 */
export function creaseFindings(surface: LiftedSurface, spacing: number): Finding[] {
  const creases = sharpEdges(surface).filter(
    ({ sides: [one, other] }) => !isOfFlatCut(surface, one) && !isOfFlatCut(surface, other),
  );
  const first = creases[0];
  if (first === undefined) return [];
  const sharpest = creases.reduce((most, edge) => (edge.turn > most.turn ? edge : most), first);
  const { positions } = surface.mesh;
  const [xMm, yMm, zMm] = triple((k) =>
    mmFromMetres((positions[3 * sharpest.from + k]! + positions[3 * sharpest.to + k]!) / 2),
  );
  const radiusMm = mmFromMetres(ROUNDED_SPACINGS * spacing);
  return [{ code: 'body/crease-rounded', facts: { edgeCount: creases.length, radiusMm, xMm, yMm, zMm } }];
}
