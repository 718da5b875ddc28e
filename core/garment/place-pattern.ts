import type { DistanceField } from '../body/distance-field.ts';
import { triple, type Triple } from '../mesh/triple.ts';
import type { EdgeOf, FlatPoint, Pattern } from '../pattern/pattern.ts';
import { centreVertices, chainOf, type SewnLevel } from '../pattern/sew-pattern.ts';
import { sewnMesh, type SewnMesh } from '../pattern/sewn-mesh.ts';
import {
  bringToBody,
  fitRound,
  holdVertex,
  sizeFit,
  type Hold,
  type HeldPlane,
  type SizeFit,
} from './fit-to-size.ts';

/** A point of a panel and where on the body it is put to begin with. */
export interface PlacedPoint {
  readonly panel: string;
  readonly at: FlatPoint;
  readonly body: Readonly<Triple>;
}

/** What is said of where a garment is worn; all else finds its own place. */
export interface Placing {
  readonly points: readonly PlacedPoint[];
  /** Which way each panel looks when worn; unit vectors by the panel's name. */
  readonly facing: Readonly<Record<string, Readonly<Triple>>>;
  /** Edges that the wearer holds at a level (or on a tilted plane). */
  readonly held: readonly (HeldPlane & { readonly edge: EdgeOf })[];
}

/** A pattern laid on a body. */
export interface LaidPattern {
  /** 3*V per level, m. */
  readonly positions: readonly Float64Array[];
  /** Triangles of the coarsest level that lie inside out; none in a sound garment. */
  readonly inward: number;
}

/** Rounds on the coarsest level: cloth lies on the body while it finds its place, then it may bridge hollows. */
const COARSE_ROUNDS = { on: 60, outside: 400 };
const FINER_ROUNDS = [120, 40, 16, 12];
const RELAXATION = 1.3;
/** Starts tried: how far cloth is first held off its landmarks, and how far these are shaken, m. */
const STARTS = [
  { push: 1, shake: 0 },
  { push: 0.5, shake: 0 },
  { push: 1.6, shake: 0 },
  { push: 1, shake: 0.015 },
  { push: 1, shake: 0.03 },
];
/** Two starts whose strains differ by less than this share have found the same place. */
const SAME_STRAIN = 0.01;
const MOST_PUSH = 0.06;
/** Sweeps that spread the landmarks' places over the cloth. */
const SPREADING = { sweeps: 400, relaxation: 1.5 };
/** Steps that bring the first guess to the skin. */
const STEPS_TO_SKIN = 12;

/**
 * Lays a sewn pattern on a body: spread between its landmarks, brought to the skin, then fitted to its cut size as a cloth
 * that stretches alike in all directions, first on the skin, then never within it. Several starts are tried on the
 * coarsest level until two sound ones agree; the one that strains the cloth least goes on to the finer ones.
 *
 * Nothing but held edges and the middle plane is prescribed: side seams, inseams and openings find their own place.
 */
export function* layPattern(
  pattern: Pattern,
  levels: readonly SewnLevel[],
  field: DistanceField,
  placing: Placing,
): Generator<void, LaidPattern> {
  const meshes = levels.map(sewnMesh);
  const holds = levels.map((level) => holdOf(pattern, level, placing));
  const coarse = { mesh: meshes[0]!, fit: sizeFit(meshes[0]!), hold: holds[0]!, level: levels[0]! };
  let best: { positions: Float64Array; strain: number; inward: number } | null = null;
  for (const start of STARTS) {
    const found = yield* placeCoarse(pattern, coarse, { field, placing, start });
    const isAsBefore = best && Math.abs(found.strain - best.strain) < SAME_STRAIN * best.strain;
    if (!best || found.strain < best.strain) best = found;
    if (isAsBefore && best.inward === 0) break;
  }
  const positions = [best!.positions];
  for (let l = 1; l < levels.length; l++) {
    const finer = halfway(positions[l - 1]!, levels[l]!.parents);
    const round = {
      fit: sizeFit(meshes[l]!),
      hold: holds[l]!,
      field,
      onBody: 'outside',
      relaxation: RELAXATION,
    } as const;
    for (let r = 0; r < FINER_ROUNDS[Math.min(l, FINER_ROUNDS.length) - 1]!; r++) {
      fitRound(round, finer);
      if (r % 10 === 0) yield;
    }
    positions.push(finer);
  }
  return { positions, inward: best!.inward };
}

interface CoarseLevel {
  readonly mesh: SewnMesh;
  readonly fit: SizeFit;
  readonly hold: Hold;
  readonly level: SewnLevel;
}

interface CoarseStart {
  readonly field: DistanceField;
  readonly placing: Placing;
  readonly start: (typeof STARTS)[number];
}

function* placeCoarse(
  pattern: Pattern,
  coarse: CoarseLevel,
  { field, placing, start }: CoarseStart,
): Generator<void, { positions: Float64Array; strain: number; inward: number }> {
  const { mesh, fit, hold } = coarse;
  const { vertices, fixed, positions } = spread(pattern, coarse, placing, start.shake);
  pushOff(pattern, { mesh, placing, vertices, push: start.push }, positions);
  const sample = new Float64Array(10);
  for (let step = 0; step < STEPS_TO_SKIN; step++) {
    for (let v = 0; v < mesh.vertexCount; v++) {
      holdVertex(hold, positions, v);
      bringToBody(field, positions, v, { onBody: 'on', hold, sample });
    }
  }
  const round = { fit, hold, field, relaxation: RELAXATION };
  for (let r = 0; r < COARSE_ROUNDS.on; r++) fitRound({ ...round, fixed, onBody: 'on' }, positions);
  yield;
  for (let r = 0; r < COARSE_ROUNDS.outside; r++) {
    fitRound({ ...round, onBody: 'outside' }, positions);
    if (r % 40 === 0) yield;
  }
  const inward = inwardTriangles(mesh, positions, field);
  const strain = strainOf(mesh, positions) * (1 + inward / 20);
  return { positions, strain, inward };
}

/** Coordinates of the vertices nearest to the landmarks, and between them a smooth spread. */
function spread(
  pattern: Pattern,
  { mesh, fit, hold, level }: CoarseLevel,
  { points }: Placing,
  shake: number,
): { vertices: number[]; fixed: Uint8Array; positions: Float64Array } {
  const positions = new Float64Array(3 * mesh.vertexCount);
  const fixed = new Uint8Array(mesh.vertexCount);
  const vertices = points.map(({ panel, at, body }, i) => {
    const p = pattern.panels.findIndex(({ name }) => name === panel);
    const { flat } = level.panels[p]!;
    let nearest = 0;
    let least = Infinity;
    for (let v = 0; 2 * v < flat.length; v++) {
      const away = Math.hypot(flat[2 * v]! - at[0], flat[2 * v + 1]! - at[1]);
      if (away < least) [nearest, least] = [v, away];
    }
    const v = level.joined[p]![nearest]!;
    for (let k = 0; k < 3; k++) positions[3 * v + k] = body[k]! + shake * shaken(3 * i + k);
    fixed[v] = 1;
    return v;
  });
  const middle = triple((k) => vertices.reduce((sum, v) => sum + positions[3 * v + k]!, 0) / vertices.length);
  for (let v = 0; v < mesh.vertexCount; v++) if (!fixed[v]) positions.set(middle, 3 * v);
  const { start, other, weight, total } = fit;
  for (let sweep = 0; sweep < SPREADING.sweeps; sweep++) {
    for (let v = 0; v < mesh.vertexCount; v++) {
      if (fixed[v]) continue;
      for (let k = 0; k < 3; k++) {
        let sum = 0;
        for (let i = start[v]!; i < start[v + 1]!; i++) sum += weight[i]! * positions[3 * other[i]! + k]!;
        positions[3 * v + k]! += SPREADING.relaxation * (sum / total[v]! - positions[3 * v + k]!);
      }
      holdVertex(hold, positions, v);
    }
  }
  return { vertices, fixed, positions };
}

/** Evenly scattered between -1 and 1, always the same. @see Knuth, The Art of Computer Programming 3 (1998), 6.4 */
const shaken = (i: number): number => 2 * (((i + 1) * 0.618033988749895) % 1) - 1;

/** Holds cloth off the body the way its panel looks, the farther from a landmark the more. */
function pushOff(
  pattern: Pattern,
  {
    mesh,
    placing,
    vertices,
    push,
  }: { mesh: SewnMesh; placing: Placing; vertices: readonly number[]; push: number },
  positions: Float64Array,
): void {
  const facing = new Float64Array(3 * mesh.vertexCount);
  for (let i = 0; i < mesh.triangles.length; i++) {
    const way = placing.facing[pattern.panels[mesh.panel[Math.floor(i / 3)]!]!.name];
    if (way) for (let k = 0; k < 3; k++) facing[3 * mesh.triangles[i]! + k]! += way[k]!;
  }
  const from = positions.slice();
  for (let v = 0; v < mesh.vertexCount; v++) {
    const length = Math.hypot(facing[3 * v]!, facing[3 * v + 1]!, facing[3 * v + 2]!);
    if (length === 0) continue;
    const near = Math.min(
      ...vertices.map((w) => Math.hypot(...triple((k) => from[3 * v + k]! - from[3 * w + k]!))),
    );
    const way = (push * Math.min(near, MOST_PUSH)) / length;
    for (let k = 0; k < 3; k++) positions[3 * v + k]! += way * facing[3 * v + k]!;
  }
}

/** What holds each vertex of a level. */
function holdOf(pattern: Pattern, level: SewnLevel, { held }: Placing): Hold {
  const plane = new Uint8Array(level.vertexCount);
  held.forEach(({ edge }, i) => {
    for (const v of chainOf(pattern, level, edge)) plane[v] = i + 1;
  });
  return { onCentre: centreVertices(pattern, level), plane, planes: held };
}

const halfway = (coarse: Float64Array, parents: Uint32Array): Float64Array =>
  Float64Array.from({ length: (3 * parents.length) / 2 }, (_, i) => {
    const v = Math.floor(i / 3);
    const k = i % 3;
    return (coarse[3 * parents[2 * v]! + k]! + coarse[3 * parents[2 * v + 1]! + k]!) / 2;
  });

/** Triangles whose outside, by the way most of their panel is wound, looks into the body. */
export function inwardTriangles(mesh: SewnMesh, positions: Float64Array, field: DistanceField): number {
  const looks = outwardLooks(mesh, positions, field);
  const sums = panelSums(mesh, looks);
  return looks.reduce((count, look, t) => count + (look * sums[mesh.panel[t]!]! < 0 ? 1 : 0), 0);
}

/** Area of each triangle as it looks out of the body, negative where wound the other way, m^2. */
export function outwardLooks(mesh: SewnMesh, positions: Float64Array, field: DistanceField): Float64Array {
  const { triangles } = mesh;
  const sample = new Float64Array(10);
  return Float64Array.from(mesh.panel, (_, t) => {
    const [a, b, c] = triple((k) => 3 * triangles[3 * t + k]!);
    const at = triple((k) => (positions[a + k]! + positions[b + k]! + positions[c + k]!) / 3);
    field.sample(...at, sample);
    const e = triple((k) => positions[b + k]! - positions[a + k]!);
    const f = triple((k) => positions[c + k]! - positions[a + k]!);
    const normal = [e[1] * f[2] - e[2] * f[1], e[2] * f[0] - e[0] * f[2], e[0] * f[1] - e[1] * f[0]];
    return (normal[0]! * sample[1]! + normal[1]! * sample[2]! + normal[2]! * sample[3]!) / 2;
  });
}

/** Sum over each panel's triangles. */
export function panelSums({ panel }: SewnMesh, values: Float64Array): Float64Array {
  const sums = new Float64Array(panel.reduce((most, p) => Math.max(most, p), 0) + 1);
  panel.forEach((p, t) => (sums[p]! += values[t]!));
  return sums;
}

/** How far the cloth is from its cut size: sum over triangles of A (s1 - 1)^2 + (s2 - 1)^2, s the principal stretches. */
function strainOf({ triangles, corners }: SewnMesh, positions: Float64Array): number {
  let strain = 0;
  for (let t = 0; 3 * t < triangles.length; t++) {
    const [a, b, c] = triple((k) => 3 * triangles[3 * t + k]!);
    const u1 = corners[6 * t + 2]! - corners[6 * t]!;
    const v1 = corners[6 * t + 3]! - corners[6 * t + 1]!;
    const u2 = corners[6 * t + 4]! - corners[6 * t]!;
    const v2 = corners[6 * t + 5]! - corners[6 * t + 1]!;
    const det = u1 * v2 - u2 * v1;
    let [uu, uv, vv] = [0, 0, 0];
    for (let k = 0; k < 3; k++) {
      const e1 = positions[b + k]! - positions[a + k]!;
      const e2 = positions[c + k]! - positions[a + k]!;
      const f = (e1 * v2 - e2 * v1) / det;
      const g = (e2 * u1 - e1 * u2) / det;
      uu += f * f;
      uv += f * g;
      vv += g * g;
    }
    // (s1 - 1)^2 + (s2 - 1)^2 = tr C - 2 (s1 + s2) + 2, s1 + s2 = sqrt(tr C + 2 sqrt det C).
    const sum = Math.sqrt(uu + vv + 2 * Math.sqrt(Math.max(0, uu * vv - uv * uv)));
    strain += (Math.abs(det) / 2) * (uu + vv - 2 * sum + 2);
  }
  return strain;
}
