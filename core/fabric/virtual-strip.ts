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
  return pullFrom(law, angle, { stretch, width: 1, skew: 0 });
}

/** Pulls a strip at rising stretch ratios, each starting where the last one ended. */
export function pullStrips(law: TensionLaw, angle: number, stretches: readonly number[]): VirtualStrip[] {
  let width = 1;
  let skew = 0;
  return stretches.map((stretch) => {
    const strip = pullFrom(law, angle, { stretch, width, skew });
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

function pullFrom(law: TensionLaw, angle: number, from: StripState): VirtualStrip {
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const response = createTensionResponse();
  const f = new Float64Array(6);
  const tolerance = 1e-12 * law.typicalStiffness;
  let { width, skew } = from;
  const { stretch } = from;
  deform(f, cos, sin, { stretch, width, skew });
  evaluateTension(law, f, true, response);
  for (let i = 0; i < 200; i++) {
    // Strip-frame derivatives: the strip's cross direction in the rest state is (-sin, cos).
    const gWidth = -sin * response.stress[1]! + cos * response.stress[4]!;
    const gSkew = -sin * response.stress[0]! + cos * response.stress[3]!;
    if (Math.abs(gWidth) + Math.abs(gSkew) < tolerance) break;
    const step = newtonStep(response, cos, sin, [gWidth, gSkew]);
    const slope = step.width * gWidth + step.skew * gSkew;
    const energy = response.energy;
    let share = Math.min(
      1,
      (0.5 * width) / Math.max(Math.abs(step.width), 1e-300),
      0.5 / Math.max(Math.abs(step.skew), 1e-300),
    );
    let next = { stretch, width: width + share * step.width, skew: skew + share * step.skew };
    for (let halving = 0; halving < 40; halving++) {
      next = { stretch, width: width + share * step.width, skew: skew + share * step.skew };
      deform(f, cos, sin, next);
      evaluateTension(law, f, true, response);
      if (response.energy <= energy + 1e-4 * share * slope + 1e-15 * Math.abs(energy)) break;
      share /= 2;
    }
    ({ width, skew } = next);
  }
  return { tension: cos * response.stress[0]! + sin * response.stress[3]!, width, skew };
}

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
