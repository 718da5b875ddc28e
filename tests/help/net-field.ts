import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';

/** Negative inside, about a distance. */
export type Solid = (x: number, y: number, z: number) => number;

/** A box and the spacing of the grid in it, in the field's unit. */
export interface NetBox {
  readonly low: readonly [number, number, number];
  readonly high: readonly [number, number, number];
  readonly spacing: number;
}

/**
 * The zero level of a field as a closed mesh: a vertex per cell that it passes, drawn onto it, a quad per grid edge
 * that it crosses. Good for smooth solids thicker than a few cells.
 *
 * @see Gibson, Constrained elastic surface nets, MICCAI 1998.
 */
export function netField(solid: Solid, { low, high, spacing }: NetBox): TriangleMesh {
  const [nx, ny, nz] = [0, 1, 2].map((k) => Math.ceil((high[k]! - low[k]!) / spacing) + 1) as [
    number,
    number,
    number,
  ];
  const steps = [1, nx, nx * ny] as const;
  const values = new Float64Array(nx * ny * nz);
  const at = (i: number, j: number, k: number): number =>
    solid(low[0] + i * spacing, low[1] + j * spacing, low[2] + k * spacing);
  // A block of nodes whose middle is farther from the skin than its corners needs no closer look.
  for (let k0 = 0; k0 < nz; k0 += 4)
    for (let j0 = 0; j0 < ny; j0 += 4)
      for (let i0 = 0; i0 < nx; i0 += 4) {
        const middle = at(i0 + 1.5, j0 + 1.5, k0 + 1.5);
        const isFar = Math.abs(middle) > 4 * spacing;
        for (let k = k0; k < Math.min(k0 + 4, nz); k++)
          for (let j = j0; j < Math.min(j0 + 4, ny); j++)
            for (let i = i0; i < Math.min(i0 + 4, nx); i++) {
              values[(k * ny + j) * nx + i] = isFar ? middle : at(i, j, k);
            }
      }
  const positions: number[] = [];
  const vertexOf = new Map<number, number>();
  /** The vertex of the cell whose lowest node this is. */
  const vertex = (cell: number): number => {
    const known = vertexOf.get(cell);
    if (known !== undefined) return known;
    const place = [cell % nx, Math.floor(cell / nx) % ny, Math.floor(cell / (nx * ny))];
    positions.push(
      ...drawnOnto(
        solid,
        place.map((at, k) => low[k]! + (at + 0.5) * spacing),
        spacing,
      ),
    );
    vertexOf.set(cell, positions.length / 3 - 1);
    return positions.length / 3 - 1;
  };
  const triangles: number[] = [];
  for (let node = 0; node < values.length; node++) {
    for (let axis = 0; axis < 3; axis++) {
      const other = node + steps[axis]!;
      if (other >= values.length || values[node]! < 0 === values[other]! < 0) continue;
      const [one, two] = [steps[(axis + 1) % 3]!, steps[(axis + 2) % 3]!];
      const [a, b, c, d] = [node - one - two, node - two, node, node - one].map(vertex) as [
        number,
        number,
        number,
        number,
      ];
      // Seen against the axis the cells run counter-clockwise.
      if (values[node]! < 0) triangles.push(a, b, c, a, c, d);
      else triangles.push(a, c, b, a, d, c);
    }
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

/** Newton's steps along the slope, no farther than a cell. */
function drawnOnto(solid: Solid, start: readonly number[], spacing: number): number[] {
  let [x, y, z] = start as [number, number, number];
  const h = 0.05 * spacing;
  for (let step = 0; step < 4; step++) {
    const value = solid(x, y, z);
    const slope = [
      solid(x + h, y, z) - solid(x - h, y, z),
      solid(x, y + h, z) - solid(x, y - h, z),
      solid(x, y, z + h) - solid(x, y, z - h),
    ].map((difference) => difference / (2 * h));
    const squared = slope.reduce((sum, s) => sum + s * s, 0) || 1;
    const [dx, dy, dz] = slope.map((s) => (-value * s) / squared) as [number, number, number];
    [x, y, z] = [x + dx, y + dy, z + dz];
  }
  return [x, y, z];
}
