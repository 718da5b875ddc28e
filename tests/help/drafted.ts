import { foundationAt } from '../../core/body/foundation-at.ts';
import { makeFitBody } from '../../core/body/fit-body.ts';
import type { DistanceField } from '../../core/body/distance-field.ts';
import type { Body } from '../../core/body/body.ts';
import type { DraftedBlock } from '../../core/block/drafted-block.ts';
import { layBlock, type LaidBlock } from '../../core/block/lay-block.ts';
import { settle } from '../../core/equilibrium/settle.ts';
import type { Equilibrium } from '../../core/equilibrium/equilibrium.ts';
import { curveLength } from '../../core/pattern/arc-length.ts';
import type { FlatPoint, Panel } from '../../core/pattern/pattern.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import { knit } from './banded-tube.ts';

/** Three sizes of the fit body by what its girths are multiplied with; invented. */
export const SIZES = [
  { name: 'small', scale: 0.92 },
  { name: 'middle', scale: 1 },
  { name: 'large', scale: 1.1 },
] as const;

/** The fit body at a size, m. */
export const bodyOf = (scale: number): Body =>
  makeFitBody({
    stature: 1.7,
    bust: 0.92 * scale,
    underbust: 0.79 * scale,
    waist: 0.76 * scale,
    hip: 1.01 * scale,
  });

/** Length of a panel's edge, m. */
export const edgeLength = ({ edges }: Panel, name: string): number =>
  curveLength(edges.find((edge) => edge.name === name)!.points);

/** Angle at the corner where one edge ends and the next begins, degrees, 0 to 180. */
export function cornerAngle({ edges }: Panel, first: string): number {
  const e = edges.findIndex(({ name }) => name === first);
  const before = edges[e]!.points;
  const after = edges[(e + 1) % edges.length]!.points;
  const corner = after[0]!;
  const way = (to: FlatPoint): FlatPoint => [to[0] - corner[0], to[1] - corner[1]];
  const [ax, ay] = way(before.at(-2)!);
  const [bx, by] = way(after[1]!);
  return (180 / Math.PI) * Math.atan2(Math.abs(ax * by - ay * bx), ax * bx + ay * by);
}

/** Lays a block, all steps. */
export function laid(block: DraftedBlock, body: Body, edge: number): LaidBlock {
  const search = layBlock(block, body, edge);
  for (;;) {
    const step = search.next();
    if (step.done) return step.value;
  }
}

/** Lets a laid block come to rest in an invented knit; friction 0.3. */
export function settled({ garment, skin }: LaidBlock, body: Body): Equilibrium {
  const search = settle({
    levels: garment.levels,
    laws: [knit],
    body: skin,
    foundation: garment.levels.map(({ mesh }) => foundationAt(body, mesh.positions)),
    friction: 0.3,
  });
  for (;;) {
    const step = search.next();
    if (step.done) return step.value;
  }
}

/** V - E + T, and the most triangles that share an edge. */
export function topology({ positions, triangles }: TriangleMesh): { euler: number; mostAtEdge: number } {
  const edges = new Map<string, number>();
  for (let i = 0; i < triangles.length; i++) {
    const next = 3 * Math.floor(i / 3) + ((i + 1) % 3);
    const key = [triangles[i]!, triangles[next]!].toSorted((a, b) => a - b).join(' ');
    edges.set(key, (edges.get(key) ?? 0) + 1);
  }
  return {
    euler: positions.length / 3 - edges.size + triangles.length / 3,
    mostAtEdge: Math.max(...edges.values()),
  };
}

/** Smallest angle of any triangle as it is cut, degrees; from the unstretched shapes. */
export function leastAngle(restInverse: Float64Array): number {
  let least = 180;
  for (let t = 0; 4 * t < restInverse.length; t++) {
    const [p, q, r, s] = [0, 1, 2, 3].map((k) => restInverse[4 * t + k]!) as [number, number, number, number];
    const determinant = p * s - q * r;
    // Columns of the inverse's inverse are both edges from the first corner.
    const a: FlatPoint = [s / determinant, -r / determinant];
    const b: FlatPoint = [-q / determinant, p / determinant];
    const c: FlatPoint = [b[0] - a[0], b[1] - a[1]];
    for (const [e, f] of [
      [a, b],
      [c, [-a[0], -a[1]]],
      [
        [-b[0], -b[1]],
        [-c[0], -c[1]],
      ],
    ] as const) {
      const angle = Math.atan2(Math.abs(e[0] * f[1] - e[1] * f[0]), e[0] * f[0] + e[1] * f[1]);
      least = Math.min(least, (180 / Math.PI) * angle);
    }
  }
  return least;
}

/** Triangles whose outside looks into the body. */
export function turnedOver({ positions, triangles }: TriangleMesh, skin: DistanceField): number {
  const sample = new Float64Array(10);
  let count = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const corner = (k: number, axis: number) => positions[3 * triangles[t + k]! + axis]!;
    const [x, y, z] = [0, 1, 2].map((axis) => (corner(0, axis) + corner(1, axis) + corner(2, axis)) / 3);
    skin.sample(x!, y!, z!, sample);
    const [a, b, c] = [0, 1, 2].map((axis) => corner(1, axis) - corner(0, axis)) as [number, number, number];
    const [d, e, f] = [0, 1, 2].map((axis) => corner(2, axis) - corner(0, axis)) as [number, number, number];
    const outward =
      (b * f - c * e) * sample[1]! + (c * d - a * f) * sample[2]! + (a * e - b * d) * sample[3]!;
    if (outward < 0) count++;
  }
  return count;
}
