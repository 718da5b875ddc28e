import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import { tube } from './shapes.ts';

/** Smooth bumps: value at 0 plus heights of Gaussians. */
const bumps =
  (base: number, ...humps: readonly (readonly [at: number, height: number, width: number])[]) =>
  (y: number): number =>
    humps.reduce((sum, [at, height, width]) => sum + height * Math.exp(-(((y - at) / width) ** 2)), base);

/** Radius of a leg by height, m: ankle narrowest, calf fullest, both known from the formula itself. */
export const legRadius = bumps(0.05, [0.1, -0.014, 0.06], [0.33, 0.01, 0.07], [0.75, 0.032, 0.2]);
/** Half width of the trunk by height; half its depth is 0.7 of it. */
export const trunkRadius = bumps(0.165, [1.05, -0.038, 0.09], [0.85, 0.012, 0.08], [1.47, -0.11, 0.08]);
/** Where the legs end and the trunk begins, and where all ends, m. */
export const TUBE_CROTCH = 0.78;
export const TUBE_TOP = 1.5;

/** How far the calf lies back, m. */
const back = (y: number): number => -0.03 * Math.exp(-(((y - 0.34) / 0.1) ** 2));

const EDGE = 0.01;

const moved = ({ positions, triangles }: TriangleMesh, by: readonly number[]): TriangleMesh => ({
  positions: positions.map((value, i) => value + by[i % 3]!),
  triangles,
});

/**
 * A person of three separate tubes, without arms, feet and head; every girth is 2 pi r on the legs and an ellipse's
 * on the trunk. Invented. The calves lie back, so that front and back can be told.
 */
export function tubePerson(): TriangleMesh {
  const leg = tube({
    radii: (y) => [legRadius(y), legRadius(y)],
    height: TUBE_CROTCH,
    edge: EDGE,
    jitter: 0.2,
  });
  const bent: TriangleMesh = {
    positions: leg.positions.map((value, i) => (i % 3 === 2 ? value + back(leg.positions[i - 1]!) : value)),
    triangles: leg.triangles,
  };
  const trunk = tube({
    radii: (y) => [trunkRadius(y + TUBE_CROTCH), 0.7 * trunkRadius(y + TUBE_CROTCH)],
    height: TUBE_TOP - TUBE_CROTCH,
    edge: EDGE,
    jitter: 0.2,
    foot: TUBE_CROTCH,
  });
  return [moved(bent, [0.09, 0, 0]), moved(bent, [-0.09, 0, 0]), trunk].reduce((all, piece) => ({
    positions: Float64Array.from([...all.positions, ...piece.positions]),
    triangles: Uint32Array.from([
      ...all.triangles,
      ...piece.triangles.map((v) => v + all.positions.length / 3),
    ]),
  }));
}
