import type { Finding } from '../fault/finding.ts';
import { betweenSkins, NARROW } from '../garment/between-skins.ts';
import { vertexNormals } from '../mesh/triangle-areas.ts';
import { vertexAreas } from '../mesh/vertex-areas.ts';
import { cm2FromSquareMetres, mmFromMetres } from '../units/units.ts';
import { wornMesh, type Worn } from './worn-fields.ts';

/** A smaller pinch than this is a corner of the mesh, m^2. */
const WORTH_SAYING = 1e-4;

/**
 * Cloth that has come to lie where skin meets skin: where two parts of the body press on one another, or leave less room than
 * the cloth takes up on both of them. The skin's push is not known there, since the contact field holds one skin only.
 *
 * Looked for by {@link betweenSkins} at every vertex on or near the skin, with twice the cloth's thickness for a width.
 *
 * @returns One finding for all such places, or none.
 */
export function pinchedFindings({ garment, equilibrium, skin, thickness = 0 }: Worn): Finding[] {
  const mesh = wornMesh(garment, equilibrium);
  const { positions } = mesh;
  const faces = vertexNormals(mesh);
  const areas = vertexAreas(mesh);
  const isBetweenSkins = betweenSkins(skin);
  const near = { width: Math.max(NARROW, 2 * thickness) };
  let area = 0;
  let low = Infinity;
  let high = -Infinity;
  equilibrium.distance.forEach((distance, v) => {
    if (distance > near.width) return;
    if (!isBetweenSkins({ positions, faces, at: 3 * v, distance }, near)) return;
    area += areas[v]!;
    low = Math.min(low, positions[3 * v + 1]!);
    high = Math.max(high, positions[3 * v + 1]!);
  });
  if (!(area >= WORTH_SAYING)) return [];
  const facts = {
    areaCm2: cm2FromSquareMetres(area),
    lowMm: mmFromMetres(low),
    highMm: mmFromMetres(high),
  };
  return [{ code: 'worn/pinched', facts }];
}
