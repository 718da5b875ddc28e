import { NEAR_RIGID } from '../body/body.ts';
import type { DistanceField } from '../body/distance-field.ts';
import type { Check } from './check.ts';
import { ovalArc, ovalParameter } from './oval-tube.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { linearLaw, settleTube, type SettledTube } from './settled-tube.ts';
import { cylinderBody, ellipseBody } from './smooth-bodies.ts';

const STIFFNESS = 250;
const STRETCH = 1.25;
const HEIGHT = 0.03;
const ROWS = 4;
const COLUMNS = 144;

/** How often a search that ran out of steps goes on from where it stopped: rough bars need it. */
const MOST_AGAIN = 4;

/** A bar, how rough it is, and how far round it the held line is carried: enough for the whole tube to slip. */
interface Bar {
  readonly id: string;
  readonly what: string;
  readonly body: DistanceField;
  readonly girth: number;
  /** The point at a share of the girth from the front. */
  readonly at: (around: number) => readonly [number, number];
  /** Angle of the outward normal there, rad; grows by 2 pi in a turn. */
  readonly normalAt: (around: number) => number;
  readonly friction: number;
  /** Share of the girth. */
  readonly pulled: number;
  /** Columns between which the tension is compared, counted from the pulled line. */
  readonly between: readonly [number, number];
}

function roundBar(radius: number, friction: number, pulled: number, between: Bar['between']): Bar {
  const degrees = Math.round(((between[1] - between[0]) * 360) / COLUMNS);
  return {
    id: `${String(friction)}.${String(1000 * radius)}-mm.${String(degrees)}-deg`,
    what: `friction ${String(friction)}, round bar of R ${String(1000 * radius)} mm, ${String(degrees)} degrees`,
    body: cylinderBody(radius),
    girth: 2 * Math.PI * radius,
    at: (around) => {
      const [x, , z] = onRing(radius, 0, around);
      return [x, z];
    },
    normalAt: (around) => 2 * Math.PI * around,
    friction,
    pulled,
    between,
  };
}

function ovalBar(a: number, b: number, friction: number, between: Bar['between']): Bar {
  const arc = ovalArc(a, b);
  const girth = arc.at(-1)!;
  const parameter = (around: number) =>
    2 * Math.PI * Math.floor(around) + ovalParameter(arc, (around - Math.floor(around)) * girth);
  return {
    id: `${String(friction)}.oval-${String(1000 * a)}-${String(1000 * b)}.${String(between[1] - between[0])}-columns`,
    what: `friction ${String(friction)}, oval bar of ${String(1000 * a)} x ${String(1000 * b)} mm`,
    body: ellipseBody(a, b),
    girth,
    at: (around) => [a * Math.sin(parameter(around)), b * Math.cos(parameter(around))],
    normalAt: (around) => {
      const t = parameter(around);
      // The normal of (a sin t, b cos t) is (b sin t, a cos t); its angle goes round with t.
      const away = Math.atan2(b * Math.sin(t), a * Math.cos(t)) - t;
      return t + away - 2 * Math.PI * Math.round(away / (2 * Math.PI));
    },
    friction,
    pulled: 0.09,
    between,
  };
}

/** Angles of about 45, 90 and 120 degrees on round bars, and long ways round ovals. */
const BARS: readonly Bar[] = [
  roundBar(0.1, 0.3, 0.072, [12, 60]),
  roundBar(0.1, 0.2, 0.06, [12, 60]),
  roundBar(0.1, 0.5, 0.09, [12, 60]),
  roundBar(0.05, 0.3, 0.072, [18, 54]),
  roundBar(0.1, 0.31, 0.072, [27, 45]),
  ovalBar(0.12, 0.08, 0.3, [12, 60]),
  ovalBar(0.12, 0.08, 0.3, [27, 45]),
  ovalBar(0.08, 0.12, 0.3, [12, 60]),
];

/**
 * A tube on a hard bar, carried round by one line of it until all of it slips: away from the pulled line the tension
 * falls by e^(mu theta) on the taut side and rises by as much on the other. On a bar that is not round only the angle
 * counts through which the cloth turns.
 */
export function* capstan(): Generator<void, Check[]> {
  const checks: Check[] = [];
  for (const bar of BARS) {
    checks.push(...turned(bar));
    yield;
  }
  return checks;
}

function turned(bar: Bar): Check[] {
  const relaxed = { girth: bar.girth / STRETCH, length: HEIGHT };
  const place = (from: number) => (around: number, along: number) => {
    const [x, z] = bar.at(around + from);
    return [x, HEIGHT * along, z] as const;
  };
  const grid = { rowCount: ROWS / 4, columnCount: COLUMNS / 4, halvings: 2, relaxed };
  const levels = proofTube({ ...grid, place: place(0) });
  const start = Float64Array.from(proofTube({ ...grid, place: place(bar.pulled) }).at(-1)!.mesh.positions);
  const held = levels.map(({ mesh }, level) => {
    const columns = (COLUMNS / 4) * 2 ** level;
    return Uint8Array.from(mesh.positions, (_, i) => (Math.floor(i / 3) % columns === 0 ? 1 : 0));
  });
  const laws = [linearLaw(STIFFNESS)];
  const { body, friction } = bar;
  const problem = { levels, laws, body, foundation: NEAR_RIGID, friction, held };
  let tube = settleTube({ ...problem, start }, COLUMNS);
  for (let again = 0; again < MOST_AGAIN && !tube.equilibrium.atRest; again++) {
    const { positions, normalForce } = tube.equilibrium;
    tube = settleTube({ ...problem, start: positions, startNormalForce: normalForce }, COLUMNS);
  }
  const source = `Euler-Eytelwein, T2 = T1 e^(mu theta), on any convex prism only the turned angle counts (Cottenden et al. 2008, Proc. IMechE H 222, 1097, abstract); mu ${String(friction)}, theta as found`;
  const check = (id: string, side: string, from: number, to: number): Check => {
    const angle = Math.abs(angleAt(bar, tube, from) - angleAt(bar, tube, to));
    const expected = Math.exp(friction * angle);
    return {
      id: `capstan.${bar.id}.${id}`,
      what: `tension ratio on the ${side} side, ${bar.what}`,
      source,
      expected,
      got: tensionAt(tube, relaxed.girth, from) / tensionAt(tube, relaxed.girth, to),
      unit: 'ratio',
      tolerance: 0.005 * expected,
    };
  };
  const [near, far] = bar.between;
  return [check('taut-side', 'taut', COLUMNS - near, COLUMNS - far), check('other-side', 'slack', far, near)];
}

/** Angle of the bar's normal where a column of the middle ring lies, rad. */
function angleAt(bar: Bar, { equilibrium: { positions } }: SettledTube, column: number): number {
  const at = 3 * ((ROWS / 2) * COLUMNS + column);
  const sample = new Float64Array(10);
  bar.body.sample(positions[at]!, positions[at + 1]!, positions[at + 2]!, sample);
  const angle = Math.atan2(sample[1]!, sample[3]!) - bar.normalAt(bar.pulled);
  return angle < 0 ? angle + 2 * Math.PI : angle;
}

/** Tension around at a column, from the length between its neighbours on the middle ring, N/m. */
function tensionAt({ equilibrium: { positions } }: SettledTube, girth: number, column: number): number {
  const b = 3 * ((ROWS / 2) * COLUMNS + column);
  const a = b - 3;
  const c = b + 3;
  const length = (p: number, q: number) =>
    Math.hypot(
      positions[p]! - positions[q]!,
      positions[p + 1]! - positions[q + 1]!,
      positions[p + 2]! - positions[q + 2]!,
    );
  return STIFFNESS * ((length(a, b) + length(b, c)) / ((2 * girth) / COLUMNS) - 1);
}
