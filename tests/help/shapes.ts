import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';

/** Deterministic numbers in [0, 1) from a seed (mulberry32, public domain). */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

export interface TubeShape {
  /** Half width along x and half depth along z at a height above the foot, m. */
  readonly radii: (y: number) => readonly [number, number];
  readonly height: number;
  /** Wanted edge length, m. */
  readonly edge: number;
  /** With flat lids; true if left out. */
  readonly closed?: boolean;
  /**
   * Moves every vertex within the true surface by up to this share of the edge (0..0.4), so that no symmetry of the
   * mesh can hide an error; 0 if left out. The two rims move along themselves only.
   */
  readonly jitter?: number;
  readonly seed?: number;
  /** Height of the foot above the origin, m. */
  readonly foot?: number;
}

/** A tube of elliptic sections standing on y = foot, all vertices on the true surface, outward, lids closed. */
export function tube(shape: TubeShape): TriangleMesh {
  const { radii, height, edge, closed = true, jitter = 0, seed = 1, foot = 0 } = shape;
  const random = seededRandom(seed);
  const wander = (): number => (2 * random() - 1) * jitter;
  const widest = Math.max(
    ...Array.from({ length: 33 }, (_, i) => radii((height * i) / 32)).flatMap(([a, b]) => [a, b]),
  );
  const aroundCount = Math.max(8, Math.round((2 * Math.PI * widest) / edge));
  const rowCount = Math.max(1, Math.round(height / (edge * 0.9)));
  const positions: number[] = [];
  const triangles: number[] = [];
  const onSurface = (around: number, row: number): void => {
    const y = (height * row) / rowCount;
    const angle = (2 * Math.PI * around) / aroundCount;
    const [a, b] = radii(y);
    positions.push(a * Math.cos(angle), foot + y, -b * Math.sin(angle));
  };
  for (let row = 0; row <= rowCount; row++) {
    const rim = row === 0 || row === rowCount;
    for (let i = 0; i < aroundCount; i++) {
      const stagger = row % 2 === 0 ? 0 : 0.5;
      onSurface(i + stagger + wander(), row + (rim ? 0 : wander()));
    }
  }
  for (let row = 0; row < rowCount; row++) {
    for (let i = 0; i < aroundCount; i++) {
      const j = (i + 1) % aroundCount;
      const a = row * aroundCount + i;
      const b = row * aroundCount + j;
      const c = (row + 1) * aroundCount + i;
      const d = (row + 1) * aroundCount + j;
      if (row % 2 === 0) triangles.push(a, b, c, b, d, c);
      else triangles.push(a, d, c, a, b, d);
    }
  }
  if (closed) {
    lid(positions, triangles, { first: 0, aroundCount, edge, up: false });
    lid(positions, triangles, { first: rowCount * aroundCount, aroundCount, edge, up: true });
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

/** Closes a rim with rings of the same count shrinking to a fan round one middle vertex. */
function lid(
  positions: number[],
  triangles: number[],
  { first, aroundCount, edge, up }: { first: number; aroundCount: number; edge: number; up: boolean },
): void {
  const rim = positions.slice(3 * first, 3 * (first + aroundCount));
  const reach = Math.max(...rim.filter((_, i) => i % 3 !== 1).map(Math.abs));
  const ringCount = Math.max(1, Math.min(12, Math.round(reach / edge)));
  const y = rim[1]!;
  const add = (...corners: [number, number, number]): void => {
    triangles.push(...(up ? corners : ([corners[0], corners[2], corners[1]] as const)));
  };
  let outer = first;
  for (let ring = 1; ring < ringCount; ring++) {
    const inner = positions.length / 3;
    const share = 1 - ring / ringCount;
    for (let i = 0; i < aroundCount; i++) positions.push(rim[3 * i]! * share, y, rim[3 * i + 2]! * share);
    for (let i = 0; i < aroundCount; i++) {
      const j = (i + 1) % aroundCount;
      add(outer + i, outer + j, inner + j);
      add(outer + i, inner + j, inner + i);
    }
    outer = inner;
  }
  const middle = positions.length / 3;
  positions.push(0, y, 0);
  for (let i = 0; i < aroundCount; i++) add(outer + i, outer + ((i + 1) % aroundCount), middle);
}

type TubeOptions = Pick<TubeShape, 'closed' | 'jitter' | 'seed' | 'foot'>;

/** A circular cylinder. m. */
export const cylinder = (
  radius: number,
  height: number,
  edge: number,
  options: TubeOptions = {},
): TriangleMesh => tube({ radii: () => [radius, radius], height, edge, ...options });

/** An elliptic cylinder, half axes a along x and b along z. m. */
export const ellipseCylinder = (
  [a, b]: readonly [number, number],
  height: number,
  edge: number,
  options: TubeOptions = {},
): TriangleMesh => tube({ radii: () => [a, b], height, edge, ...options });

/** A truncated cone, `low` the radius at the foot and `high` at the top. m. */
export const cone = (
  [low, high]: readonly [number, number],
  height: number,
  edge: number,
  options: TubeOptions = {},
): TriangleMesh => {
  const radius = (y: number): number => low + ((high - low) * y) / height;
  return tube({ radii: (y) => [radius(y), radius(y)], height, edge, ...options });
};

/** A waist: radius `wide` at foot and top, `narrow` half way up, a raised cosine between. m. */
export const hourglass = (
  [wide, narrow]: readonly [number, number],
  height: number,
  edge: number,
  options: TubeOptions = {},
): TriangleMesh => {
  const radius = (y: number): number =>
    wide - ((wide - narrow) / 2) * (1 - Math.cos((2 * Math.PI * y) / height));
  return tube({ radii: (y) => [radius(y), radius(y)], height, edge, ...options });
};

/** A sphere about the origin from an octahedron, each face split into count^2 triangles. m. */
export function sphere(radius: number, edge: number): TriangleMesh {
  const count = Math.max(1, Math.round((radius * Math.PI) / 2 / edge));
  const indexOf = new Map<string, number>();
  const positions: number[] = [];
  const triangles: number[] = [];
  const vertex = (x: number, y: number, z: number): number => {
    const key = `${x},${y},${z}`;
    const known = indexOf.get(key);
    if (known !== undefined) return known;
    const scale = radius / Math.hypot(x, y, z);
    positions.push(x * scale, y * scale, z * scale);
    indexOf.set(key, positions.length / 3 - 1);
    return positions.length / 3 - 1;
  };
  for (const sx of [1, -1])
    for (const sy of [1, -1])
      for (const sz of [1, -1]) {
        const at = (i: number, j: number): number => vertex(sx * (count - i - j), sy * i, sz * j);
        const add = (a: number, b: number, c: number): void => {
          triangles.push(...(sx * sy * sz > 0 ? [a, b, c] : [a, c, b]));
        };
        for (let i = 0; i < count; i++)
          for (let j = 0; i + j < count; j++) {
            add(at(i, j), at(i + 1, j), at(i, j + 1));
            if (i + j < count - 1) add(at(i + 1, j), at(i + 1, j + 1), at(i, j + 1));
          }
      }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}
