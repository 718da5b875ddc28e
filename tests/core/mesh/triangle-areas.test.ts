import { describe, expect, it } from 'vitest';
import {
  enclosedVolume,
  triangleAreas,
  triangleNormals,
  vertexNormals,
} from '../../../core/mesh/triangle-areas.ts';
import { vertexAreas } from '../../../core/mesh/vertex-areas.ts';
import { cylinder, sphere } from '../../help/shapes.ts';

const sum = (values: Float64Array): number => values.reduce((total, value) => total + value, 0);

const shortfall = (edge: number): number[] => {
  const mesh = sphere(0.1, edge);
  return [
    1 - sum(triangleAreas(mesh)) / (4 * Math.PI * 0.01),
    1 - enclosedVolume(mesh) / ((4 / 3) * Math.PI * 0.001),
  ];
};

describe('triangle areas and normals', () => {
  it('sums to the sphere 4 pi R^2 and 4/3 pi R^3 from below, falling short by h^2 (half the edge, a quarter the error)', () => {
    const [coarse, fine] = [shortfall(0.1 * (Math.PI / 16)), shortfall(0.1 * (Math.PI / 32))];
    for (const i of [0, 1]) {
      expect(fine[i]).toBeGreaterThan(0);
      expect(coarse[i]! / fine[i]!).toBeGreaterThan(3.8);
      expect(coarse[i]! / fine[i]!).toBeLessThan(4.2);
    }
  });

  it('shares out all the area to the vertices', () => {
    const mesh = cylinder(0.07, 0.2, 0.01, { jitter: 0.3, seed: 4 });
    expect(sum(vertexAreas(mesh))).toBeCloseTo(sum(triangleAreas(mesh)), 12);
  });

  it('turns inside out with the triangles', () => {
    const mesh = sphere(0.1, 0.03);
    const turned = { positions: mesh.positions, triangles: mesh.triangles.toReversed() };
    expect(enclosedVolume(turned)).toBeCloseTo(-enclosedVolume(mesh), 15);
  });

  it('has unit normals along the radius of a sphere, at vertices within the mesh error', () => {
    const mesh = sphere(0.1, 0.01);
    const normals = vertexNormals(mesh);
    for (let v = 0; v < normals.length; v += 3) {
      const along =
        (normals[v]! * mesh.positions[v]! +
          normals[v + 1]! * mesh.positions[v + 1]! +
          normals[v + 2]! * mesh.positions[v + 2]!) /
        0.1;
      expect(along).toBeGreaterThan(0.9999);
    }
  });

  it('gives a cube corner the space diagonal however its faces are cut (what area weights get wrong)', () => {
    // Baerentzen & Aanaes 2005, section 3: angle weights do not depend on the tessellation. One face is cut in two
    // at the corner, the other two are not.
    const positions = Float64Array.from([0, 0, 0, -1, 0, 0, 0, -1, 0, 0, 0, -1, -1, -1, 0]);
    const triangles = Uint32Array.from([0, 1, 4, 0, 4, 2, 0, 2, 3, 0, 3, 1]);
    const normal = vertexNormals({ positions, triangles }).slice(0, 3);
    for (const k of [0, 1, 2]) expect(normal[k]).toBeCloseTo(1 / Math.sqrt(3), 12);
  });

  it('gives nothing rather than NaN where there is no area', () => {
    const positions = Float64Array.from([0, 0, 0, 1, 0, 0, 2, 0, 0, 5, 5, 5]);
    const mesh = { positions, triangles: Uint32Array.from([0, 1, 2]) };
    expect([...triangleNormals(mesh)]).toEqual([0, 0, 0]);
    expect([...vertexNormals(mesh)].every((value) => value === 0)).toBe(true);
  });
});
