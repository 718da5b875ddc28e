import { NEAR_RIGID } from '../body/body.ts';
import { proofTube } from './proof-tube.ts';
import { linearLaw, settleTube, type SettledTube } from './settled-tube.ts';
import { ellipseBody } from './smooth-bodies.ts';

/** A frictionless tube on an oval bar, half axes a along x and b along z; m, N/m. */
export interface OvalTube {
  readonly a: number;
  readonly b: number;
  readonly tension: number;
  readonly stiffness: number;
  readonly height: number;
  /** A multiple of 8; cells of the height too. */
  readonly columns: number;
  readonly rows: number;
}

const ARC_STEPS = 8192;

/** Length of the ellipse from the front (z axis) up to each parameter, m; midpoint rule. */
export function ovalArc(a: number, b: number): Float64Array {
  const arc = new Float64Array(ARC_STEPS + 1);
  for (let i = 0; i < ARC_STEPS; i++) {
    const t = (2 * Math.PI * (i + 0.5)) / ARC_STEPS;
    arc[i + 1] = arc[i]! + (2 * Math.PI * Math.hypot(a * Math.cos(t), b * Math.sin(t))) / ARC_STEPS;
  }
  return arc;
}

/** The parameter at a length from the front, (a sin t, b cos t). */
export function ovalParameter(arc: Float64Array, length: number): number {
  let low = 0;
  let high = ARC_STEPS;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (arc[middle]! < length) low = middle;
    else high = middle;
  }
  return (2 * Math.PI * (low + (length - arc[low]!) / (arc[low + 1]! - arc[low]!))) / ARC_STEPS;
}

/** Settles the tube, its columns at even steps along the girth. */
export function settleOvalTube({ a, b, tension, stiffness, height, columns, rows }: OvalTube): SettledTube {
  const arc = ovalArc(a, b);
  const girth = arc[ARC_STEPS]!;
  const halvings = rows % 8 === 0 ? 3 : 2;
  const levels = proofTube({
    rowCount: rows / 2 ** halvings,
    columnCount: columns / 2 ** halvings,
    halvings,
    place: (around, along) => {
      const t = ovalParameter(arc, around * girth);
      return [a * Math.sin(t), height * along, b * Math.cos(t)];
    },
    relaxed: { girth: girth / (1 + tension / stiffness), length: height },
  });
  const body = ellipseBody(a, b);
  const problem = { levels, laws: [linearLaw(stiffness)], body, foundation: NEAR_RIGID, friction: 0 };
  return settleTube(problem, columns);
}

/** Curvature at parameter t: a b / (a^2 cos^2 t + b^2 sin^2 t)^1.5 for the point (a sin t, b cos t). */
export const ovalCurvature = (a: number, b: number, t: number): number =>
  (a * b) / (a * a * Math.cos(t) ** 2 + b * b * Math.sin(t) ** 2) ** 1.5;

/** Root-mean-square departure from P = T kappa over the mean 2 pi T / C; hem rows left out. */
export function ovalMiss(tube: OvalTube, settled: SettledTube): number {
  const arc = ovalArc(tube.a, tube.b);
  const girth = arc[ARC_STEPS]!;
  const { pressure, columnCount } = settled;
  let sum = 0;
  let count = 0;
  for (let v = 2 * columnCount; v < pressure.length - 2 * columnCount; v++) {
    const t = ovalParameter(arc, ((v % columnCount) / columnCount) * girth);
    sum += (pressure[v]! - tube.tension * ovalCurvature(tube.a, tube.b, t)) ** 2;
    count++;
  }
  return Math.sqrt(sum / count) / ((2 * Math.PI * tube.tension) / girth);
}
