import type { TriangleMesh } from './triangle-mesh.ts';

/**
 * One closed loop in which a horizontal plane cuts a surface, solid or hollow.
 *
 * Points run counter-clockwise seen from above with x to the right and z towards the viewer's feet (down the page),
 * so that a loop round a body has the body on its left.
 */
export interface Section {
  /** 2 per point: x, z in m; the last point joins the first, which is not repeated. */
  readonly points: Float64Array;
  /** Along the loop, m. */
  readonly length: number;
  /** Enclosed, positive, m^2. */
  readonly area: number;
  /** Of the enclosed area: x, z in m. */
  readonly centroid: readonly [number, number];
}

/**
 * The closed loops in which the plane y = `height` cuts the mesh, the largest area first.
 *
 * A vertex exactly in the plane counts as above it, so every cut goes through two edges of a triangle and no case is
 * special; a flat top is therefore found at its own height, a flat underside is not. Chains that meet a hole of the
 * mesh do not close and are left out.
 *
 * @param height - m, in the mesh's own y.
 */
export function sectionAt(mesh: TriangleMesh, height: number): Section[] {
  const cuts = cutEdges(mesh, height);
  return closedLoops(cuts)
    .map((loop) => measured(loop.map((node) => cuts.points[node]!)))
    .filter((section) => section !== null)
    .sort((one, other) => other.area - one.area);
}

/**
 * The triangles that a plane between two heights may cut: sections of these are those of the whole mesh, found sooner.
 *
 * @returns Positions are those of the mesh itself.
 */
export function trianglesBetween(
  { positions, triangles }: TriangleMesh,
  low: number,
  high: number,
): TriangleMesh {
  const kept: number[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const a = positions[3 * triangles[i]! + 1]!;
    const b = positions[3 * triangles[i + 1]! + 1]!;
    const c = positions[3 * triangles[i + 2]! + 1]!;
    if ((a >= low || b >= low || c >= low) && (a < high || b < high || c < high)) {
      kept.push(triangles[i]!, triangles[i + 1]!, triangles[i + 2]!);
    }
  }
  return { positions, triangles: Uint32Array.from(kept) };
}

interface Cuts {
  /** x, z of each cut edge. */
  readonly points: [number, number][];
  /** Two cut edges per cut triangle. */
  readonly links: number[];
}

/** Every edge the plane cuts, once, and which two of them each triangle joins. */
function cutEdges({ positions, triangles }: TriangleMesh, height: number): Cuts {
  const vertexCount = positions.length / 3;
  const nodeOf = new Map<number, number>();
  const points: [number, number][] = [];
  const links: number[] = [];
  const node = (a: number, b: number): number => {
    // Always from the lower index, so that both triangles of an edge find the very same point.
    const low = Math.min(a, b);
    const high = Math.max(a, b);
    const key = low * vertexCount + high;
    const known = nodeOf.get(key);
    if (known !== undefined) return known;
    const t = (height - positions[3 * low + 1]!) / (positions[3 * high + 1]! - positions[3 * low + 1]!);
    const along = (k: number): number => (1 - t) * positions[3 * low + k]! + t * positions[3 * high + k]!;
    points.push([along(0), along(2)]);
    nodeOf.set(key, points.length - 1);
    return points.length - 1;
  };
  for (let i = 0; i < triangles.length; i += 3) {
    const a = triangles[i]!;
    const b = triangles[i + 1]!;
    const c = triangles[i + 2]!;
    const aAbove = positions[3 * a + 1]! >= height;
    const bAbove = positions[3 * b + 1]! >= height;
    const cAbove = positions[3 * c + 1]! >= height;
    if (aAbove === bAbove && bAbove === cAbove) continue;
    // The corner that stands alone on its side of the plane: both its edges are cut.
    if (bAbove === cAbove) links.push(node(a, b), node(a, c));
    else if (aAbove === cAbove) links.push(node(b, c), node(b, a));
    else links.push(node(c, a), node(c, b));
  }
  return { points, links };
}

/** Walks the links from cut edge to cut edge; each link is used once, chains that end are dropped. */
function closedLoops({ points, links }: Cuts): number[][] {
  const linksOf: number[][] = points.map(() => []);
  links.forEach((node, i) => linksOf[node]!.push(i >> 1));
  const used = new Uint8Array(links.length / 2);
  const loops: number[][] = [];
  for (let first = 0; first < used.length; first++) {
    if (used[first]) continue;
    used[first] = 1;
    const start = links[2 * first]!;
    let here = links[2 * first + 1]!;
    const loop = [start];
    while (here !== start) {
      loop.push(here);
      const link = linksOf[here]!.find((candidate) => !used[candidate]);
      if (link === undefined) break;
      used[link] = 1;
      here = links[2 * link]! + links[2 * link + 1]! - here;
    }
    if (here === start) loops.push(loop);
  }
  return loops;
}

/** Measures a loop and turns it counter-clockwise; null where it encloses nothing. */
function measured(loop: [number, number][]): Section | null {
  const kept = loop.filter(([x, z], i) => {
    const [previousX, previousZ] = loop[(i + loop.length - 1) % loop.length]!;
    return x !== previousX || z !== previousZ;
  });
  if (kept.length < 3) return null;
  const [originX, originZ] = kept[0]!;
  let length = 0;
  let doubleArea = 0;
  let momentX = 0;
  let momentZ = 0;
  kept.forEach(([x0, z0], i) => {
    const [x1, z1] = kept[(i + 1) % kept.length]!;
    length += Math.hypot(x1 - x0, z1 - z0);
    // Shoelace about the first point, z pointing down the page: positive when counter-clockwise seen from above.
    const cross = (x1 - originX) * (z0 - originZ) - (x0 - originX) * (z1 - originZ);
    doubleArea += cross;
    momentX += cross * (x0 + x1 - 2 * originX);
    momentZ += cross * (z0 + z1 - 2 * originZ);
  });
  if (!(Math.abs(doubleArea) > 1e-12 * length * length)) return null;
  if (doubleArea < 0) kept.reverse();
  return {
    points: Float64Array.from(kept.flat()),
    length,
    area: Math.abs(doubleArea) / 2,
    centroid: [originX + momentX / (3 * doubleArea), originZ + momentZ / (3 * doubleArea)],
  };
}
