import { describe, expect, it } from 'vitest';
import type { Box } from '../../../core/body/body.ts';
import { closestOnPatch } from '../../../core/body/closest-on-patch.ts';
import {
  defaultSpacing,
  gridFromMesh,
  signedDistances,
  windingNumber,
} from '../../../core/body/grid-from-mesh.ts';
import { liftedSurface } from '../../../core/body/lifted-surface.ts';
import { nearestPatches } from '../../../core/body/nearest-patches.ts';
import { latticeOver } from '../../../core/body/node-lattice.ts';
import { triple } from '../../../core/mesh/triple.ts';
import { cylinder, hourglass, seededRandom, sphere, tube } from '../../help/shapes.ts';

const boxRound = (radius: number, low: number, high: number): Box => ({
  low: [-radius - 0.02, low, -radius - 0.02],
  high: [radius + 0.02, high, radius + 0.02],
});

describe('gridFromMesh', () => {
  // Truth: a cylinder of radius R has |grad d| = 1 and mean curvature trace(H) = 1/R on its skin.
  // Facets of edge e sag e^2/8R: up to 0.45 mm at R 40 mm, e 12 mm; the curved patches keep the mean within a tenth of it.
  it.each([40, 70, 150].flatMap((radiusMm) => [4, 8, 12].map((edgeMm) => [radiusMm, edgeMm] as const)))(
    'is a distance on a faceted cylinder R %i mm, edge %i mm (jittered, seed 3)',
    (radiusMm, edgeMm) => {
      const radius = radiusMm / 1000;
      const mesh = cylinder(radius, 0.3, edgeMm / 1000, { jitter: 0.3, seed: 3 });
      const box = boxRound(radius, 0.1, 0.2);
      const { sample } = gridFromMesh(liftedSurface(mesh), box, defaultSpacing(mesh, box));
      const into = new Float64Array(10);
      const samples = Array.from({ length: 2000 }, (_, i) => {
        const angle = i * 0.0471;
        sample(radius * Math.cos(angle), 0.1 + 0.1 * ((i * 0.618) % 1), radius * Math.sin(angle), into);
        expect(Math.abs(Math.hypot(into[1]!, into[2]!, into[3]!) - 1)).toBeLessThan(0.01);
        return { shift: into[0]!, curvature: (into[4]! + into[7]! + into[9]!) * radius };
      });
      const mean = (of: (sample: (typeof samples)[0]) => number): number =>
        samples.reduce((sum, each) => sum + of(each), 0) / samples.length;
      const curvature = mean((each) => each.curvature);
      const noise = Math.sqrt(mean((each) => (each.curvature - curvature) ** 2));
      const sag = (edgeMm / 1000) ** 2 / (8 * radius);
      expect(Math.abs(mean((each) => each.shift))).toBeLessThan(0.12 * sag + 3e-6);
      expect(Math.abs(curvature - 1)).toBeLessThan(0.01);
      expect(noise).toBeLessThan(edgeMm === 4 ? 0.015 : edgeMm === 8 ? 0.03 : 0.04);
    },
  );

  it('finds at every node within reach the patch that a search of all patches finds (seed 4)', () => {
    const surface = liftedSurface(hourglass([0.13, 0.105], 0.3, 0.012, { jitter: 0.3, seed: 7 }));
    const lattice = latticeOver(boxRound(0.15, 0.05, 0.25), 0.008);
    const { patch, distance } = nearestPatches(surface, lattice, 0.08);
    const [, ny, nz] = lattice.counts;
    const random = seededRandom(4);
    const into = new Float64Array(6);
    for (let i = 0; i < 300; i++) {
      const node = Math.floor(random() * patch.length);
      const at = [Math.floor(node / (ny * nz)), Math.floor(node / nz) % ny, node % nz];
      const [x, y, z] = triple((k) => lattice.low[k]! + (at[k]! - 2) * lattice.spacing);
      let best = Infinity;
      for (let t = 0; t < surface.balls.length / 4; t++) {
        best = Math.min(best, closestOnPatch(surface, t, x, y, z, Infinity, into));
      }
      const toBorder = Math.min(...at.flatMap((i, k) => [i, lattice.counts[k]! - 1 - i])) * lattice.spacing;
      // Exact round the skin; farther off handing on may miss a patch that is nearer by some tenths of a millimetre.
      if (best <= Math.min(0.08, toBorder))
        expect(distance[node]! - best).toBeLessThan(best < 0.04 ? 1e-9 : 5e-4);
    }
  });

  it('has the sign of the winding number at every node not within 1 mm of the skin', () => {
    const mesh = tube({
      radii: (y) => [0.1 + 0.03 * Math.sin(40 * y), 0.06],
      height: 0.3,
      edge: 0.012,
      jitter: 0.3,
      seed: 9,
    });
    // Over the top lid and its rim as well.
    const lattice = latticeOver({ low: [-0.18, 0.15, -0.12], high: [0.18, 0.36, 0.12] }, 0.012);
    const signed = signedDistances(liftedSurface(mesh), lattice);
    const [, ny, nz] = lattice.counts;
    for (let node = 0; node < signed.length; node += 7) {
      if (Math.abs(signed[node]!) < 0.001) continue;
      const at = [Math.floor(node / (ny * nz)), Math.floor(node / nz) % ny, node % nz];
      const winding = windingNumber(
        mesh,
        triple((k) => lattice.low[k]! + (at[k]! - 2) * lattice.spacing),
      );
      expect(signed[node]! < 0).toBe(winding > 0.5);
    }
  });

  it('says far inside and far outside where the box meets no skin', () => {
    const surface = liftedSurface(sphere(0.5, 0.05));
    const into = new Float64Array(10);
    const at = (x: number): number => {
      const box: Box = { low: [x - 0.05, -0.05, -0.05], high: [x + 0.05, 0.05, 0.05] };
      gridFromMesh(surface, box, 0.01).sample(x, 0, 0, into);
      return into[0]!;
    };
    expect(at(0)).toBeCloseTo(-0.06, 12);
    expect(at(3)).toBeCloseTo(0.08, 12);
  });

  it('does not bulge a flat lid at its sharp rim by more than half a millimetre', () => {
    const surface = liftedSurface(cylinder(0.1, 0.2, 0.01));
    const lattice = latticeOver({ low: [-0.06, 0.15, -0.06], high: [0.06, 0.24, 0.06] }, 0.01);
    const signed = signedDistances(surface, lattice);
    const [nx, ny, nz] = lattice.counts;
    const middle = Math.floor(nx / 2) * ny * nz + Math.floor(nz / 2);
    for (let j = 0; j < ny; j++) {
      const y = lattice.low[1] + (j - 2) * lattice.spacing;
      const expected = Math.min(0.08, Math.max(-0.06, y - 0.2));
      expect(Math.abs(signed[middle + j * nz]! - expected)).toBeLessThan(5e-4);
    }
  });
});
