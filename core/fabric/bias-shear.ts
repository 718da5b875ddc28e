import { monotoneCubic, valueAt } from '../units/monotone-cubic.ts';
import type { AxisCurve } from './axis-curve.ts';
import { createTensionResponse, evaluateUnrelaxed } from './evaluate-tension.ts';
import { isotonic } from './isotonic.ts';
import type { TensionLaw, TensionResponse } from './tension-law.ts';

/** Where a bias strip stands at one stretch. */
export interface BiasState {
  /** Stretch ratio of the strip. */
  readonly stretch: number;
  /** Width over original width. */
  readonly width: number;
  /** Angle by which warp and weft have left the right angle, rad. */
  readonly angle: number;
  /** S'(angle), N/m, as the strip asks for it: may be negative where readings contradict each other. */
  readonly shear: number;
}

export interface BiasShear {
  /** S'(g) for g >= 0: rising from 0, straight beyond the last state. N/m. */
  readonly slope: (angle: number) => number;
  /** One per sampled stretch, as far as they could be solved. */
  readonly states: readonly BiasState[];
}

/** The bias strip's force; `set` is ln of the stretch ratio at which it sets in (0 if left out). */
export type BiasCurve = Pick<AxisCurve, 'tau' | 'measuredTo'> & { readonly set?: number };

/** Stretches at which the bias strip is solved. */
const SAMPLES = 32;
/** The least shear stiffness, as a share of the fabric's typical stiffness. */
const LEAST_SHARE = 1e-4;

/**
 * The resistance to shear from a strip cut at 45 degrees.
 *
 * The strip's edges are free, so at each stretch l three equations hold for width m, skew k and shear sigma = S'(g):
 * dW0/dl + sigma dg/dl = T, dW0/dm + sigma dg/dm = 0, dW0/dk + sigma dg/dk = 0, W0 the law without shear. Solved by
 * Newton from the last stretch on. The width is thus foretold, not used; a measured one is a check.
 *
 * @param unsheared - The law with S = 0.
 */
export function shearFromBias(unsheared: TensionLaw, bias: BiasCurve): BiasShear {
  const solver = createSolver(unsheared);
  const states: BiasState[] = [];
  let before: Unknowns | null = null;
  let start: Unknowns = { width: 1, skew: 0, shear: 0 };
  for (let i = 1; i <= SAMPLES; i++) {
    const x = (i / SAMPLES) * bias.measuredTo;
    const stretch = Math.exp(x + (bias.set ?? 0));
    const tension = bias.tau(x) / stretch;
    if (states.length === 0) start = { width: Math.exp(-x / 2), skew: 0, shear: tension / 2 };
    const pull = { stretch, tension };
    const solved = (before === null ? null : solver(pull, onward(before, start))) ?? solver(pull, start);
    if (solved === null) continue;
    before = states.length === 0 ? null : start;
    start = solved.unknowns;
    states.push({ stretch, width: start.width, angle: solved.angle, shear: start.shear });
  }
  return { slope: risingShear(states, LEAST_SHARE * unsheared.typicalStiffness), states };
}

/** A first guess for the next stretch: straight on from the last two. */
const onward = (before: Unknowns, last: Unknowns): Unknowns => ({
  width: 2 * last.width - before.width,
  skew: 2 * last.skew - before.skew,
  shear: 2 * last.shear - before.shear,
});

/** S' through the states, made to rise. */
function risingShear(states: readonly BiasState[], least: number): (angle: number) => number {
  const rising = states.filter(
    (state, i) => state.angle > 1e-9 && states.slice(0, i).every((other) => other.angle < state.angle),
  );
  if (rising.length === 0) return (angle) => least * angle;
  const shear = isotonic(rising.map((state) => Math.max(state.shear, least * state.angle)));
  const curve = monotoneCubic([0, ...rising.map((state) => state.angle)], [0, ...shear]);
  return (angle) => valueAt(curve, angle);
}

interface Unknowns {
  readonly width: number;
  readonly skew: number;
  /** N/m. */
  readonly shear: number;
}

type Triple = readonly [number, number, number];

interface Pull {
  readonly stretch: number;
  readonly tension: number;
}

interface Solved {
  readonly unknowns: Unknowns;
  readonly angle: number;
}

/** Newton with a difference quotient for the 3x3 matrix, halved while the imbalance does not fall. */
function createSolver(law: TensionLaw): (pull: Pull, start: Unknowns) => Solved | null {
  const room = { response: createTensionResponse(), f: new Float64Array(6) };
  const scale = law.typicalStiffness;
  const quotient = (pull: Pull, at: Unknowns, part: keyof Unknowns): Triple => {
    const step = part === 'shear' ? 1e-6 * scale : 1e-6;
    const high = imbalance(law, pull, { ...at, [part]: at[part] + step }, room).rest;
    const low = imbalance(law, pull, { ...at, [part]: at[part] - step }, room).rest;
    return [
      (high[0] - low[0]) / (2 * step),
      (high[1] - low[1]) / (2 * step),
      (high[2] - low[2]) / (2 * step),
    ];
  };
  return (pull, start) => {
    let at = start;
    let now = imbalance(law, pull, at, room);
    for (let i = 0; i < 60 && size(now.rest) > 1e-10 * scale; i++) {
      const columns = [
        quotient(pull, at, 'width'),
        quotient(pull, at, 'skew'),
        quotient(pull, at, 'shear'),
      ] as const;
      const step = solve3(columns, now.rest);
      if (step === null) return null;
      let share = 1;
      let trial = at;
      let next = now;
      do {
        trial = {
          width: at.width - share * step[0],
          skew: at.skew - share * step[1],
          shear: at.shear - share * step[2],
        };
        next = imbalance(law, pull, trial, room);
        share /= 2;
      } while (share > 1e-6 && !(trial.width > 0 && size(next.rest) < size(now.rest)));
      if (!(size(next.rest) < size(now.rest))) break;
      at = trial;
      now = next;
    }
    return size(now.rest) <= 1e-6 * scale ? { unknowns: at, angle: now.angle } : null;
  };
}

/** What is left of the three equations, and the angle; strip frame, warp and weft at -45 and +45 degrees. */
function imbalance(
  law: TensionLaw,
  pull: Pull,
  { width, skew, shear }: Unknowns,
  room: { response: TensionResponse; f: Float64Array },
): { rest: Triple; angle: number } {
  const h = Math.SQRT1_2;
  const { f, response } = room;
  const ux = (pull.stretch - skew) * h;
  const uy = -width * h;
  const vx = (pull.stretch + skew) * h;
  const vy = width * h;
  f[0] = ux;
  f[1] = uy;
  f[3] = vx;
  f[4] = vy;
  evaluateUnrelaxed(law, f, response);
  const lu = Math.hypot(ux, uy);
  const lv = Math.hypot(vx, vy);
  const s = (ux * vx + uy * vy) / (lu * lv);
  const cos = Math.sqrt(Math.max(1 - s * s, 1e-12));
  const p = response.stress;
  // dg/dfu = (b - s a) / (lu cos g), dg/dfv alike.
  const gux = (vx / lv - (s * ux) / lu) / (lu * cos);
  const guy = (vy / lv - (s * uy) / lu) / (lu * cos);
  const gvx = (ux / lu - (s * vx) / lv) / (lv * cos);
  const gvy = (uy / lu - (s * vy) / lv) / (lv * cos);
  return {
    rest: [
      h * (p[0]! + p[3]! + shear * (gux + gvx)) - pull.tension,
      h * (p[4]! - p[1]! + shear * (gvy - guy)),
      h * (p[3]! - p[0]! + shear * (gvx - gux)),
    ],
    angle: Math.asin(s),
  };
}

const size = (rest: Triple): number => Math.hypot(...rest);

/** Cramer's rule; columns of the matrix, right-hand side. Null where the matrix is singular. */
function solve3([a, b, c]: readonly [Triple, Triple, Triple], right: Triple): Triple | null {
  const whole = triple(a, b, c);
  if (!(Math.abs(whole) > 1e-12 * size(a) * size(b) * size(c))) return null;
  return [triple(right, b, c) / whole, triple(a, right, c) / whole, triple(a, b, right) / whole];
}

/** a . (b x c). */
function triple(a: Triple, b: Triple, c: Triple): number {
  return (
    a[0] * (b[1] * c[2] - b[2] * c[1]) +
    a[1] * (b[2] * c[0] - b[0] * c[2]) +
    a[2] * (b[0] * c[1] - b[1] * c[0])
  );
}
