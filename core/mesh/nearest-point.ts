import { closestOnTriangle } from './closest-on-triangle.ts';
import { extentOf } from './extent.ts';
import type { TriangleMesh } from './triangle-mesh.ts';
import { triple, type Triple } from './triple.ts';

/**
 * Finds the nearest point of a mesh.
 *
 * @param into - 4 numbers, overwritten: the weights of the three corners, then the distance in m.
 * @returns The nearest triangle; the lowest index where several are equally near.
 */
export type NearestPoint = (x: number, y: number, z: number, into: Float64Array) => number;

/** Triangles sorted into the cells of a uniform grid over their box. */
interface CellGrid {
  readonly low: Readonly<Triple>;
  readonly size: number;
  readonly counts: Readonly<Triple>;
  /** Triangles of cell i: list[start[i]] .. list[start[i + 1] - 1]. */
  readonly start: Uint32Array;
  readonly list: Uint32Array;
}

/**
 * Prepares a mesh for nearest-point questions: cells about two edges wide, asked in growing shells until nothing
 * farther out can be nearer.
 *
 * @param mesh - At least one triangle, finite; not changed.
 */
export function nearestPointOf(mesh: TriangleMesh): NearestPoint {
  const grid = cellGrid(mesh);
  const { positions, triangles } = mesh;
  const weights = new Float64Array(3);
  // A triangle lies in several cells: the question that saw it last is noted, so that it is measured once.
  const seen = new Uint32Array(triangles.length / 3);
  let question = 0;
  return (x, y, z, into) => {
    question = (question + 1) >>> 0;
    if (question === 0) {
      seen.fill(0);
      question = 1;
    }
    let best = Infinity;
    let nearest = 0;
    const measure = (cell: number): void => {
      for (let i = grid.start[cell]!; i < grid.start[cell + 1]!; i++) {
        const t = grid.list[i]!;
        if (seen[t] === question) continue;
        seen[t] = question;
        const a = 3 * triangles[3 * t]!;
        const b = 3 * triangles[3 * t + 1]!;
        const c = 3 * triangles[3 * t + 2]!;
        const squared = closestOnTriangle(positions, a, b, c, x, y, z, weights);
        if (squared < best || (squared === best && t < nearest)) {
          best = squared;
          nearest = t;
          into.set(weights);
        }
      }
    };
    askShells(grid, [x, y, z], measure, () => best);
    into[3] = Math.sqrt(best);
    return nearest;
  };
}

/** Visits cells shell by shell round the point until the next shell lies beyond the best distance found. */
function askShells(
  { low, size, counts }: CellGrid,
  point: Readonly<Triple>,
  measure: (cell: number) => void,
  best: () => number,
): void {
  // For a point outside the box, p' its nearest point in it: |p - q|^2 >= |p - p'|^2 + |p' - q|^2 for every q inside.
  let outside = 0;
  let slack = size;
  const [hx, hy, hz] = triple((k) => {
    const p = point[k]!;
    const inBox = Math.min(Math.max(p, low[k]!), low[k]! + size * counts[k]!);
    outside += (p - inBox) ** 2;
    const cell = Math.min(counts[k]! - 1, Math.floor((inBox - low[k]!) / size));
    const within = inBox - low[k]! - cell * size;
    slack = Math.min(slack, within, size - within);
    return cell;
  });
  slack = Math.max(0, slack);
  const last = Math.max(...counts);
  for (let shell = 0; shell <= last; shell++) {
    if (shell > 0 && outside + ((shell - 1) * size + slack) ** 2 > best()) return;
    const [nx, ny, nz] = counts;
    for (let i = Math.max(0, hx - shell); i <= Math.min(nx - 1, hx + shell); i++)
      for (let j = Math.max(0, hy - shell); j <= Math.min(ny - 1, hy + shell); j++) {
        const onShell = Math.abs(i - hx) === shell || Math.abs(j - hy) === shell;
        const step = onShell || shell === 0 ? 1 : 2 * shell;
        for (let k = hz - shell; k <= hz + shell; k += step)
          if (k >= 0 && k < nz) measure((i * ny + j) * nz + k);
      }
  }
}

function cellGrid(mesh: TriangleMesh): CellGrid {
  const { positions, triangles } = mesh;
  const triangleCount = triangles.length / 3;
  const { low, high } = extentOf(mesh);
  const extent = triple((k) => high[k]! - low[k]!);
  const [dx, dy, dz] = extent;
  // Two faces' worth of box surface per triangle gives cells about two edges wide; the volume keeps their number bounded.
  const bySurface = Math.sqrt((4 * (dx * dy + dy * dz + dz * dx)) / triangleCount);
  const byVolume = Math.cbrt((dx * dy * dz) / (8 * triangleCount + 1000));
  const longest = Math.max(dx, dy, dz);
  const size = Math.max(bySurface, byVolume, longest / 1000) || 1;
  const counts = triple((k) => Math.max(1, Math.ceil(extent[k]! / size)));
  // First and last cell of every triangle along each axis; 6 numbers each.
  const range = new Uint32Array(6 * triangleCount);
  for (let t = 0; t < triangleCount; t++) {
    for (let k = 0; k < 3; k++) {
      const p = positions[3 * triangles[3 * t]! + k]!;
      const q = positions[3 * triangles[3 * t + 1]! + k]!;
      const r = positions[3 * triangles[3 * t + 2]! + k]!;
      const first = Math.floor((Math.min(p, q, r) - low[k]!) / size);
      const last = Math.floor((Math.max(p, q, r) - low[k]!) / size);
      range[6 * t + k] = Math.min(counts[k]! - 1, Math.max(0, first));
      range[6 * t + 3 + k] = Math.min(counts[k]! - 1, Math.max(0, last));
    }
  }
  const forEachCell = (visit: (cell: number, t: number) => void): void => {
    for (let t = 0, at = 0; t < triangleCount; t++, at += 6) {
      for (let i = range[at]!; i <= range[at + 3]!; i++)
        for (let j = range[at + 1]!; j <= range[at + 4]!; j++)
          for (let k = range[at + 2]!; k <= range[at + 5]!; k++)
            visit((i * counts[1] + j) * counts[2] + k, t);
    }
  };
  const start = new Uint32Array(counts[0] * counts[1] * counts[2] + 1);
  forEachCell((cell) => start[cell + 1]!++);
  for (let cell = 0; cell < start.length - 1; cell++) start[cell + 1]! += start[cell]!;
  const next = start.slice();
  const list = new Uint32Array(start.at(-1)!);
  forEachCell((cell, t) => {
    list[next[cell]!++] = t;
  });
  return { low, size, counts, start, list };
}
