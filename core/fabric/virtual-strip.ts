import { createTensionResponse, evaluateTension } from './evaluate-tension.ts';
import type { TensionLaw, TensionResponse } from './tension-law.ts';

/** A strip of the fitted law, long enough for its edges to be free. */
export interface VirtualStrip {
  /** Force per original width, N/m. */
  readonly tension: number;
  /** Width over original width. */
  readonly width: number;
  /** Sideways slant of the cross lines per length: 0 where the fabric is balanced about the strip. */
  readonly skew: number;
}

/** Angle between the strip's length and the warp, rad. */
export const STRIP_ANGLE = { warp: 0, weft: Math.PI / 2, bias: Math.PI / 4 } as const;

/**
 * Pulls a strip of the law: at a given stretch, width and skew are those at which edge pull and edge shear vanish.
 *
 * F = R [[l, k], [0, m]] R0' in the strip's frame; dW/dm = dW/dk = 0 by Newton, halved while the energy does not fall.
 *
 * @param angle - Between the strip's length and the warp, rad.
 * @param stretch - Stretch ratio l of the strip.
 */
export function pullStrip(law: TensionLaw, angle: number, stretch: number): VirtualStrip {
  return puller(law, angle)({ stretch, width: 1, skew: 0 });
}

/** Pulls a strip at rising stretch ratios, each starting where the last one ended. */
export function pullStrips(law: TensionLaw, angle: number, stretches: readonly number[]): VirtualStrip[] {
  const pullFrom = puller(law, angle);
  let width = 1;
  let skew = 0;
  return stretches.map((stretch) => {
    const strip = pullFrom({ stretch, width, skew });
    width = strip.width;
    skew = strip.skew;
    return strip;
  });
}

interface StripState {
  readonly stretch: number;
  readonly width: number;
  readonly skew: number;
}

/** Pulls one strip after another in the same working room. */
function puller(law: TensionLaw, angle: number): (from: StripState) => VirtualStrip {
  const room = { response: createTensionResponse(), f: new Float64Array(6) };
  const direction = { cos: Math.cos(angle), sin: Math.sin(angle) };
  return (from) => pullFrom(law, direction, from, room);
}

function pullFrom(
  law: TensionLaw,
  { cos, sin }: { readonly cos: number; readonly sin: number },
  from: StripState,
  { response, f }: { readonly response: TensionResponse; readonly f: Float64Array },
): VirtualStrip {
  const tolerance = 1e-12 * law.typicalStiffness;
  const { stretch } = from;
  const evaluateAt = (state: StripState): Gradient => {
    deform(f, cos, sin, state);
    evaluateTension(law, f, true, response);
    // Strip-frame derivatives: the strip's cross direction in the rest state is (-sin, cos).
    return {
      width: -sin * response.stress[1]! + cos * response.stress[4]!,
      skew: -sin * response.stress[0]! + cos * response.stress[3]!,
    };
  };
  let at = from;
  let gradient = evaluateAt(at);
  for (let i = 0; i < 200 && sizeOf(gradient) >= tolerance; i++) {
    const step = newtonStep(response, cos, sin, [gradient.width, gradient.skew]);
    if (Math.abs(step.width) + Math.abs(step.skew) < SMALLEST_STEP) break;
    const slope = step.width * gradient.width + step.skew * gradient.skew;
    const energy = response.energy;
    const before: Gradient = gradient;
    let share = Math.min(
      1,
      (0.5 * at.width) / Math.max(Math.abs(step.width), 1e-300),
      0.5 / Math.max(Math.abs(step.skew), 1e-300),
    );
    let next = at;
    for (let halving = 0; halving < 40; halving++) {
      next = { stretch, width: at.width + share * step.width, skew: at.skew + share * step.skew };
      gradient = evaluateAt(next);
      // Near the end the fall of the energy drowns in round-off, that of its gradient does not.
      const falls = response.energy <= energy + 1e-4 * share * slope;
      if (falls || sizeOf(gradient) < 0.5 * sizeOf(before)) break;
      share /= 2;
    }
    at = next;
  }
  const { width, skew } = at;
  return { tension: cos * response.stress[0]! + sin * response.stress[3]!, width, skew };
}

/** Edge pull and edge shear of a strip, N/m. */
interface Gradient {
  readonly width: number;
  readonly skew: number;
}

const sizeOf = ({ width, skew }: Gradient): number => Math.abs(width) + Math.abs(skew);

/** A step below this share of the strip's width is round-off. */
const SMALLEST_STEP = 1e-13;

/** Columns of F for a strip whose length makes `angle` with the warp; strip frame: length first, then width. */
function deform(f: Float64Array, cos: number, sin: number, state: StripState): void {
  f[0] = state.stretch * cos - state.skew * sin;
  f[1] = -state.width * sin;
  f[3] = state.stretch * sin + state.skew * cos;
  f[4] = state.width * cos;
}

/** Newton step in (width, skew); along the gradient's descent where the 2x2 stiffness is not positive. */
function newtonStep(
  response: TensionResponse,
  cos: number,
  sin: number,
  gradient: readonly [number, number],
): { width: number; skew: number } {
  const k = response.stiffness;
  const second = (row: number, column: number): number =>
    sin * sin * k[6 * row + column]! -
    sin * cos * (k[6 * row + 3 + column]! + k[6 * (3 + row) + column]!) +
    cos * cos * k[6 * (3 + row) + 3 + column]!;
  let ww = second(1, 1);
  let kk = second(0, 0);
  const wk = (second(0, 1) + second(1, 0)) / 2;
  const least = (ww + kk) / 2 - Math.hypot((ww - kk) / 2, wk);
  const floor = 1e-6 * (Math.abs(ww) + Math.abs(kk) + Math.abs(wk));
  if (least < floor) {
    ww += floor - least;
    kk += floor - least;
  }
  const determinant = ww * kk - wk * wk;
  return {
    width: (wk * gradient[1] - kk * gradient[0]) / determinant,
    skew: (wk * gradient[0] - ww * gradient[1]) / determinant,
  };
}
