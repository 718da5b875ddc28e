/** [x, y] from the upper left corner, px. */
export type Place = readonly [x: number, y: number];

/** Upper left corner and size, px. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Inks of the window's and the pictures' palette. */
export type Ink = 'ink' | 'soft' | 'line' | 'bar';

/** Open lines in one pen. */
export interface LinesShape {
  readonly kind: 'lines';
  readonly lines: readonly (readonly Place[])[];
  readonly ink: Ink;
  readonly width: number;
  readonly dash?: readonly number[];
  readonly opacity?: number;
}

/** A closed outline, filled with a tint or with fine slanting lines. */
export interface AreaShape {
  readonly kind: 'area';
  readonly outline: readonly Place[];
  readonly fill: 'tint' | 'hatch';
}

/** Marks of one form: filled or open, round or square. */
export interface DotsShape {
  readonly kind: 'dots';
  readonly at: readonly Place[];
  readonly radius: number;
  readonly form: DotForm;
  readonly ink: Ink;
}

export type DotForm = 'dot' | 'ring' | 'square' | 'frame';

/** A line of writing on its baseline. */
export interface TextShape {
  readonly kind: 'text';
  readonly text: string;
  readonly at: Place;
  readonly size: 12 | 14 | 19;
  readonly weight: 400 | 600;
  readonly ink: Ink;
  readonly align: 'start' | 'middle' | 'end';
}

/** What a chart is drawn of; the window and the picture draw the same shapes. */
export type Shape = LinesShape | AreaShape | DotsShape | TextShape;

const rounded = (value: number): number => Math.round(value * 100) / 100;
const put = ([x, y]: Place): string => `${rounded(x)} ${rounded(y)}`;

/** The outline of a shape as an SVG path, which a canvas reads too. */
export function pathOf(shape: LinesShape | AreaShape | DotsShape): string {
  switch (shape.kind) {
    case 'lines':
      return shape.lines.map((line) => `M${line.map(put).join('L')}`).join('');
    case 'area':
      return `M${shape.outline.map(put).join('L')}Z`;
    case 'dots':
      return shape.at.map((at) => dotPath(at, shape)).join('');
  }
}

function dotPath([x, y]: Place, { radius: r, form }: DotsShape): string {
  if (form === 'square' || form === 'frame') {
    return `M${put([x - r, y - r])}h${2 * r}v${2 * r}h${-2 * r}Z`;
  }
  return `M${put([x - r, y])}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
}

/** Leaves out points that lie closer than `gap` px to the last one kept; the first and the last stay. */
export function thinned<T>(points: readonly T[], placeOf: (point: T) => Place, gap: number): readonly T[] {
  const kept: T[] = [];
  let before: Place = [-Infinity, -Infinity];
  for (const [i, point] of points.entries()) {
    const at = placeOf(point);
    const isEnd = i === points.length - 1;
    if (!isEnd && Math.hypot(at[0] - before[0], at[1] - before[1]) < gap) continue;
    kept.push(point);
    before = at;
  }
  return kept;
}

/** The same shape elsewhere. */
export function moved(shape: Shape, x: number, y: number): Shape {
  const move = ([left, top]: Place): Place => [left + x, top + y];
  switch (shape.kind) {
    case 'text':
      return { ...shape, at: move(shape.at) };
    case 'lines':
      return { ...shape, lines: shape.lines.map((line) => line.map(move)) };
    case 'area':
      return { ...shape, outline: shape.outline.map(move) };
    case 'dots':
      return { ...shape, at: shape.at.map(move) };
    default: {
      const never: never = shape;
      return never;
    }
  }
}
