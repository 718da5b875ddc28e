import type { FlatSheet } from '../equilibrium/curvature-patches.ts';

/** One mesh of a disc. Levels nest: each triangle of a coarser level is split in four. */
export interface DiscLevel extends FlatSheet {
  /** Two vertices of the next coarser level per vertex, whose middle this one is (the same twice where they coincide); 2*V. */
  readonly parents: Uint32Array;
  /** Vertices of the outline, in order round it. */
  readonly outline: Uint32Array;
}

/** Angle by which each ring is turned against the last: no two rings line up. */
const GOLDEN_ANGLE = Math.PI * (3 - Math.sqrt(5));

/** Triangles per area of a ring mesh of unit spacing: ring k holds 2 pi k vertices, V = 1 + pi n (n + 1). */
const ringsFor = (vertexCount: number): number => (Math.sqrt(1 + (4 * (vertexCount - 1)) / Math.PI) - 1) / 2;

/**
 * A disc of rings, each with as many vertices as fit and turned against its neighbours, so that no direction is
 * preferred; then halved again and again.
 *
 * One ring lies on the circle `rim`; a vertex made between two of the same ring lies on that ring.
 *
 * @param vertexCount - Wanted on the finest mesh; met within a tenth.
 * @param fewest - Of the coarsest mesh.
 * @returns Coarsest first.
 */
export function discLevels(
  { radius, rim }: { radius: number; rim: number },
  vertexCount: number,
  fewest: number,
): DiscLevel[] {
  const levelCount = 1 + Math.max(0, Math.floor(Math.log(vertexCount / fewest) / Math.log(4)));
  const rings = Math.max(3, Math.round(ringsFor(vertexCount) / 2 ** (levelCount - 1)));
  const inner = Math.min(rings - 1, Math.max(1, Math.round((rings * rim) / radius)));
  const radii = Array.from({ length: rings + 1 }, (_, k) =>
    k <= inner ? (rim * k) / inner : rim + ((radius - rim) * (k - inner)) / (rings - inner),
  );
  let level = ringDisc(radii);
  const levels = [level.disc];
  for (let l = 1; l < levelCount; l++) {
    level = halve(level);
    levels.push(level.disc);
  }
  return levels;
}

/** A disc and the ring each vertex is on (the radius; -1 between rings). */
interface RingedDisc {
  readonly disc: DiscLevel;
  readonly ring: Float64Array;
}

function ringDisc(radii: readonly number[]): RingedDisc {
  const flat: number[] = [0, 0];
  const ring: number[] = [0];
  const triangles: number[] = [];
  const spacing = radii.at(-1)! / (radii.length - 1);
  let below = { start: 0, count: 1, turn: 0 };
  for (let k = 1; k < radii.length; k++) {
    const radius = radii[k]!;
    const own = {
      start: flat.length / 2,
      count: Math.max(6, Math.round((2 * Math.PI * radius) / spacing)),
      turn: k * GOLDEN_ANGLE,
    };
    for (let i = 0; i < own.count; i++) {
      const angle = own.turn + (2 * Math.PI * i) / own.count;
      flat.push(radius * Math.cos(angle), radius * Math.sin(angle));
      ring.push(radius);
    }
    if (k === 1) for (let i = 0; i < own.count; i++) triangles.push(0, 1 + i, 1 + ((i + 1) % own.count));
    else joinRings(triangles, below, own);
    below = own;
  }
  const disc = {
    flat: Float64Array.from(flat),
    triangles: Uint32Array.from(triangles),
    parents: new Uint32Array(0),
    outline: Uint32Array.from({ length: below.count }, (_, i) => below.start + i),
  };
  return { disc, ring: Float64Array.from(ring) };
}

interface Ring {
  readonly start: number;
  readonly count: number;
  readonly turn: number;
}

/** Triangles between two rings: whichever ring's next vertex comes first in angle is taken next. */
function joinRings(triangles: number[], inner: Ring, outer: Ring): void {
  const full = 2 * Math.PI;
  // Start at the inner ring's first vertex and the outer vertex just before or at it.
  const shift = (((inner.turn - outer.turn) % full) + full) % full;
  const first = Math.floor((shift / full) * outer.count);
  const innerAngle = (i: number) => (full * i) / inner.count;
  const outerAngle = (j: number) => (full * (first + j)) / outer.count - shift;
  let i = 0;
  let j = 0;
  while (i < inner.count || j < outer.count) {
    const a = inner.start + (i % inner.count);
    const b = outer.start + ((first + j) % outer.count);
    // The step that keeps the middle of the new edge's angles closest together: the shorter diagonal.
    const takeOuter =
      j < outer.count &&
      (i >= inner.count || outerAngle(j + 1) - innerAngle(i) <= innerAngle(i + 1) - outerAngle(j));
    if (takeOuter) {
      j++;
      triangles.push(a, b, outer.start + ((first + j) % outer.count));
    } else {
      i++;
      triangles.push(a, b, inner.start + (i % inner.count));
    }
  }
}

/** Splits each triangle in four at the middles of its sides. */
function halve({ disc: { flat, triangles, outline }, ring }: RingedDisc): RingedDisc {
  const vertexCount = flat.length / 2;
  const middles = new Map<number, number>();
  const parents = Array.from({ length: 2 * vertexCount }, (_, i) => i >> 1);
  const fine = Array.from(flat);
  const fineRing = Array.from(ring);
  const middle = (a: number, b: number): number => {
    const key = Math.min(a, b) * vertexCount + Math.max(a, b);
    const known = middles.get(key);
    if (known !== undefined) return known;
    const made = fine.length / 2;
    middles.set(key, made);
    parents.push(a, b);
    const u = (flat[2 * a]! + flat[2 * b]!) / 2;
    const v = (flat[2 * a + 1]! + flat[2 * b + 1]!) / 2;
    const shared = ring[a]! >= 0 && ring[a] === ring[b];
    const scale = shared ? ring[a]! / Math.hypot(u, v) : 1;
    fine.push(scale * u, scale * v);
    fineRing.push(shared ? ring[a]! : -1);
    return made;
  };
  const split: number[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const a = triangles[t]!;
    const b = triangles[t + 1]!;
    const c = triangles[t + 2]!;
    const ab = middle(a, b);
    const bc = middle(b, c);
    const ca = middle(c, a);
    split.push(a, ab, ca, ab, b, bc, ca, bc, c, ab, bc, ca);
  }
  const longer: number[] = [];
  outline.forEach((v, i) => longer.push(v, middle(v, outline[(i + 1) % outline.length]!)));
  const disc = {
    flat: Float64Array.from(fine),
    triangles: Uint32Array.from(split),
    parents: Uint32Array.from(parents),
    outline: Uint32Array.from(longer),
  };
  return { disc, ring: Float64Array.from(fineRing) };
}
