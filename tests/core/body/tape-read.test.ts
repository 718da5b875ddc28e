import { describe, expect, it } from 'vitest';
import type { TapeLine } from '../../../core/body/body-tape.ts';
import { readTape } from '../../../core/body/tape-read.ts';
import type { TriangleMesh } from '../../../core/mesh/triangle-mesh.ts';
import { cylinder, ellipseCylinder } from '../../help/shapes.ts';

/**
 * Length of an ellipse with half axes a >= b by the arithmetic-geometric mean, exact to the last digits.
 *
 * @see Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 17.6: E(k) by the AGM.
 */
function ellipseLength(a: number, b: number): number {
  let [x, y, sum, weight] = [1, b / a, 0.5 * (1 - (b / a) ** 2), 0.5];
  while (Math.abs(x - y) > 1e-15) {
    const c = 0.5 * (x - y);
    [x, y] = [0.5 * (x + y), Math.sqrt(x * y)];
    weight *= 2;
    sum += weight * c * c;
  }
  return 4 * a * (Math.PI / (2 * x)) * (1 - sum);
}

const line = (change: Partial<TapeLine>): TapeLine => ({
  name: 'own',
  kind: 'limb',
  side: 'left',
  center: [0, 0.2, 0],
  normal: [0, 1, 0],
  surface: 'taut',
  ...change,
});
const girth = (skin: TriangleMesh, change: Partial<TapeLine>): number =>
  readTape(skin, line(change), { floor: 0 })!.girth;
const tilted = (degrees: number, azimuth: number): readonly [number, number, number] => {
  const [t, a] = [(degrees * Math.PI) / 180, (azimuth * Math.PI) / 180];
  return [Math.sin(t) * Math.sin(a), Math.cos(t), Math.sin(t) * Math.cos(a)];
};

describe('ellipseLength', () => {
  it('is 2 pi r for a circle, 4 a for a flat one, 811.62 mm for 150 x 106.5', () => {
    expect(ellipseLength(1, 1)).toBeCloseTo(2 * Math.PI, 12);
    expect(ellipseLength(1, 1e-9)).toBeCloseTo(4, 8);
    // The value that tape-girth.test.ts holds tapes to.
    expect(ellipseLength(0.15, 0.1065)).toBeCloseTo(0.81162304, 8);
  });
});

describe('readTape', () => {
  it.each([0, 10, 25, 40])(
    'reads a cylinder cut %s degrees askew within 1 mm of the ellipse R/cos x R',
    (degrees) => {
      const skin = cylinder(0.09, 0.4, 0.006, { jitter: 0.3, seed: 5 });
      const expected = ellipseLength(0.09 / Math.cos((degrees * Math.PI) / 180), 0.09);
      for (const azimuth of [0, 70, 90, 200]) {
        const read = girth(skin, { normal: tilted(degrees, azimuth) });
        expect(Math.abs(read - expected)).toBeLessThan(0.001);
      }
    },
  );

  it('reads an elliptic trunk level and tilted about its long axis: there b grows to b/cos', () => {
    const skin = ellipseCylinder([0.15, 0.1065], 0.4, 0.008, { jitter: 0.25, seed: 6 });
    expect(Math.abs(girth(skin, {}) - 0.81162304)).toBeLessThan(0.001);
    const b = 0.1065 / Math.cos(Math.PI / 9);
    expect(Math.abs(girth(skin, { normal: tilted(20, 0) }) - ellipseLength(0.15, b))).toBeLessThan(0.001);
  });

  it('bridges hollows when taut, follows the skin along it: an L of sides 0.2 m', () => {
    const outline = [0, 0, 0.2, 0, 0.2, 0.1, 0.1, 0.1, 0.1, 0.2, 0, 0.2];
    const skin = prism(outline, 0.4);
    expect(girth(skin, { center: [0.05, 0.2, 0.05] })).toBeCloseTo(0.6 + 0.1 * Math.SQRT2, 12);
    expect(girth(skin, { center: [0.05, 0.2, 0.05], surface: 'along' })).toBeCloseTo(0.8, 12);
  });

  it('goes round the piece its centre is in, or the nearest in reach, and says null where there is none', () => {
    const skin = both(moved(cylinder(0.05, 0.4, 0.006), -0.12), moved(cylinder(0.08, 0.4, 0.006), 0.12));
    expect(girth(skin, { center: [-0.1, 0.2, 0] })).toBeCloseTo(2 * Math.PI * 0.05, 3);
    // On the skin, or just outside of it, as a landmark lies.
    expect(girth(skin, { center: [0.12, 0.2, 0.081] })).toBeCloseTo(2 * Math.PI * 0.08, 3);
    expect(readTape(skin, line({ center: [0.5, 0.2, 0] }), { floor: 0 })).toBe(null);
    expect(readTape(skin, line({ center: [0, 0.5, 0] }), { floor: 0 })).toBe(null);
  });

  it('keeps to its own side of a cut where two limbs are one piece', () => {
    // A block 0.4 x 0.2: half of it is a square of 0.2.
    const skin = prism([-0.2, -0.1, 0.2, -0.1, 0.2, 0.1, -0.2, 0.1], 0.4);
    const cut = { point: [0, 0, 0], towards: [1, 0, 0] } as const;
    const read = readTape(skin, line({ center: [0.1, 0.2, 0] }), { floor: 0.05, cut })!;
    expect(read.girth).toBeCloseTo(0.8, 12);
    expect(read.height).toBeCloseTo(0.15, 12);
    const xs = read.points.filter((_, i) => i % 3 === 0);
    expect(Math.min(...xs)).toBeCloseTo(0, 12);
  });

  it('lies on its plane, closed, as long as its points are apart', () => {
    const skin = cylinder(0.09, 0.4, 0.01);
    const normal = tilted(30, 40);
    const { points, girth: read } = readTape(skin, line({ normal }), { floor: 0 })!;
    let length = 0;
    for (let i = 0; i < points.length; i += 3) {
      const next = (i + 3) % points.length;
      length += Math.hypot(...[0, 1, 2].map((k) => points[next + k]! - points[i + k]!));
      const off = normal[0] * points[i]! + normal[1] * (points[i + 1]! - 0.2) + normal[2] * points[i + 2]!;
      expect(Math.abs(off)).toBeLessThan(1e-12);
    }
    expect(length).toBeCloseTo(read, 12);
  });
});

/** An upright prism over an outline of x, z pairs; its lids are left open, as no level cut between sees them. */
function prism(outline: readonly number[], height: number): TriangleMesh {
  const count = outline.length / 2;
  const positions: number[] = [];
  const triangles: number[] = [];
  for (const y of [0, height])
    for (let i = 0; i < count; i++) positions.push(outline[2 * i]!, y, outline[2 * i + 1]!);
  for (let i = 0; i < count; i++) {
    const j = (i + 1) % count;
    triangles.push(i, j, count + i, j, count + j, count + i);
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

const moved = ({ positions, triangles }: TriangleMesh, x: number): TriangleMesh => ({
  positions: positions.map((value, i) => value + (i % 3 === 0 ? x : 0)),
  triangles,
});

const both = (one: TriangleMesh, other: TriangleMesh): TriangleMesh => ({
  positions: Float64Array.from([...one.positions, ...other.positions]),
  triangles: Uint32Array.from([
    ...one.triangles,
    ...other.triangles.map((v) => v + one.positions.length / 3),
  ]),
});
