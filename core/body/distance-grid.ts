import { triple, type Triple } from '../mesh/triple.ts';
import type { DistanceField } from './distance-field.ts';

/**
 * A tricubic B-spline on a uniform grid: twice differentiable, 64 coefficients to a point.
 *
 * Coefficient (i, j, k) sits at low + spacing * (i - 1, j - 1, k - 1); the spline is whole from `low` over
 * counts - 3 cells along each axis.
 */
export interface DistanceGrid {
  readonly low: Readonly<Triple>;
  readonly spacing: number;
  readonly counts: Readonly<Triple>;
  /** m; counts[0] * counts[1] * counts[2], z fastest. */
  readonly coefficients: Float64Array;
  /** Cells with finer splines of their own, where the skin is too sharp for the spacing. */
  readonly cut?: CutCells | undefined;
}

/** Cells of a grid cut into n^3 smaller ones: they read their own coefficients in place of the grid's. */
export interface CutCells {
  /**
   * Number of each block of 4^3 cells, 0 where all are whole; blocks along each axis as many as hold the counts - 3 cells,
   * z fastest. Small enough to stay at hand while whole cells are read.
   */
  readonly blockOf: Uint16Array | Uint32Array;
  /** Number of each cell, 0 where it is whole; 64 per block, z fastest, those of block 0 all 0. */
  readonly numberOf: Uint16Array | Uint32Array;
  /** By number: where its coefficients begin, and n. */
  readonly starts: Uint32Array;
  readonly along: Uint8Array;
  /** m; (n + 3)^3 per cut cell, z fastest, coefficient (i, j, k) at its finer node (i - 1, j - 1, k - 1). */
  readonly coefficients: Float64Array;
}

/** Blocks of 4^3 cells along each axis of a grid. */
export const blockCounts = (counts: Readonly<Triple>): Triple =>
  triple((axis) => Math.ceil((counts[axis]! - 3) / 4));

/** The four cubic B-spline weights at t in [0, 1], their first and second derivatives by t: 12 numbers at `at`. */
function splineWeights(t: number, into: Float64Array, at: number): void {
  const s = 1 - t;
  into[at] = (s * s * s) / 6;
  into[at + 1] = (4 - 6 * t * t + 3 * t * t * t) / 6;
  into[at + 2] = (4 - 6 * s * s + 3 * s * s * s) / 6;
  into[at + 3] = (t * t * t) / 6;
  into[at + 4] = (-s * s) / 2;
  into[at + 5] = (3 * t * t) / 2 - 2 * t;
  into[at + 6] = 2 * s - (3 * s * s) / 2;
  into[at + 7] = (t * t) / 2;
  into[at + 8] = s;
  into[at + 9] = 3 * t - 2;
  into[at + 10] = 3 * s - 2;
  into[at + 11] = t;
}

/**
 * The field of a grid. Outside its box it goes on straight: f(p) = f(p') + gradient(p') . (p - p') with p' the nearest
 * point of the box, so value and gradient stay continuous and finite everywhere.
 */
export function fieldOfGrid(grid: DistanceGrid): DistanceField {
  const { spacing, counts } = grid;
  const [lowX, lowY, lowZ] = grid.low;
  const high = triple((k) => grid.low[k]! + (counts[k]! - 3) * spacing);
  const [highX, highY, highZ] = high;
  const inside = sampler(grid);
  const sample = (x: number, y: number, z: number, into: Float64Array): void => {
    const cx = x < lowX ? lowX : x > highX ? highX : x;
    const cy = y < lowY ? lowY : y > highY ? highY : y;
    const cz = z < lowZ ? lowZ : z > highZ ? highZ : z;
    inside(cx, cy, cz, into);
    if (cx !== x || cy !== y || cz !== z) goOnStraight(into, x - cx, y - cy, z - cz);
  };
  return { sample };
}

/** Continues a sample by the way (dx, dy, dz) out of the box; third derivatives are left out of the Hessian. */
function goOnStraight(into: Float64Array, dx: number, dy: number, dz: number): void {
  const [value, gx, gy, gz, xx, xy, xz, yy, yz, zz] = into;
  // 1 along the axes in which the point still lies within the box.
  const x = Number(dx === 0);
  const y = Number(dy === 0);
  const z = Number(dz === 0);
  into[0] = value! + gx! * dx + gy! * dy + gz! * dz;
  into[1] = gx! + x * (xy! * dy + xz! * dz);
  into[2] = gy! + y * (xy! * dx + yz! * dz);
  into[3] = gz! + z * (xz! * dx + yz! * dy);
  into[4] = x * xx!;
  into[5] = (x | y) * xy!;
  into[6] = (x | z) * xz!;
  into[7] = y * yy!;
  into[8] = (y | z) * yz!;
  into[9] = z * zz!;
}

/**
 * Samples the spline inside its box: value, gradient and Hessian from 64 coefficients in one pass.
 *
 * Each line of four along z is reduced to value, slope and bend; four lines to a sheet; four sheets to the point.
 */
/* oxlint-disable max-lines-per-function -- innermost kernel, about a million calls a solve: kept in one piece, plain locals, no allocation */
function sampler({ low, spacing, counts, coefficients: whole, cut }: DistanceGrid): DistanceField['sample'] {
  const [lowX, lowY, lowZ] = low;
  const [nx, ny, nz] = counts;
  const perCell = 1 / spacing;
  const w = new Float64Array(36);
  const blockOf = cut?.blockOf;
  const numberOf = cut?.numberOf;
  const [, blocksY, blocksZ] = blockCounts(counts);
  return (x, y, z, into) => {
    const u = (x - lowX) * perCell;
    const v = (y - lowY) * perCell;
    const s = (z - lowZ) * perCell;
    let inverse = perCell;
    const i = cellOf(u, nx);
    const j = cellOf(v, ny);
    const k = cellOf(s, nz);
    let tx = u - i,
      ty = v - j,
      tz = s - k;
    let coefficients = whole;
    let row = nz,
      plane = ny * nz;
    let first = i * plane + j * row + k;
    const block = blockOf === undefined ? 0 : blockOf[((i >> 2) * blocksY + (j >> 2)) * blocksZ + (k >> 2)]!;
    const number = block === 0 ? 0 : numberOf![64 * block + ((i & 3) << 4) + ((j & 3) << 2) + (k & 3)]!;
    if (number !== 0) {
      const n = cut!.along[number]!;
      row = n + 3;
      plane = row * row;
      const a = Math.min(n - 1, Math.floor(tx * n));
      const b = Math.min(n - 1, Math.floor(ty * n));
      const c = Math.min(n - 1, Math.floor(tz * n));
      tx = tx * n - a;
      ty = ty * n - b;
      tz = tz * n - c;
      coefficients = cut!.coefficients;
      first = cut!.starts[number]! + a * plane + b * row + c;
      inverse *= n;
    }
    const inverse2 = inverse * inverse;
    splineWeights(tx, w, 0);
    splineWeights(ty, w, 12);
    splineWeights(tz, w, 24);
    const z0 = w[24]!,
      z1 = w[25]!,
      z2 = w[26]!,
      z3 = w[27]!;
    const d0 = w[28]!,
      d1 = w[29]!,
      d2 = w[30]!,
      d3 = w[31]!;
    const e0 = w[32]!,
      e1 = w[33]!,
      e2 = w[34]!,
      e3 = w[35]!;
    let f = 0,
      fx = 0,
      fy = 0,
      fz = 0,
      fxx = 0,
      fxy = 0,
      fxz = 0,
      fyy = 0,
      fyz = 0,
      fzz = 0;
    for (let a = 0; a < 4; a++) {
      let g = 0,
        gy = 0,
        gz = 0,
        gyy = 0,
        gyz = 0,
        gzz = 0;
      for (let b = 0; b < 4; b++) {
        const at = first + a * plane + b * row;
        const c0 = coefficients[at]!,
          c1 = coefficients[at + 1]!;
        const c2 = coefficients[at + 2]!,
          c3 = coefficients[at + 3]!;
        const value = z0 * c0 + z1 * c1 + z2 * c2 + z3 * c3;
        const slope = d0 * c0 + d1 * c1 + d2 * c2 + d3 * c3;
        const bend = e0 * c0 + e1 * c1 + e2 * c2 + e3 * c3;
        const weight = w[12 + b]!,
          weightSlope = w[16 + b]!;
        g += weight * value;
        gy += weightSlope * value;
        gyy += w[20 + b]! * value;
        gz += weight * slope;
        gyz += weightSlope * slope;
        gzz += weight * bend;
      }
      const weight = w[a]!,
        weightSlope = w[4 + a]!;
      f += weight * g;
      fx += weightSlope * g;
      fxx += w[8 + a]! * g;
      fy += weight * gy;
      fxy += weightSlope * gy;
      fyy += weight * gyy;
      fz += weight * gz;
      fxz += weightSlope * gz;
      fyz += weight * gyz;
      fzz += weight * gzz;
    }
    into[0] = f;
    into[1] = fx * inverse;
    into[2] = fy * inverse;
    into[3] = fz * inverse;
    into[4] = fxx * inverse2;
    into[5] = fxy * inverse2;
    into[6] = fxz * inverse2;
    into[7] = fyy * inverse2;
    into[8] = fyz * inverse2;
    into[9] = fzz * inverse2;
  };
}

/** The cell whose four coefficients along an axis hold u (in cells), kept within the grid. */
function cellOf(u: number, count: number): number {
  const cell = Math.floor(u);
  return cell < 0 ? 0 : cell > count - 4 ? count - 4 : cell;
}
