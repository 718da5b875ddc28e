import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import type { Triple } from '../mesh/triple.ts';
import { onRing, scatter } from './proof-tube.ts';

/** Vertices lie up to this share of an edge astray, within the true surface. */
const ASTRAY = 0.2;

/** One closed row of vertices: how many, and where the point `around` of it (0..1, from +z towards +x) lies; m. */
interface Row {
  readonly count: number;
  readonly at: (around: number) => Triple;
}

/** A closed irregular mesh of rows from low to high, closed by a vertex at either end. */
export function meshOfRows(rows: readonly Row[], foot: Triple, head: Triple): TriangleMesh {
  const positions: number[] = [...foot];
  const triangles: number[] = [];
  const first: number[] = [];
  for (const [row, { count, at }] of rows.entries()) {
    first.push(positions.length / 3);
    for (let i = 0; i < count; i++) positions.push(...at(aroundOf(row, i, count)));
  }
  const last = positions.length / 3;
  positions.push(...head);
  const vertex = (row: number, i: number): number => first[row]! + (i % rows[row]!.count);
  for (let i = 0; i < rows[0]!.count; i++) triangles.push(0, vertex(0, i + 1), vertex(0, i));
  for (let row = 1; row < rows.length; row++) {
    const [below, above] = [rows[row - 1]!.count, rows[row]!.count];
    let i = 0;
    let j = 0;
    // Whichever row lies behind goes on by one.
    while (i < below || j < above) {
      const isBelow =
        j === above || (i < below && (i + 1 + stagger(row - 1)) / below <= (j + 1 + stagger(row)) / above);
      triangles.push(
        vertex(row - 1, i),
        isBelow ? vertex(row - 1, i + 1) : vertex(row, j + 1),
        vertex(row, j),
      );
      if (isBelow) i++;
      else j++;
    }
  }
  const top = rows.length - 1;
  for (let i = 0; i < rows[top]!.count; i++) triangles.push(last, vertex(top, i), vertex(top, i + 1));
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

/** Every second row begins half a step on. */
const stagger = (row: number): number => (row % 2) / 2;

const aroundOf = (row: number, i: number, count: number): number =>
  (i + stagger(row) + ASTRAY * scatter(1009 * row + i)) / count;

/** A toe or a finger about the y axis: a bar from height `low` to `high` with a half ball on either end. m. */
export function capsuleMesh(radius: number, low: number, high: number, edge: number): TriangleMesh {
  const quarter = (Math.PI / 2) * radius;
  const length = high - low + 2 * quarter;
  const rowCount = Math.round(length / (edge * Math.sqrt(0.75)));
  const rows = Array.from({ length: rowCount - 1 }, (_, i): Row => {
    const along = (length * (i + 1)) / rowCount;
    const toEnd = Math.min(along, length - along);
    const angle = Math.min(toEnd / radius, Math.PI / 2);
    const end = along < length / 2 ? low - radius * Math.cos(angle) : high + radius * Math.cos(angle);
    const y = toEnd < quarter ? end : low + along - quarter;
    const wide = radius * Math.sin(angle);
    return {
      count: Math.max(5, Math.round((2 * Math.PI * wide) / edge)),
      at: (around) => {
        const [x, , z] = onRing(wide, y, around);
        return [x, y, z];
      },
    };
  });
  return meshOfRows(rows, [0, low - radius, 0], [0, high + radius, 0]);
}

/** Two round bars side by side along y, joined by a fillet: a cleavage, a seat fold. m. */
export interface Groove {
  readonly radius: number;
  readonly fillet: number;
  /** Half the way between the two axes, which lie on the x axis. */
  readonly apart: number;
}

/** Where the fillet begins on the bar, and its deepest point; from the middle of the section, x and z in m. */
export function grooveShape({ radius, fillet, apart }: Groove) {
  const centre = Math.sqrt((radius + fillet) ** 2 - apart ** 2);
  return {
    filletCentre: centre,
    bottom: centre - fillet,
    touch: [(apart * fillet) / (radius + fillet), (centre * radius) / (radius + fillet)] as const,
  };
}

/** The quarter of the section from the bottom of the groove to the far side, by length: [x, z] at `along`. */
function grooveQuarter(groove: Groove) {
  const { radius, fillet, apart } = groove;
  const { filletCentre } = grooveShape(groove);
  const turn = Math.asin(apart / (radius + fillet));
  const hollow = fillet * turn;
  const length = hollow + radius * (turn + Math.PI / 2);
  const at = (along: number): [number, number] => {
    if (along < hollow) {
      const angle = along / fillet;
      return [fillet * Math.sin(angle), filletCentre - fillet * Math.cos(angle)];
    }
    const angle = (along - hollow) / radius - turn;
    return [apart + radius * Math.sin(angle), radius * Math.cos(angle)];
  };
  return { length, at };
}

/** The point `around` of the section (0..1 by length, from the bottom of the groove at +z towards +x). */
export function onGroove(groove: Groove): (around: number) => readonly [number, number] {
  const { length, at } = grooveQuarter(groove);
  return (around) => {
    const share = 4 * (around - Math.floor(around));
    const quarter = Math.min(3, Math.floor(share));
    const along = length * (quarter % 2 === 0 ? share - quarter : 1 - (share - quarter));
    const [x, z] = at(along);
    return [quarter < 2 ? x : -x, quarter === 0 || quarter === 3 ? z : -z];
  };
}

/** A grooved bar from `low` to `high` with flat ends; m. */
export function grooveMesh(groove: Groove, low: number, high: number, edge: number): TriangleMesh {
  const on = onGroove(groove);
  const count = Math.round((4 * grooveQuarter(groove).length) / edge);
  const rowCount = Math.round((high - low) / (edge * Math.sqrt(0.75)));
  const rows = Array.from({ length: rowCount + 1 }, (_, i): Row => {
    const y = low + ((high - low) * i) / rowCount;
    return {
      count,
      at: (around) => {
        const [x, z] = on(around);
        return [x, y, z];
      },
    };
  });
  return meshOfRows(rows, [0, low, 0], [0, high, 0]);
}
