import { createTensionResponse, evaluateTension } from './evaluate-tension.ts';
import type { TensionLaw, TensionResponse } from './tension-law.ts';

/** Grid of stretch ratios and shear angles, and of directions in which a wave could run. */
const STRETCH_COUNT = 13;
const ANGLES = [0, 0.15, -0.3] as const;
const DIRECTION_COUNT = 12;
/** Smallest stretch ratio looked at. */
const LEAST_STRETCH = 0.8;
/** A negative stiffness below this share of the fabric's counts as round-off. */
const ROUND_OFF = 1e-4;

/**
 * Share of the measured region, under tension both ways, in which the law is not stable: the 2x2 stiffness in
 * (lu, lv), and the acoustic tensor A(n) = sum n_a n_b K_ab in the plane for every direction n, must not be negative.
 *
 * @returns Ratio, 0 for a sound law.
 * @see Ogden, Non-linear Elastic Deformations, 1984, section 6.2.7 (strong ellipticity).
 */
export function unstableShare(law: TensionLaw): number {
  const response = createTensionResponse();
  const f = new Float64Array(6);
  let looked = 0;
  let bad = 0;
  for (const lu of stretchGrid(law.measuredTo.warp)) {
    for (const lv of stretchGrid(law.measuredTo.weft)) {
      for (const angle of ANGLES) {
        f[0] = lu;
        f[3] = lv * Math.sin(angle);
        f[4] = lv * Math.cos(angle);
        evaluateTension(law, f, true, response);
        if (!underTension(response, f)) continue;
        looked++;
        if (!isStable(response, angle === 0, law.typicalStiffness)) bad++;
      }
    }
  }
  return looked === 0 ? 0 : bad / looked;
}

const stretchGrid = (most: number): number[] =>
  Array.from(
    { length: STRETCH_COUNT },
    (_, i) => LEAST_STRETCH + ((most - LEAST_STRETCH) * (i + 0.5)) / STRETCH_COUNT,
  );

/** Both yarns carry and no principal tension pushes. */
function underTension(response: TensionResponse, f: Float64Array): boolean {
  if (response.slackWarp || response.slackWeft) return false;
  const p = response.stress;
  const xx = p[0]! * f[0]! + p[3]! * f[3]!;
  const xy = p[0]! * f[1]! + p[3]! * f[4]!;
  const yy = p[1]! * f[1]! + p[4]! * f[4]!;
  return xx + yy >= 0 && xx * yy - xy * xy >= 0;
}

function isStable(response: TensionResponse, unsheared: boolean, stiffness: number): boolean {
  const k = response.stiffness;
  const least = -ROUND_OFF * stiffness;
  if (unsheared && leastEigenvalue(k[0]!, k[4]!, k[28]!) < least) return false;
  // In the plane: K_uu at 0, 1, 7; K_uv at 3, 4, 9, 10; K_vv at 21, 22, 28.
  for (const { uu, mixed, vv } of WAVES) {
    const xx = uu * k[0]! + 2 * mixed * k[3]! + vv * k[21]!;
    const xy = uu * k[1]! + mixed * (k[4]! + k[9]!) + vv * k[22]!;
    const yy = uu * k[7]! + 2 * mixed * k[10]! + vv * k[28]!;
    if (leastEigenvalue(xx, xy, yy) < least) return false;
  }
  return true;
}

/** n_u n_u, n_u n_v and n_v n_v for every direction n. */
const WAVES = Array.from({ length: DIRECTION_COUNT }, (_, i) => {
  const u = Math.cos((Math.PI * i) / DIRECTION_COUNT);
  const v = Math.sin((Math.PI * i) / DIRECTION_COUNT);
  return { uu: u * u, mixed: u * v, vv: v * v };
});

/** Of the symmetric matrix [[a, b], [b, c]]. */
function leastEigenvalue(a: number, b: number, c: number): number {
  const half = (a - c) / 2;
  return (a + c) / 2 - Math.sqrt(half * half + b * b);
}
