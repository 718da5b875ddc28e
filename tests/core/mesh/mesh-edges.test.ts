import { describe, expect, it } from 'vitest';
import {
  meanEdgeLength,
  meshEdges,
  NO_TRIANGLE,
  oppositeTriangles,
  vertexNeighbours,
  vertexTriangles,
} from '../../../core/mesh/mesh-edges.ts';
import { cylinder, sphere } from '../../help/shapes.ts';

describe('meshEdges', () => {
  it('obeys Euler V - E + F = 2 on a sphere, every edge between two triangles', () => {
    const mesh = sphere(0.1, 0.02);
    const edges = meshEdges(mesh);
    expect(mesh.positions.length / 3 - edges.triangleCount.length + mesh.triangles.length / 3).toBe(2);
    expect(edges.triangleCount.every((count) => count === 2)).toBe(true);
  });

  it('has V - E + F = 0 on an open tube, free edges on its two rims only', () => {
    const mesh = cylinder(0.07, 0.05, 0.01, { closed: false });
    const edges = meshEdges(mesh);
    expect(mesh.positions.length / 3 - edges.triangleCount.length + mesh.triangles.length / 3).toBe(0);
    expect(edges.triangleCount.filter((count) => count === 1)).toHaveLength(2 * 44);
    expect(oppositeTriangles(edges).filter((t) => t === NO_TRIANGLE)).toHaveLength(2 * 44);
  });

  it('crosses each side and back', () => {
    const mesh = sphere(0.1, 0.02);
    const opposite = oppositeTriangles(meshEdges(mesh));
    opposite.forEach((other, side) => {
      const t = Math.floor(side / 3);
      expect(other).not.toBe(t);
      expect([0, 1, 2].filter((k) => opposite[3 * other + k] === t)).toHaveLength(1);
    });
  });

  it('gives every vertex the triangles that name it', () => {
    const mesh = cylinder(0.07, 0.05, 0.02, { jitter: 0.2, seed: 6 });
    const { start, list } = vertexTriangles(mesh);
    expect(list).toHaveLength(mesh.triangles.length);
    for (let v = 0; v < start.length - 1; v++) {
      for (const t of list.slice(start[v], start[v + 1])) {
        expect(mesh.triangles.slice(3 * t, 3 * t + 3)).toContain(v);
      }
    }
  });

  it('counts the third sheet on an edge', () => {
    const positions = new Float64Array(15);
    const edges = meshEdges({ positions, triangles: Uint32Array.from([0, 1, 2, 1, 0, 3, 0, 1, 4]) });
    expect(Math.max(...edges.triangleCount)).toBe(3);
  });

  it('gives every vertex of an octahedron its four neighbours and the edge R sqrt 2', () => {
    const mesh = sphere(0.1, 1);
    const edges = meshEdges(mesh);
    const { start, list } = vertexNeighbours(edges, 6);
    expect([...start]).toEqual([0, 4, 8, 12, 16, 20, 24]);
    expect(new Set(list.slice(0, 4)).size).toBe(4);
    expect(meanEdgeLength(mesh, edges)).toBeCloseTo(0.1 * Math.SQRT2, 12);
  });
});
