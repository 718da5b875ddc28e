import { makeMeshBody } from '../body/mesh-body.ts';
import type { DistanceField } from '../body/distance-field.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import type { Check } from './check.ts';
import { onRing, scatter } from './proof-tube.ts';
import { innerRows, spread } from './settled-tube.ts';
import { pressureOnHardBar, settledBar } from './tube-sizes.ts';

/** How far the bar goes on beyond both hems, m. */
const BEYOND = 0.05;
/** Vertices of the bar's mesh lie up to this share of an edge astray, within its true surface. */
const ASTRAY = 0.25;

/** A hard bar as a mesh, and the cloth on it; mm. */
export interface MeshedBar {
  readonly radiusMm: number;
  readonly skinEdgeMm: number;
  readonly clothEdgeMm: number;
}

/** Limb, thigh and trunk on skins of three sizes of mesh, and finer and coarser cloth where it is hardest. */
const TABLE: readonly MeshedBar[] = [
  ...[40, 70, 150].flatMap((radiusMm) =>
    [4, 8, 12].map((skinEdgeMm) => ({ radiusMm, skinEdgeMm, clothEdgeMm: 8 })),
  ),
  { radiusMm: 40, skinEdgeMm: 12, clothEdgeMm: 4 },
  { radiusMm: 150, skinEdgeMm: 12, clothEdgeMm: 4 },
  { radiusMm: 40, skinEdgeMm: 12, clothEdgeMm: 12 },
  { radiusMm: 150, skinEdgeMm: 8, clothEdgeMm: 12 },
];

/**
 * What the facets of a body's mesh do to the pressure: tubes on bars that are known only as irregular triangle meshes,
 * through the same smooth field that every body from a file gets, against Laplace on the true bar.
 */
export function* tubeOnMesh(): Generator<void, Check[]> {
  const checks: Check[] = [];
  for (const bar of TABLE) {
    checks.push(noiseCheck(bar));
    yield;
  }
  return checks;
}

function noiseCheck(bar: MeshedBar): Check {
  const { radiusMm, skinEdgeMm, clothEdgeMm } = bar;
  return {
    id: `tube.mesh.${String(radiusMm)}-mm.skin-${String(skinEdgeMm)}.cloth-${String(clothEdgeMm)}`,
    what: `departure of single vertices, R ${String(radiusMm)} mm, skin of ${String(skinEdgeMm)} mm edges under cloth of ${String(clothEdgeMm)} mm`,
    source:
      'Laplace, P = T / R, on a bar of 50 kPa/mm given as an irregular triangle mesh; K 250 N/m, cut to R/1.25; root-mean-square over all vertices, hem rows left out',
    expected: 0,
    got: 100 * meshNoise(bar),
    unit: '% rms',
    tolerance: skinEdgeMm > 8 ? 2 : 1.5,
  };
}

/** Root-mean-square departure of the pressure at single vertices from Laplace's, as a share of it. */
export function meshNoise({ radiusMm, skinEdgeMm, clothEdgeMm }: MeshedBar): number {
  const radius = radiusMm / 1000;
  const columns = 8 * Math.round((2 * Math.PI * radiusMm) / clothEdgeMm / 8);
  const tube = settledBar(radius, columns, {
    friction: 0.01,
    bodyOf: (height) => meshedBar(radius, height, skinEdgeMm / 1000),
  });
  const expected = pressureOnHardBar(radius);
  return spread(innerRows(tube, tube.pressure), expected) / expected;
}

function meshedBar(radius: number, height: number, edge: number): DistanceField {
  const skin = barMesh(radius, height, edge);
  const body = makeMeshBody({ skin, sourceUp: 'y', tissue: 'rigid' });
  return body.contactField({ low: [-radius, 0, -radius], high: [radius, height, radius] });
}

/** A closed bar about the y axis: staggered rings of vertices on the true surface, astray within it, and a fan at each end. */
function barMesh(radius: number, height: number, edge: number): TriangleMesh {
  const columns = Math.round((2 * Math.PI * radius) / edge);
  const rows = Math.round((height + 2 * BEYOND) / (edge * Math.sqrt(0.75)));
  const positions: number[] = [];
  const triangles: number[] = [];
  for (let row = 0; row <= rows; row++) {
    for (let column = 0; column < columns; column++) {
      const seed = 2 * (row * columns + column);
      const rim = row === 0 || row === rows;
      const around = (column + (row % 2) / 2 + ASTRAY * scatter(seed)) / columns;
      const along = (row + (rim ? 0 : ASTRAY * scatter(seed + 1))) / rows;
      positions.push(...onRing(radius, (height + 2 * BEYOND) * along - BEYOND, around));
    }
  }
  const at = (row: number, column: number): number => row * columns + ((column + columns) % columns);
  for (let row = 0; row < rows; row++) {
    const lean = row % 2;
    for (let column = 0; column < columns; column++) {
      const [a, b] = [at(row, column), at(row, column + 1)];
      const [c, d] = [at(row + 1, column), at(row + 1, column + 1)];
      if (lean === 0) triangles.push(a, b, c, b, d, c);
      else triangles.push(a, b, d, a, d, c);
    }
  }
  const low = positions.length / 3;
  positions.push(0, -BEYOND, 0, 0, height + BEYOND, 0);
  for (let column = 0; column < columns; column++) {
    triangles.push(low, at(0, column + 1), at(0, column));
    triangles.push(low + 1, at(rows, column), at(rows, column + 1));
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}
