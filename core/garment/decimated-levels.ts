import { decimate, type Decimated } from '../mesh/decimate.ts';
import { meshEdges, NO_TRIANGLE } from '../mesh/mesh-edges.ts';
import { coarseRestShape, hostOf } from './coarse-rest-shape.ts';
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

function coarseLevel(fine: ClothLevel, { mesh, kept, host }: Decimated): ClothLevel {
  return {
    mesh,
    ...coarseRestShape(fine, mesh, host),
    parents: new Uint32Array(0),
    edgeVertex: Uint8Array.from(kept, (v) => fine.edgeVertex[v]!),
    ...(fine.panel && { panel: electedPanels(fine, fine.panel, { host, count: mesh.triangles.length / 3 }) }),
  };
}

/** The fabric that most of each coarse triangle's cloth is cut from. */
function electedPanels(
  { mesh: { triangles }, restArea }: ClothLevel,
  panel: Uint8Array,
  { host, count }: { readonly host: Uint32Array; readonly count: number },
): Uint8Array {
  const votes = new Map<number, number>();
  restArea.forEach((area, t) => {
    const place = hostOf(triangles, host, t);
    if (place === NO_TRIANGLE) return;
    const vote = 256 * place + panel[t]!;
    votes.set(vote, (votes.get(vote) ?? 0) + area);
  });
  const elected = new Uint8Array(count);
  const most = new Float64Array(count);
  for (const [vote, weight] of votes) {
    const t = Math.floor(vote / 256);
    if (weight <= most[t]!) continue;
    most[t] = weight;
    elected[t] = vote % 256;
  }
  return elected;
}
