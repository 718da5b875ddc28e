/**
 * How a surface passes through one cell of a grid, for every pattern of inside and outside corners.
 *
 * Corner i + 2 j + 4 k lies at step i in x, j in y, k in z. Edges: 0-3 along x, numbered j + 2 k; 4-7 along y,
 * 4 + i + 2 k; 8-11 along z, 8 + i + 2 j.
 */
export interface CellSheets {
  /** Separate sheets of the surface per pattern; 256. */
  readonly count: Uint8Array;
  /** Sheet that crosses each edge, -1 where none does; 12 per pattern. */
  readonly sheet: Int8Array;
}

/** Corners of the six faces in turning order. */
const FACES = [
  [0, 2, 6, 4],
  [1, 3, 7, 5],
  [0, 1, 5, 4],
  [2, 3, 7, 6],
  [0, 1, 3, 2],
  [4, 5, 7, 6],
] as const;

/**
 * The table of sheets. Crossed edges are linked over the faces they share; a face with four crossings has each inside
 * corner cut off by itself. The rule looks at one face only, so that both cells at a face agree.
 *
 * A vertex for each sheet, not for each cell, keeps two surfaces apart that pass through one cell (inner thighs): with
 * one vertex per cell some sizes had edges with four triangles.
 *
 * @see Nielson, Dual marching cubes, IEEE Visualization 2004.
 */
export function cellSheets(): CellSheets {
  const count = new Uint8Array(256);
  const sheet = new Int8Array(256 * 12).fill(-1);
  for (let pattern = 0; pattern < 256; pattern++) {
    const inside = (corner: number): boolean => ((pattern >> corner) & 1) === 1;
    const group = Int8Array.from({ length: 12 }, (_, edge) => edge);
    for (const face of FACES) linkFace(face, inside, group);
    const seen = new Map<number, number>();
    for (let edge = 0; edge < 12; edge++) {
      const [low, high] = edgeCorners(edge);
      if (inside(low) === inside(high)) continue;
      const root = group[edge]!;
      if (!seen.has(root)) seen.set(root, seen.size);
      sheet[12 * pattern + edge] = seen.get(root)!;
    }
    count[pattern] = seen.size;
  }
  return { count, sheet };
}

/** Merges the groups of crossed edges that the surface joins on one face. */
function linkFace(
  face: readonly [number, number, number, number],
  inside: (corner: number) => boolean,
  group: Int8Array,
): void {
  const merge = (one: number, other: number): void => {
    const [from, to] = [group[one]!, group[other]!];
    for (let edge = 0; edge < 12; edge++) if (group[edge] === from) group[edge] = to;
  };
  const sides = face.map((corner, i) => edgeBetween(corner, face[(i + 1) % 4]!));
  const crossed = face.map((corner, i) => inside(corner) !== inside(face[(i + 1) % 4]!));
  const crossings = sides.filter((_, i) => crossed[i]);
  if (crossings.length === 2) merge(crossings[0]!, crossings[1]!);
  if (crossings.length === 4) {
    face.forEach((corner, i) => {
      if (inside(corner)) merge(sides[i]!, sides[(i + 3) % 4]!);
    });
  }
}

/** The two corners of an edge, lower step first. */
export function edgeCorners(edge: number): readonly [number, number] {
  const a = edge & 1;
  const b = (edge >> 1) & 1;
  if (edge < 4) return [2 * a + 4 * b, 2 * a + 4 * b + 1];
  if (edge < 8) return [a + 4 * b, a + 4 * b + 2];
  return [a + 2 * b, a + 2 * b + 4];
}

function edgeBetween(one: number, other: number): number {
  const low = one & other;
  const [i, j, k] = [low & 1, (low >> 1) & 1, (low >> 2) & 1];
  const axis = one ^ other;
  if (axis === 1) return j + 2 * k;
  return axis === 2 ? 4 + i + 2 * k : 8 + i + 2 * j;
}
