import type { FlatPoint, Panel } from '../pattern/pattern.ts';
import { curveBetween } from './flat-curves.ts';

/** Whole widths of a gusset at its front seam, between the thighs, and at its back seam, m. */
export interface GussetWidths {
  readonly front: number;
  readonly middle: number;
  readonly back: number;
}

/** Half a brief's gusset on its fold, back seam at y = 0, front seam at its length; its leg edge leaves both square. */
export function gussetPanel({ front, middle, back }: GussetWidths, length: number): Panel {
  const waistline: FlatPoint = [middle / 2, length / 2];
  const up: FlatPoint = [0, 1];
  const lower = curveBetween({ at: [back / 2, 0], leave: up }, { at: waistline, arrive: up });
  const upper = curveBetween({ at: waistline, leave: up }, { at: [front / 2, length], arrive: up });
  return {
    name: 'gusset',
    edges: [
      {
        name: 'back',
        points: [
          [0, 0],
          [back / 2, 0],
        ],
      },
      { name: 'leg', points: [...lower, ...upper.slice(1)] },
      {
        name: 'front',
        points: [
          [front / 2, length],
          [0, length],
        ],
      },
      {
        name: 'centre',
        points: [
          [0, length],
          [0, 0],
        ],
      },
    ],
  };
}
