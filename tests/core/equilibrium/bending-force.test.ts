import { describe, expect, it } from 'vitest';
import {
  addBendingGradient,
  addBendingStiffness,
  bendingTensor,
  createBending,
  rollingRigidity,
  slenderRigidity,
} from '../../../core/equilibrium/bending-force.ts';
import { multiply, zeroMatrix } from '../../../core/equilibrium/block-matrix.ts';
import type { FlatSheet } from '../../../core/equilibrium/curvature-patches.ts';
import { discLevels } from '../../../core/swatch/disc-mesh.ts';

/** A cloth that bends three times as hard along the warp. */
const TENSOR = { warp: 3e-6, weft: 1e-6, twist: 0.8e-6 };

/** Seeded by the place: the same mesh every time, far from regular. */
function uneven(level: number): FlatSheet {
  const { flat, triangles, outline } = discLevels({ radius: 0.1, rim: 0.05 }, 60 * 4 ** level, 60)[level]!;
  const spacing = Math.sqrt((2 * Math.PI * 0.01) / (triangles.length / 3));
  const edge = new Set(outline);
  const shaken = flat.map((x, i) => {
    const noise = Math.sin(12.9898 * i + 78.233) * 43758.5453;
    return edge.has(i >> 1) ? x : x + 0.2 * spacing * (noise - Math.floor(noise) - 0.5);
  });
  return { flat: shaken, triangles };
}

const free = (sheet: FlatSheet) => new Uint8Array((3 * sheet.flat.length) / 2);

function areaOf({ flat, triangles }: FlatSheet): number {
  let sum = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => 2 * triangles[t + k]!) as [number, number, number];
    sum +=
      ((flat[b]! - flat[a]!) * (flat[c + 1]! - flat[a + 1]!) -
        (flat[c]! - flat[a]!) * (flat[b + 1]! - flat[a + 1]!)) /
      2;
  }
  return sum;
}

/** Rolled on a cylinder whose axis stands across the direction `angle`. */
function rolled({ flat }: FlatSheet, radius: number, angle: number): Float64Array {
  const positions = new Float64Array((3 * flat.length) / 2);
  for (let v = 0; 2 * v < flat.length; v++) {
    const s = Math.cos(angle) * flat[2 * v]! + Math.sin(angle) * flat[2 * v + 1]!;
    const t = -Math.sin(angle) * flat[2 * v]! + Math.cos(angle) * flat[2 * v + 1]!;
    positions.set([radius * Math.sin(s / radius), radius * Math.cos(s / radius), t], 3 * v);
  }
  return positions;
}

const energyOf = (sheet: FlatSheet, positions: Float64Array): number =>
  addBendingGradient(
    createBending(sheet, TENSOR, free(sheet)),
    positions,
    new Float64Array(positions.length),
  );

describe('bending of an uneven mesh', () => {
  it.each([0, 20, 45, 70, 90, 135])(
    'rolled at %i degrees to the warp has the energy of a cylinder, B(a) / 2R^2 per area, the better the finer',
    (degrees) => {
      const angle = (degrees * Math.PI) / 180;
      const errors = [0, 1, 2].map((level) => {
        const sheet = uneven(level);
        const exact = (rollingRigidity(TENSOR, angle) * areaOf(sheet)) / (2 * 0.05 ** 2);
        return Math.abs(energyOf(sheet, rolled(sheet, 0.05, angle)) / exact - 1);
      });
      // Second order: halving the mesh leaves about a quarter (a third allowed for the shaken mesh).
      expect(errors[1]!).toBeLessThan(errors[0]! / 3);
      expect(errors[2]!).toBeLessThan(errors[1]! / 3);
      expect(errors[2]!).toBeLessThan(0.005);
    },
  );

  it('is exact for every quadratic surface', () => {
    const sheet = uneven(1);
    const positions = new Float64Array((3 * sheet.flat.length) / 2);
    for (let v = 0; 2 * v < sheet.flat.length; v++) {
      const u = sheet.flat[2 * v]!;
      const w = sheet.flat[2 * v + 1]!;
      positions.set([u, 1.5 * u * u - 2 * u * w + 0.5 * w * w + u, w], 3 * v);
    }
    // x_uu = 3, x_ww = 1, x_uw = -2: D11 9 + D22 1 + 4 D66 4, halved.
    const exact = (areaOf(sheet) * (9 * TENSOR.warp + TENSOR.weft + 16 * TENSOR.twist)) / 2;
    expect(energyOf(sheet, positions) / exact).toBeCloseTo(1, 10);
  });

  it('costs nothing to move and to turn; forces and torques of a bent sheet balance', () => {
    const sheet = uneven(1);
    const flat = rolled(sheet, 1e9, 0);
    const size = energyOf(sheet, rolled(sheet, 0.05, 1));
    expect(energyOf(sheet, flat)).toBeLessThan(1e-9 * size);
    const bent = rolled(sheet, 0.05, 1);
    const turned = bent.map((_, i) => {
      const v = 3 * Math.floor(i / 3);
      const [x, y, z] = [bent[v]!, bent[v + 1]!, bent[v + 2]!];
      return [0.36 * x + 0.48 * y - 0.8 * z + 2, -0.8 * x + 0.6 * y - 1, 0.48 * x + 0.64 * y + 0.6 * z][
        i % 3
      ]!;
    });
    expect(energyOf(sheet, turned) / size).toBeCloseTo(1, 8);
    const gradient = new Float64Array(bent.length);
    addBendingGradient(createBending(sheet, TENSOR, free(sheet)), bent, gradient);
    const sums = new Float64Array(6);
    let scale = 0;
    for (let v = 0; v < bent.length; v += 3) {
      const [x, y, z] = [bent[v]!, bent[v + 1]!, bent[v + 2]!];
      const [f, g, h] = [gradient[v]!, gradient[v + 1]!, gradient[v + 2]!];
      [f, g, h, y * h - z * g, z * f - x * h, x * g - y * f].forEach((one, k) => (sums[k]! += one));
      scale += Math.hypot(f, g, h);
    }
    for (const one of sums) expect(Math.abs(one)).toBeLessThan(1e-10 * scale);
  });

  it('has a force that is minus the difference quotient of its energy, and a stiffness likewise', () => {
    const sheet = uneven(0);
    const bending = createBending(sheet, TENSOR, free(sheet));
    const positions = rolled(sheet, 0.05, 0.4);
    const direction = positions.map((_, i) => Math.sin(7 * i + 1));
    const gradientAt = (share: number) => {
      const gradient = new Float64Array(positions.length);
      const energy = addBendingGradient(
        bending,
        positions.map((x, i) => x + share * direction[i]!),
        gradient,
      );
      return { energy, gradient };
    };
    const step = 1e-4;
    const [up, down] = [gradientAt(step), gradientAt(-step)];
    const slope = gradientAt(0).gradient.reduce((sum, g, i) => sum + g * direction[i]!, 0);
    expect((up.energy - down.energy) / (2 * step) / slope).toBeCloseTo(1, 7);
    const matrix = zeroMatrix(bending.pattern);
    addBendingStiffness(bending, matrix);
    const image = new Float64Array(positions.length);
    multiply(matrix, direction, image);
    const largest = Math.max(...image.map(Math.abs));
    for (let i = 0; i < image.length; i++) {
      expect(Math.abs((up.gradient[i]! - down.gradient[i]!) / (2 * step) - image[i]!)).toBeLessThan(
        1e-8 * largest,
      );
    }
  });
});

describe('what three strips say of all directions', () => {
  it('a cloth that bends alike everywhere is isotropic without cross effect: D66 = D / 2', () => {
    const { twist } = bendingTensor({ warp: 4e-6, weft: 4e-6, bias: 4e-6 });
    expect(twist / 2e-6).toBeCloseTo(1, 9);
    for (const angle of [0.3, 0.8, 1.2]) {
      expect(rollingRigidity({ warp: 4e-6, weft: 4e-6, twist }, angle) / 4e-6).toBeCloseTo(1, 9);
      expect(slenderRigidity({ warp: 4e-6, weft: 4e-6, twist }, angle) / 4e-6).toBeCloseTo(1, 9);
    }
  });

  it('gives warp and weft back as read, and holds the bias between the slender and the rolled strip', () => {
    for (const bias of [0.5e-6, 2e-6, 9e-6]) {
      const tensor = bendingTensor({ warp: 6e-6, weft: 1e-6, bias });
      expect(rollingRigidity(tensor, 0)).toBe(6e-6);
      expect(slenderRigidity(tensor, Math.PI / 2) / 1e-6).toBeCloseTo(1, 12);
      expect(slenderRigidity(tensor, Math.PI / 4)).toBeLessThanOrEqual(bias);
      expect(rollingRigidity(tensor, Math.PI / 4)).toBeGreaterThanOrEqual(bias);
    }
  });
});
