import { decimate, type Decimated } from '../mesh/decimate.ts';
import { meshEdges, NO_TRIANGLE } from '../mesh/mesh-edges.ts';
import { coarseRestShape } from './coarse-rest-shape.ts';
import type { ClothLevel } from './garment.ts';

/** Each level has about this share of the next finer one's vertices, as meshes that nest have. */
const SHARE = 1 / 4;
/** So few vertices are solved at once. */
const FEWEST = 90;
/** A level that is not coarser than this share of the next finer one is not worth having. */
const LEAST_GAIN = 0.7;

/**
 * Coarse levels for a cloth that has none: vertices are taken out of the mesh, panels keep their seams and hems their
 * course, and each coarse triangle is unstretched as the cloth it stands for ({@link coarseRestShape}). No flat pattern is
 * asked for, and seams may join pieces of any grain.
 *
 * Linings and elastics are on the finest level only: coarse levels lead the way and help to solve, they decide nothing.
 *
 * @returns Coarsest first; the last is the level given, its parents filled in.
 */
export function decimatedLevels(finest: ClothLevel): ClothLevel[] {
  const levels: ClothLevel[] = [];
  let level = finest;
  for (;;) {
    const count = level.mesh.positions.length / 3;
    const coarse =
      count > FEWEST
        ? decimate(level.mesh, { vertexCount: Math.ceil(SHARE * count), ...linesOf(level) })
        : null;
    if (!coarse || coarse.kept.length > LEAST_GAIN * count) break;
    levels.unshift({ ...level, parents: coarse.parents, parentWeights: coarse.weights });
    level = coarseLevel(level, coarse);
  }
  levels.unshift(level);
  return levels;
}

/** Sides of triangles at which the fabric changes. */
function linesOf({ mesh, panel }: ClothLevel): { lines?: Uint8Array } {
  if (!panel) return {};
  const { ofSide, triangles } = meshEdges(mesh);
  const lines = new Uint8Array(ofSide.length);
  ofSide.forEach((edge, side) => {
    const [one, other] = [triangles[2 * edge]!, triangles[2 * edge + 1]!];
    if (other !== NO_TRIANGLE && panel[one] !== panel[other]) lines[side] = 1;
  });
  return { lines };
}

function coarseLevel(fine: ClothLevel, { mesh, kept, host, leftOf }: Decimated): ClothLevel {
  const { panel } = fine;
  return {
    mesh,
    ...coarseRestShape(fine, mesh, host),
    parents: new Uint32Array(0),
    edgeVertex: Uint8Array.from(kept, (v) => fine.edgeVertex[v]!),
    ...(panel && { panel: Uint8Array.from(leftOf, (t) => panel[t]!) }),
  };
}
