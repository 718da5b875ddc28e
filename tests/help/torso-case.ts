import { gridFromField } from '../../core/body/grid-from-field.ts';
import type { EquilibriumProblem } from '../../core/equilibrium/equilibrium.ts';
import { lawFromStrips } from '../../core/fabric/law-from-strips.ts';
import type { TensionLaw } from '../../core/fabric/tension-law.ts';
import { proofTube } from '../../core/proof/proof-tube.ts';

/** Half axes of the trunk far from the waist, m. */
const HALF_WIDTH = 0.15;
const HALF_DEPTH = 0.115;

/** Zero on the skin of a made-up torso: elliptic, waisted, with a hollow in the small of the back. Not a distance. */
function torsoField(x: number, y: number, z: number): number {
  const waist = Math.exp(-((y / 0.08) ** 2));
  const a = HALF_WIDTH - 0.018 * waist;
  const b = HALF_DEPTH - 0.01 * waist;
  const hollow = z < 0 ? 0.016 * Math.exp(-((x / 0.05) ** 2) - (y / 0.07) ** 2) : 0;
  const radius = Math.sqrt((x / a) ** 2 + (z / b) ** 2);
  return (radius - 1) * b + hollow * Math.min(1, (z / HALF_DEPTH) ** 2);
}

/** A made-up stiff stretch fabric, unlike in warp and weft, stiffening; N/m. */
export const torsoFabric = (): TensionLaw =>
  lawFromStrips({
    warp: {
      load: [
        [1.1, 42],
        [1.2, 75],
        [1.4, 150],
        [1.7, 330],
      ],
      width: [
        [1.2, 0.95],
        [1.7, 0.85],
      ],
    },
    weft: {
      load: [
        [1.1, 26],
        [1.2, 48],
        [1.4, 100],
        [1.7, 230],
      ],
      width: [
        [1.2, 0.96],
        [1.7, 0.88],
      ],
    },
    shear: { modulus: 60 },
  });

export interface TorsoCase {
  /** Cells of the coarsest level along and around, and how often they are halved. */
  readonly rowCount: number;
  readonly columnCount: number;
  readonly halvings: number;
  readonly friction?: number;
  /** Relaxed girth, m; 0.64 if left out. */
  readonly girth?: number;
  /** Foundation stiffness, Pa/m; 0.5 kPa/mm if left out. */
  readonly foundation?: number;
  /** Holds the heights of both hems; true if left out. */
  readonly hemsHeld?: boolean;
  readonly law?: TensionLaw;
}

/** Sizes by their vertex counts. */
export const TORSO_SIZES = {
  2624: { rowCount: 5, columnCount: 8, halvings: 3 },
  10368: { rowCount: 5, columnCount: 8, halvings: 4 },
  41216: { rowCount: 5, columnCount: 8, halvings: 5 },
  98688: { rowCount: 4, columnCount: 6, halvings: 6 },
} as const;

/** A straight tube pulled over a made-up torso, on an irregular mesh. */
export function torsoCase(options: TorsoCase): EquilibriumProblem {
  const { friction = 0, girth = 0.64, foundation = 0.5e6, hemsHeld = true, law = torsoFabric() } = options;
  const body = gridFromField(torsoField, { low: [-0.2, -0.2, -0.17], high: [0.2, 0.2, 0.17] }, 0.008);
  const sample = new Float64Array(10);
  const place = (around: number, along: number): [number, number, number] => {
    const y = (along - 0.5) * 0.25;
    let x = HALF_WIDTH * Math.sin(2 * Math.PI * around);
    let z = HALF_DEPTH * Math.cos(2 * Math.PI * around);
    for (let i = 0; i < 6; i++) {
      body.sample(x, y, z, sample);
      const slope = sample[1]! ** 2 + sample[3]! ** 2;
      x -= (sample[0]! * sample[1]!) / slope;
      z -= (sample[0]! * sample[3]!) / slope;
    }
    return [x, y, z];
  };
  const { rowCount, columnCount, halvings } = options;
  const levels = proofTube({
    rowCount,
    columnCount,
    halvings,
    place,
    relaxed: { girth, length: 0.24 },
    jitter: 0.2,
  });
  const held = levels.map(({ mesh, edgeVertex }) => {
    const mask = new Uint8Array(mesh.positions.length);
    edgeVertex.forEach((edge, v) => {
      mask[3 * v + 1] = edge;
    });
    return mask;
  });
  return {
    levels,
    laws: [law],
    body,
    foundation: levels.map(({ mesh }) => new Float64Array(mesh.positions.length / 3).fill(foundation)),
    friction,
    ...(hemsHeld ? { held } : {}),
  };
}
