import { describe, expect, it } from 'vitest';
import type { Panel, Pattern } from '../../../core/pattern/pattern.ts';
import { chainOf, sewPattern } from '../../../core/pattern/sew-pattern.ts';
import { sewnMesh, type SewnMesh } from '../../../core/pattern/sewn-mesh.ts';

/** A quarter of a ring with straight ends, m: curved edges, a line across, corners of 90 degrees. */
const INNER = 0.15;
const OUTER = 0.35;
const arc = (radius: number, from: number, to: number) =>
  Array.from({ length: 61 }, (_, i) => {
    const angle = from + ((to - from) * i) / 60;
    return [radius * Math.cos(angle), radius * Math.sin(angle)] as const;
  });
const quarter: Panel = {
  name: 'quarter',
  edges: [
    { name: 'outside', points: arc(OUTER, 0, Math.PI / 2) },
    {
      name: 'end',
      points: [
        [0, OUTER],
        [0, INNER],
      ],
    },
    { name: 'inside', points: arc(INNER, Math.PI / 2, 0) },
    {
      name: 'start',
      points: [
        [INNER, 0],
        [OUTER, 0],
      ],
    },
  ],
};
/** Two of them sewn along their outsides, the other drawn as a mirror image. */
const pattern: Pattern = {
  name: 'two quarters',
  panels: [
    quarter,
    {
      name: 'mirror',
      edges: quarter.edges.map(({ name, points }) => ({
        name,
        points: points.map(([x, y]) => [-x, y] as const),
      })),
    },
  ],
  seams: [
    {
      name: 'outside',
      one: { panel: 'quarter', edge: 'outside' },
      other: { panel: 'mirror', edge: 'outside' },
      turned: false,
    },
  ],
  centre: [],
};
const levels = sewPattern(pattern, { edge: 0.036, halvings: 3 });
const meshes = levels.map(sewnMesh);

function edgeCounts({ triangles }: SewnMesh): number[] {
  const counts = new Map<string, number>();
  for (let i = 0; i < triangles.length; i++) {
    const next = 3 * Math.floor(i / 3) + ((i + 1) % 3);
    const key = [triangles[i]!, triangles[next]!].toSorted((a, b) => a - b).join(' ');
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  return [...counts.values()];
}

function areaOf({ corners }: SewnMesh): number {
  let area = 0;
  for (let i = 0; i < corners.length; i += 6) {
    const [x, y, ax, ay, bx, by] = corners.subarray(i, i + 6);
    area += Math.abs((ax! - x!) * (by! - y!) - (bx! - x!) * (ay! - y!)) / 2;
  }
  return area;
}

/** Smallest angle of any triangle, degrees. */
function leastAngle({ corners }: SewnMesh): number {
  let least = 180;
  for (let i = 0; i < corners.length; i += 6) {
    for (let k = 0; k < 3; k++) {
      const at = (c: number, d: number) => corners[i + 2 * ((k + c) % 3) + d]!;
      const [ax, ay] = [at(1, 0) - at(0, 0), at(1, 1) - at(0, 1)];
      const [bx, by] = [at(2, 0) - at(0, 0), at(2, 1) - at(0, 1)];
      const angle = Math.atan2(Math.abs(ax * by - ay * bx), ax * bx + ay * by);
      least = Math.min(least, (180 * angle) / Math.PI);
    }
  }
  return least;
}

describe('a pattern meshed and sewn', () => {
  it('meets point by point on its seam, on every level, as one surface', () => {
    levels.forEach((level, l) => {
      const one = chainOf(pattern, level, { panel: 'quarter', edge: 'outside' });
      const other = chainOf(pattern, level, { panel: 'mirror', edge: 'outside' });
      expect(one).toEqual(other);
      const counts = edgeCounts(meshes[l]!);
      expect(Math.max(...counts)).toBe(2);
      // V - E + T of a disc is 1 (Euler's formula).
      expect(level.vertexCount - counts.length + meshes[l]!.panel.length).toBe(1);
    });
  });

  it('keeps its area: two quarters of a ring, pi (R^2 - r^2) / 4 each', () => {
    const exact = (2 * Math.PI * (OUTER ** 2 - INNER ** 2)) / 4;
    expect(Math.abs(areaOf(meshes.at(-1)!) / exact - 1)).toBeLessThan(0.001);
  });

  it('is even: no angle under 20 degrees on any level', () => {
    for (const mesh of meshes) expect(leastAngle(mesh)).toBeGreaterThan(20);
  });

  it('puts the middles of curved edges on the curve', () => {
    const { flat } = levels.at(-1)!.panels[0]!;
    const { segments } = levels.at(-1)!.panels[0]!;
    const radii = segments
      .filter(({ curve }) => curve === 0)
      .map(({ from }) => Math.hypot(flat[2 * from]!, flat[2 * from + 1]!));
    // The polyline of 60 chords lies within R (1 - cos(half a chord's angle)) of the arc.
    const sag = OUTER * (1 - Math.cos(Math.PI / 4 / 60));
    expect(Math.min(...radii)).toBeGreaterThan(OUTER - sag - 1e-12);
    expect(Math.max(...radii)).toBeLessThan(OUTER + 1e-12);
  });

  it('follows its coarser level: each vertex lies between its two parents', () => {
    levels.slice(1).forEach(({ parents, vertexCount }, l) => {
      expect(parents.length).toBe(2 * vertexCount);
      expect(parents.every((parent) => parent < levels[l]!.vertexCount)).toBe(true);
    });
  });
});
