import { decimate, type Decimated } from '../mesh/decimate.ts';
import { NO_TRIANGLE } from '../mesh/mesh-edges.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import type { ClothLevel } from './garment.ts';
import { flatFromLengths, setRestShape, type RestShape } from './rest-shape.ts';

/** Each level has about this share of the next finer one's vertices, as meshes that nest have. */
const SHARE = 1 / 4;
/** So few vertices are solved at once. */
const FEWEST = 90;
/** A level that is not coarser than this share of the next finer one is not worth having. */
const LEAST_GAIN = 0.7;
/** A coarse triangle with less than this share of the unstretched area it should have was not read rightly. */
const LEAST_AREA = 0.05;

/**
 * Coarse levels for a cloth that has none: vertices are taken out of the mesh, panels keep their seams and hems their
 * course, and each coarse triangle is unstretched as the cloth it stands for.
 *
 * A fine triangle tells how its laid plane maps to the flat cloth, G = (F'F)^-1 F' with F the deformation as laid. A coarse
 * triangle's unstretched edges are the mean of the maps over its piece of cloth, applied to its own laid edges. No flat
 * pattern is asked for, and seams may join pieces of any grain.
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
function linesOf({ mesh: { triangles }, panel }: ClothLevel): { lines?: Uint8Array } {
  if (!panel) return {};
  const ofSide = new Map<number, number>();
  const lines = new Uint8Array(triangles.length);
  const vertexCount = triangles.reduce((most, v) => Math.max(most, v), 0) + 1;
  for (let side = 0; side < triangles.length; side++) {
    const a = triangles[side]!;
    const b = triangles[side % 3 === 2 ? side - 2 : side + 1]!;
    const key = Math.min(a, b) * vertexCount + Math.max(a, b);
    const other = ofSide.get(key);
    if (other === undefined) ofSide.set(key, side);
    else if (panel[Math.floor(other / 3)] !== panel[Math.floor(side / 3)]) lines[side] = lines[other] = 1;
  }
  return { lines };
}

function coarseLevel(fine: ClothLevel, { mesh, kept, host }: Decimated): ClothLevel {
  const count = mesh.triangles.length / 3;
  const maps = new Float64Array(6 * count);
  const area = new Float64Array(count);
  const votes = fine.panel ? new Map<number, number>() : null;
  const one = new Float64Array(6);
  for (let t = 0; t < fine.restArea.length; t++) {
    const place = hostOf(fine.mesh.triangles, host, t);
    if (place === NO_TRIANGLE) continue;
    const weight = fine.restArea[t]!;
    mapToFlat(fine, t, one);
    for (let i = 0; i < 6; i++) maps[6 * place + i]! += weight * one[i]!;
    area[place]! += weight;
    if (votes) {
      const vote = 256 * place + fine.panel![t]!;
      votes.set(vote, (votes.get(vote) ?? 0) + weight);
    }
  }
  fillGaps(mesh.triangles, maps, area);
  const shape = { restInverse: new Float64Array(4 * count), restArea: new Float64Array(count) };
  for (let t = 0; t < count; t++)
    setCoarseShape(mesh, maps.subarray(6 * t, 6 * t + 6), { t, area: area[t]! }, shape);
  return {
    mesh,
    ...shape,
    parents: new Uint32Array(0),
    edgeVertex: Uint8Array.from(kept, (v) => fine.edgeVertex[v]!),
    ...(votes && { panel: electedPanels(votes, count) }),
  };
}

/** The coarse triangle that a fine one belongs to: that of a corner within a face. */
function hostOf(triangles: Uint32Array, host: Uint32Array, t: number): number {
  for (let k = 0; k < 3; k++) {
    const place = host[triangles[3 * t + k]!]!;
    if (place !== NO_TRIANGLE) return place;
  }
  return NO_TRIANGLE;
}

/** G = (F'F)^-1 F' of one triangle as laid: 2x3, row-major. */
function mapToFlat(
  { mesh: { positions, triangles }, restInverse }: ClothLevel,
  t: number,
  into: Float64Array,
): void {
  const a = 3 * triangles[3 * t]!;
  const b = 3 * triangles[3 * t + 1]!;
  const c = 3 * triangles[3 * t + 2]!;
  let uu = 0;
  let uv = 0;
  let vv = 0;
  for (let k = 0; k < 3; k++) {
    const first = positions[b + k]! - positions[a + k]!;
    const second = positions[c + k]! - positions[a + k]!;
    const u = first * restInverse[4 * t]! + second * restInverse[4 * t + 2]!;
    const v = first * restInverse[4 * t + 1]! + second * restInverse[4 * t + 3]!;
    into[k] = u;
    into[3 + k] = v;
    uu += u * u;
    uv += u * v;
    vv += v * v;
  }
  const determinant = uu * vv - uv * uv;
  for (let k = 0; k < 3; k++) {
    const u = into[k]!;
    const v = into[3 + k]!;
    into[k] = (vv * u - uv * v) / determinant;
    into[3 + k] = (uu * v - uv * u) / determinant;
  }
}

/** Coarse triangles that no fine one fell to take the sum of their neighbours' maps. */
function fillGaps(triangles: Uint32Array, maps: Float64Array, area: Float64Array): void {
  const gaps = Array.from(area.keys()).filter((t) => area[t] === 0);
  if (gaps.length === 0) return;
  const around = new Map<number, number[]>();
  for (let i = 0; i < triangles.length; i++) {
    const list = around.get(triangles[i]!);
    if (list) list.push(Math.floor(i / 3));
    else around.set(triangles[i]!, [Math.floor(i / 3)]);
  }
  for (const t of gaps) {
    for (let k = 0; k < 3; k++) {
      for (const other of around.get(triangles[3 * t + k]!)!) {
        if (gaps.includes(other)) continue;
        for (let i = 0; i < 6; i++) maps[6 * t + i]! += maps[6 * other + i]!;
        area[t]! += area[other]!;
      }
    }
  }
}

/** Unstretched edges G e of one coarse triangle; as laid where its piece of cloth was not read rightly. */
function setCoarseShape(
  { positions, triangles }: TriangleMesh,
  map: Float64Array,
  { t, area }: { readonly t: number; readonly area: number },
  into: RestShape,
): void {
  const [a, b, c] = [3 * triangles[3 * t]!, 3 * triangles[3 * t + 1]!, 3 * triangles[3 * t + 2]!];
  const flat = { ax: 0, ay: 0, bx: 0, by: 0 };
  for (let k = 0; k < 3; k++) {
    const first = positions[b + k]! - positions[a + k]!;
    const second = positions[c + k]! - positions[a + k]!;
    flat.ax += (map[k]! / area) * first;
    flat.ay += (map[3 + k]! / area) * first;
    flat.bx += (map[k]! / area) * second;
    flat.by += (map[3 + k]! / area) * second;
  }
  const length = (p: number, q: number): number =>
    Math.hypot(
      positions[p]! - positions[q]!,
      positions[p + 1]! - positions[q + 1]!,
      positions[p + 2]! - positions[q + 2]!,
    );
  const laid = flatFromLengths(length(a, b), length(a, c), length(b, c));
  const isRead = Math.abs(flat.ax * flat.by - flat.ay * flat.bx) > LEAST_AREA * laid.ax * laid.by;
  setRestShape(isRead ? flat : laid, t, into);
}

/** The fabric that most of each coarse triangle's cloth is cut from. */
function electedPanels(votes: ReadonlyMap<number, number>, count: number): Uint8Array {
  const panel = new Uint8Array(count);
  const most = new Float64Array(count);
  for (const [vote, weight] of votes) {
    const t = Math.floor(vote / 256);
    if (weight <= most[t]!) continue;
    most[t] = weight;
    panel[t] = vote % 256;
  }
  return panel;
}
