import type { EdgeOf, FlatPoint, Panel, Pattern, PatternCurve } from '../../core/pattern/pattern.ts';

const SAMPLES = 24;

/** A cubic as a polyline. */
const cubic = (a: FlatPoint, b: FlatPoint, c: FlatPoint, d: FlatPoint): FlatPoint[] =>
  Array.from({ length: SAMPLES + 1 }, (_, i): FlatPoint => {
    const t = i / SAMPLES;
    const s = 1 - t;
    const at = (k: 0 | 1) => s ** 3 * a[k] + 3 * s * s * t * b[k] + 3 * s * t * t * c[k] + t ** 3 * d[k];
    return [at(0), at(1)];
  });

function half(name: string, top: number): Panel {
  const crotch = 0.05;
  const edges: PatternCurve[] = [
    { name: 'hem', points: cubic([-0.03, 0], [0.05, 0.004], [0.12, 0.004], [0.19, 0]) },
    { name: 'side', points: cubic([0.19, 0], [0.215, 0.14], [0.21, 0.25], [0.165, 0.39]) },
    { name: 'waist', points: cubic([0.165, 0.39], [0.11, 0.372], [0.05, top], [0, top]) },
    { name: 'rise', points: [[0, top], ...cubic([0, 0.24], [0, 0.17], [-0.01, 0.13], [-crotch, 0.125])] },
    { name: 'inseam', points: cubic([-crotch, 0.125], [-crotch, 0.09], [-0.04, 0.04], [-0.03, 0]) },
  ];
  return { name, edges };
}

const edge = (panel: string, name: string): EdgeOf => ({ panel, edge: name });

/** An invented short drawn as its left half, both panels from the centre outwards, with curved rises. */
export const halfShort: Pattern = {
  name: 'invented short',
  panels: [half('front', 0.38), { ...half('back', 0.392), fabric: 1, grain: 0.2 }],
  seams: ['side', 'inseam'].map((name) => ({
    name,
    one: edge('front', name),
    other: edge('back', name),
    turned: false,
  })),
  centre: [edge('front', 'rise'), edge('back', 'rise')],
};

/** Half a yoke, its centre straight and on the fold, with an inner line from corner to corner. */
export const foldedYoke: Pattern = {
  name: 'invented yoke',
  panels: [
    {
      name: 'yoke',
      edges: [
        { name: 'bottom', points: cubic([0, 0], [0.05, 0], [0.1, 0.01], [0.15, 0.03]) },
        {
          name: 'end',
          points: [
            [0.15, 0.03],
            [0.15, 0.1],
          ],
        },
        {
          name: 'top',
          points: [
            [0.15, 0.1],
            [0, 0.08],
          ],
        },
        {
          name: 'centre',
          points: [
            [0, 0.08],
            [0, 0],
          ],
        },
      ],
      lines: [
        {
          name: 'band',
          points: [
            [0.15, 0.03],
            [0.07, 0.05],
            [0, 0.08],
          ],
        },
      ],
    },
  ],
  seams: [],
  centre: [edge('yoke', 'centre')],
};
