/** A low, a high corner, in cm. */
type BoxCm = readonly [readonly [number, number, number], readonly [number, number, number]];

/** A person of boxes, arms out, 172 cm tall; y up, z to the front, x to the left. Invented; all even numbers. */
export const PERSON_BOXES: readonly BoxCm[] = [
  ...[4, -14].flatMap((x): BoxCm[] => [
    [
      [x, 0, -8],
      [x + 10, 6, 16],
    ],
    [
      [x, 6, -6],
      [x + 10, 80, 6],
    ],
  ]),
  [
    [-16, 80, -10],
    [16, 144, 10],
  ],
  [
    [-4, 144, -4],
    [4, 150, 4],
  ],
  [
    [-8, 150, -8],
    [8, 172, 10],
  ],
  [
    [16, 132, -4],
    [76, 140, 4],
  ],
  [
    [-76, 132, -4],
    [-16, 140, 4],
  ],
];

/** Of the boxes, which do not overlap: 76 000 cm^3. */
export const PERSON_VOLUME_CM3 = PERSON_BOXES.reduce(
  (sum, [low, high]) => sum + (high[0] - low[0]) * (high[1] - low[1]) * (high[2] - low[2]),
  0,
);

/** A surface of quads. */
export interface QuadMesh {
  /** 3 per vertex. */
  readonly positions: number[];
  /** 4 corners each, counter-clockwise from outside. */
  readonly quads: number[][];
}

/**
 * The skin of a union of boxes as squares of `step` cm, vertices shared; two squares at every edge as long as the boxes
 * touch in faces only.
 */
export function boxSkin(boxes: readonly BoxCm[], step: number): QuadMesh {
  const filled = new Set<string>();
  for (const [low, high] of boxes)
    for (let x = low[0]; x < high[0]; x += step)
      for (let y = low[1]; y < high[1]; y += step)
        for (let z = low[2]; z < high[2]; z += step) filled.add(`${x},${y},${z}`);
  const positions: number[] = [];
  const indexOf = new Map<string, number>();
  const vertex = (at: readonly number[]): number => {
    const key = at.join();
    const known = indexOf.get(key);
    if (known !== undefined) return known;
    indexOf.set(key, positions.length / 3);
    positions.push(...at);
    return positions.length / 3 - 1;
  };
  const quads: number[][] = [];
  for (const cell of filled) {
    const low = cell.split(',').map(Number);
    for (const k of [0, 1, 2])
      for (const sign of [-1, 1]) {
        const beside = low.map((value, i) => (i === k ? value + sign * step : value));
        if (filled.has(beside.join())) continue;
        const corner = (u: number, v: number): number =>
          vertex(
            low.map((value, i) => {
              if (i === k) return value + (sign > 0 ? step : 0);
              return value + step * (i === (k + 1) % 3 ? u : v);
            }),
          );
        const ring = [corner(0, 0), corner(1, 0), corner(1, 1), corner(0, 1)];
        quads.push(sign > 0 ? ring : ring.toReversed());
      }
  }
  return { positions, quads };
}

/** Both triangles of every quad. */
export const trianglesOf = ({ quads }: QuadMesh): number[] =>
  quads.flatMap(([a, b, c, d]) => [a!, b!, c!, a!, c!, d!]);

/** The person in squares of 4 or 2 cm. */
export const boxPerson = (step: 2 | 4 | 1 | 0.5 | 0.25 = 2): QuadMesh => boxSkin(PERSON_BOXES, step);
