import type { DistanceField } from '../../core/body/distance-field.ts';
import type { Placing } from '../../core/garment/place-pattern.ts';
import type { FlatPoint, Panel, Pattern } from '../../core/pattern/pattern.ts';

/** A bar of radius R that stands on y = 0, m. */
export const BAR_RADIUS = 0.1;
const HEIGHT = 0.2;

/** Signed distance to the bar: exact, smooth off its axis. */
export const bar: DistanceField = {
  sample: (x, _, z, into) => {
    const r = Math.hypot(x, z);
    into.fill(0);
    into[0] = r - BAR_RADIUS;
    into[1] = x / r;
    into[3] = z / r;
    into[4] = (z * z) / r ** 3;
    into[6] = (-x * z) / r ** 3;
    into[9] = (x * x) / r ** 3;
  },
};

/** A tube cut as a front and a back, drawn by halves, that is stretched by `stretch` round the bar. */
export function halfTubePattern(stretch: number): { pattern: Pattern; placing: Placing; width: number } {
  const width = (Math.PI * BAR_RADIUS) / 2 / (1 + stretch);
  const corners: FlatPoint[] = [
    [0, 0],
    [width, 0],
    [width, HEIGHT],
    [0, HEIGHT],
  ];
  const panel = (name: string): Panel => ({
    name,
    edges: ['hem', 'side', 'top', 'centre'].map((edge, e) => ({
      name: edge,
      points: [corners[e]!, corners[(e + 1) % 4]!],
    })),
  });
  const names = ['front', 'back'] as const;
  const look = { front: 1, back: -1 };
  return {
    width,
    pattern: {
      name: 'half tube',
      panels: names.map(panel),
      seams: [
        {
          name: 'side',
          one: { panel: 'front', edge: 'side' },
          other: { panel: 'back', edge: 'side' },
          turned: false,
        },
      ],
      centre: names.map((name) => ({ panel: name, edge: 'centre' })),
    },
    placing: {
      points: names.flatMap((name) =>
        corners.map(([x, y]) => ({
          panel: name,
          at: [x, y] as const,
          body: x === 0 ? ([0, y, look[name] * BAR_RADIUS] as const) : ([BAR_RADIUS, y, 0] as const),
        })),
      ),
      facing: { front: [0, 0, 1], back: [0, 0, -1] },
      held: names.flatMap((name) => [
        { edge: { panel: name, edge: 'hem' }, normal: [0, 1, 0] as const, offset: 0 },
        { edge: { panel: name, edge: 'top' }, normal: [0, 1, 0] as const, offset: HEIGHT },
      ]),
    },
  };
}
