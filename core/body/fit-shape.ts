/** What the form may be asked for besides its girths: how it stands and how single places are shaped. */
import { degreesFromRadians, mmFromMetres } from '../units/units.ts';
import { BASE_STATURE } from './fit-forms.ts';
import { usualShape } from './fit-parameters.ts';
import type { FitOrder } from './fit-stations.ts';

/** SI; each that is left out stays as the base figure has it. */
export interface FitShape {
  /** Each leg away from the vertical, rad; 0 to 8 degrees. */
  readonly legSpread?: number;
  /** Each arm away from the vertical, rad; 30 to 50 degrees, by the size of the chest when left out. */
  readonly armAbduction?: number;
  /** Narrowest gap between the thighs while the legs stand straight, m; at 0 they touch. By their girth when left out. */
  readonly thighGap?: number;
  /** How far the furrow over the spine lies in front of a tape round the waist, m. */
  readonly lumbarFurrow?: number;
  /** How far the cleft lies in front of a tape round the hip, m. */
  readonly seatCleft?: number;
  /** 0 as the breasts hang, 1 as a garment holds them up. */
  readonly bustSupport?: number;
  /** How strongly collar bones, shoulder blades and muscles show; 1 as on the base figure. */
  readonly relief?: number;
}

/** The same with nothing left open; mm and degrees. */
export interface ShapeOrder {
  readonly legs: number;
  /** null: by the size of the chest. */
  readonly arms: number | null;
  readonly thighGap: number;
  readonly lumbarFurrow: number;
  readonly seatCleft: number;
  readonly bustSupport: number;
  readonly relief: number;
}

/** 26 mm on a middling figure; fuller thighs come nearer, down to 4 mm. Set by eye. */
function usualThighGap(thigh: number, stature: number): number {
  const fuller = thigh - 600 * (stature / BASE_STATURE);
  return Math.min(26, Math.max(4, 26 - 0.16 * fuller));
}

/** Fills in what was not asked for; the order is that of the girths, mm. */
export function shapeOrderOf(shape: FitShape, { stature, girths }: FitOrder): ShapeOrder {
  const inMm = (name: 'lumbarFurrow' | 'seatCleft'): number => {
    const metres = shape[name];
    return metres === undefined ? usualShape(name) : mmFromMetres(metres);
  };
  return {
    legs: degreesFromRadians(shape.legSpread ?? 0),
    arms: shape.armAbduction === undefined ? null : degreesFromRadians(shape.armAbduction),
    thighGap:
      shape.thighGap === undefined ? usualThighGap(girths.thigh, stature) : mmFromMetres(shape.thighGap),
    lumbarFurrow: inMm('lumbarFurrow'),
    seatCleft: inMm('seatCleft'),
    bustSupport: shape.bustSupport ?? usualShape('bustSupport'),
    relief: shape.relief ?? usualShape('relief'),
  };
}
