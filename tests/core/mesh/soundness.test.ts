import { describe, expect, it } from 'vitest';
import type { Fault } from '../../../core/fault/fault.ts';
import { meshEdges } from '../../../core/mesh/mesh-edges.ts';
import {
  pieceCount,
  pinchedVertexCount,
  requireClosed,
  requireUsable,
} from '../../../core/mesh/soundness.ts';
import type { TriangleMesh } from '../../../core/mesh/triangle-mesh.ts';
import { cylinder, hourglass, sphere } from '../../help/shapes.ts';
import { faultOf as faultIn } from '../../help/fault-of.ts';

const faultOf = (mesh: TriangleMesh): Fault =>
  faultIn(() => {
    requireUsable(mesh);
    requireClosed(mesh);
  });
const withTriangles = (mesh: TriangleMesh, triangles: ArrayLike<number>): TriangleMesh => ({
  positions: mesh.positions,
  triangles: Uint32Array.from(triangles),
});

describe('soundness', () => {
  const ball = sphere(0.1, 0.03);

  it('lets closed surfaces of one side through', () => {
    for (const mesh of [
      ball,
      cylinder(0.07, 0.2, 0.02),
      hourglass([0.13, 0.1], 0.3, 0.02, { jitter: 0.3 }),
    ]) {
      expect(() => {
        requireUsable(mesh);
        requireClosed(mesh);
      }).not.toThrow();
      expect(pieceCount(mesh, meshEdges(mesh))).toBe(1);
      expect(pinchedVertexCount(mesh, meshEdges(mesh))).toBe(0);
    }
  });

  it('names the place of a hole', () => {
    const torn = withTriangles(ball, ball.triangles.subarray(3));
    const fault = faultOf(torn);
    expect(fault.code).toBe('mesh/open');
    expect(fault.facts).toMatchObject({ edgeCount: 3 });
    const { xMm, yMm, zMm } = fault.facts as { xMm: number; yMm: number; zMm: number };
    expect(Math.hypot(xMm, yMm, zMm)).toBeGreaterThan(90);
    expect(Math.hypot(xMm, yMm, zMm)).toBeLessThan(100);
  });

  it('finds a third sheet, a turned triangle, a flat body', () => {
    const [a, b] = ball.triangles;
    expect(faultOf(withTriangles(ball, [...ball.triangles, a!, b!, 40])).code).toBe('mesh/sheets-meet');
    const turned = [...ball.triangles];
    [turned[0], turned[1]] = [turned[1]!, turned[0]!];
    expect(faultOf(withTriangles(ball, turned)).code).toBe('mesh/turned-triangle');
    const flat = { ...ball, positions: ball.positions.map((value, i) => (i % 3 === 1 ? 0 : value)) };
    expect(faultOf(flat).code).toBe('mesh/no-volume');
  });

  it('finds what is no mesh at all, with its number counted from 1', () => {
    expect(faultOf(withTriangles(ball, [])).code).toBe('mesh/no-triangles');
    const odd = { ...ball, positions: ball.positions.map((value, i) => (i === 7 ? NaN : value)) };
    expect(faultOf(odd).facts).toEqual({ vertex: 3, line: null, value: 'NaN' });
    const vertexCount = ball.positions.length / 3;
    expect(faultOf(withTriangles(ball, [0, 1, 2, 0, 1, vertexCount])).facts).toEqual({
      line: null,
      triangle: 2,
      value: String(vertexCount + 1),
      vertexCount,
    });
    expect(faultOf(withTriangles(ball, [0, 1, 2, 5, 7, 5])).facts).toEqual({
      triangle: 2,
      vertex: 6,
      count: 1,
    });
  });

  it('counts pieces and pinched vertices', () => {
    // Two octahedra that share their vertex 0.
    const one = sphere(0.1, 1);
    const positions = Float64Array.from([
      ...one.positions,
      ...one.positions.slice(3).map((value) => 3 * value),
    ]);
    const triangles = [...one.triangles, ...[...one.triangles].map((v) => (v === 0 ? 0 : v + 5))];
    const pair = { positions, triangles: Uint32Array.from(triangles) };
    expect(pinchedVertexCount(pair, meshEdges(pair))).toBe(1);
    expect(pieceCount(pair, meshEdges(pair))).toBe(2);
  });
});
