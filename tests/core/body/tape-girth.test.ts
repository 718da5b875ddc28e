import { describe, expect, it } from 'vitest';
import { tapeGirth } from '../../../core/body/tape-girth.ts';
import { sectionAt } from '../../../core/mesh/section.ts';
import { cylinder, ellipseCylinder } from '../../help/shapes.ts';

const girthOf = (mesh: Parameters<typeof sectionAt>[0], height: number): number =>
  tapeGirth(sectionAt(mesh, height)[0]!);

describe('tapeGirth', () => {
  it('reads a closed cylinder within 0.1 % of 2 pi R; what is missing is the polygon: sin(pi/n)/(pi/n)', () => {
    for (const [radius, edge] of [
      [0.04, 0.004],
      [0.07, 0.008],
      [0.15, 0.012],
    ] as const) {
      const n = Math.round((2 * Math.PI * radius) / edge);
      const factor = Math.sin(Math.PI / n) / (Math.PI / n);
      const mesh = cylinder(radius, 0.2, edge);
      const row = mesh.positions[3 * n * 4 + 1]!;
      expect(girthOf(mesh, row) / (2 * Math.PI * radius)).toBeCloseTo(factor, 9);
      for (const height of [0.05, 0.1, 0.13]) {
        expect(Math.abs(girthOf(mesh, height) / (2 * Math.PI * radius) - 1)).toBeLessThan(1e-3);
      }
    }
  });

  it('reads the girth of an ellipse a 150, b 106.5 mm: 811.62 mm within 1 mm', () => {
    // 4 a E(e), complete elliptic integral of the second kind: 0.81162304 m.
    const mesh = ellipseCylinder([0.15, 0.1065], 0.2, 0.008, { jitter: 0.25, seed: 2 });
    for (const height of [0.04, 0.1, 0.16]) {
      expect(Math.abs(girthOf(mesh, height) - 0.81162304)).toBeLessThan(0.001);
    }
  });

  it('bridges a hollow: an L of side 2 has the hull 6 + sqrt 2', () => {
    const points = Float64Array.from([0, 0, 2, 0, 2, 1, 1, 1, 1, 2, 0, 2]);
    expect(tapeGirth({ points })).toBeCloseTo(6 + Math.SQRT2, 12);
  });

  it('does not mind where the loop starts or which way it runs', () => {
    const { points } = sectionAt(ellipseCylinder([0.15, 0.1065], 0.2, 0.01), 0.1)[0]!;
    const backwards = new Float64Array(points.length);
    for (let i = 0; i < points.length / 2; i++) {
      const from = points.length / 2 - 1 - ((i + 5) % (points.length / 2));
      backwards[2 * i] = points[2 * from]!;
      backwards[2 * i + 1] = points[2 * from + 1]!;
    }
    expect(tapeGirth({ points: backwards })).toBeCloseTo(tapeGirth({ points }), 12);
  });
});
