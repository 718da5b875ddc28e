import { createTensionState, tensionState } from '../fabric/tension-state.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import { deformationOf } from '../garment/deformation.ts';
import type { ClothLevel, Garment } from '../garment/garment.ts';

/** How the cloth is pulled, triangle by triangle; each array T. */
export interface ClothPull {
  /** Extension along and across the body, ratio. */
  readonly stretchAlong: Float64Array;
  readonly stretchAcross: Float64Array;
  /** Per current width, N/m. */
  readonly tensionAlong: Float64Array;
  readonly tensionAcross: Float64Array;
  /** 1 where some direction carries nothing, be it between warp and weft: the cloth is slack or sheared into wrinkles. */
  readonly wrinkled: Uint8Array;
  /** 1 where the direction carries nothing. */
  readonly slackAlong: Uint8Array;
  readonly slackAcross: Uint8Array;
  /** 1 beyond the last bench reading of either direction. */
  readonly beyondReadings: Uint8Array;
}

/**
 * Stretch and tension of the settled cloth in its two yarn directions, named by how they lie on the body.
 *
 * @param laws - Of the garment's fabrics, as its triangles name them.
 * @param positions - Settled, finest level; 3*V, m.
 */
export function clothPull(garment: Garment, laws: readonly TensionLaw[], positions: Float64Array): ClothPull {
  const level: ClothLevel = garment.levels.at(-1)!;
  const triangleCount = level.restArea.length;
  const empty = () => new Float64Array(triangleCount);
  const warp = { stretch: empty(), tension: empty(), slack: new Uint8Array(triangleCount) };
  const weft = { stretch: empty(), tension: empty(), slack: new Uint8Array(triangleCount) };
  const wrinkled = new Uint8Array(triangleCount);
  const beyondReadings = new Uint8Array(triangleCount);
  const deformation = new Float64Array(6);
  const state = createTensionState();
  for (let t = 0; t < triangleCount; t++) {
    deformationOf(level, positions, t, deformation);
    tensionState(laws[level.panel?.[t] ?? 0]!, deformation, state);
    warp.stretch[t] = state.warpStretch - 1;
    weft.stretch[t] = state.weftStretch - 1;
    warp.tension[t] = state.warpTension;
    weft.tension[t] = state.weftTension;
    wrinkled[t] = state.wrinkled ? 1 : 0;
    warp.slack[t] = state.slackWarp ? 1 : 0;
    weft.slack[t] = state.slackWeft ? 1 : 0;
    beyondReadings[t] = state.beyondReadings ? 1 : 0;
  }
  const [along, across] = garment.warp === 'along' ? [warp, weft] : [weft, warp];
  return {
    stretchAlong: along.stretch,
    stretchAcross: across.stretch,
    tensionAlong: along.tension,
    tensionAcross: across.tension,
    wrinkled,
    slackAlong: along.slack,
    slackAcross: across.slack,
    beyondReadings,
  };
}
