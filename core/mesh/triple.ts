/** Three numbers, one per axis x, y, z. */
export type Triple = [number, number, number];

/** The triple of what `of` gives for axis 0, 1, 2. */
export const triple = (of: (axis: number) => number): Triple => [of(0), of(1), of(2)];
