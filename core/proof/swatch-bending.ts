import { bendOverEdge, settleStrip } from '../swatch/bend-over-edge.ts';
import { drapeDisc, SPECIMEN_RADIUS, SUPPORT_RADIUS } from '../swatch/drape-disc.ts';
import { evenColumns } from '../swatch/strip-mesh.ts';
import type { SwatchFabric } from '../swatch/swatch.ts';
import { radiansFromDegrees, STANDARD_GRAVITY } from '../units/units.ts';
import type { Check } from './check.ts';
import { linearLaw } from './settled-tube.ts';

/** Tip forward and down over the overhang, at wL^3/B: heavy elastica solved by an independent shooting program. */
const ELASTICA_TIPS = [
  [1, 0.991246, 0.123471],
  [2, 0.966893, 0.238507],
  [8, 0.724425, 0.640631],
  [20, 0.445232, 0.829881],
] as const;

const AREAL_DENSITY = 0.2;
const WIDTH = 0.025;
const ROWS = 20;

/** A cloth that bends alike in all directions and hardly stretches. */
const evenFabric = (rigidity: number): SwatchFabric => ({
  law: linearLaw(400),
  arealDensity: AREAL_DENSITY,
  bendingRigidity: { warp: rigidity, weft: rigidity, bias: rigidity },
});

/** Swatches that bend under their own weight, against the heavy elastica and the annular plate. */
export function* swatchBendingChecks(): Generator<void, Check[]> {
  const checks: Check[] = [];
  for (const tip of ELASTICA_TIPS) {
    checks.push(...tips(tip));
    yield;
  }
  for (const overhang of OVERHANGS) {
    checks.push(overhangAt(overhang));
    yield;
  }
  return [...checks, ...plate()];
}

function finish<T>(search: Generator<unknown, T>): T {
  let step = search.next();
  while (!step.done) step = search.next();
  return step.value;
}

function tips([load, forward, down]: (typeof ELASTICA_TIPS)[number]): Check[] {
  const rigidity = 5e-6;
  const overhang = Math.cbrt((load * rigidity) / (AREAL_DENSITY * STANDARD_GRAVITY));
  const columns = evenColumns(overhang, WIDTH, ROWS);
  const size = { overhang, width: WIDTH, angle: 0, hangingRows: ROWS, lyingRows: 3, columns };
  const { tip } = finish(settleStrip(evenFabric(rigidity), size, { start: null, trial: 0 }));
  const common = {
    source: 'Heavy elastica B th" = -w (L - s) cos th, solved independently by shooting; 1 % of length',
    unit: '1',
    tolerance: 0.01,
  };
  return [
    { id: `swatch.strip.tip-forward-${load}`, expected: forward, got: tip[0] / overhang, ...common },
    { id: `swatch.strip.tip-down-${load}`, expected: down, got: tip[1] / overhang, ...common },
  ];
}

/** Overhang over bending length at a chord angle, by the elastica. */
const OVERHANGS = [
  [30, 1 / 0.58792],
  [41.5, 2],
  [60, 1 / 0.38005],
] as const;

/** The overhang of G = M g c^3: twice c at 41.5 degrees, by the elastica elsewhere. */
function overhangAt([degrees, ratio]: (typeof OVERHANGS)[number]): Check {
  const c = 0.014;
  const fabric = evenFabric(AREAL_DENSITY * STANDARD_GRAVITY * c ** 3);
  const bent = finish(bendOverEdge(fabric, { direction: 'warp', slope: radiansFromDegrees(degrees) }));
  return {
    id: `swatch.strip.overhang-${degrees}`,
    source:
      'Heavy elastica, L / c at a chord angle, solved independently by shooting; at 41.5 degrees ISO 9073-7',
    expected: 1000 * ratio * c,
    got: 1000 * bent.overhang,
    unit: 'mm',
    tolerance: 20 * ratio * c,
  };
}

/** A stiff disc sags like a plate clamped between the discs. */
function plate(): Check[] {
  const rigidity = 0.02;
  const { positions, flat } = finish(drapeDisc(evenFabric(rigidity), { vertexCount: 3000 }));
  let sag = 0;
  let count = 0;
  for (let v = 0; 2 * v < flat.length; v++) {
    if (Math.hypot(flat[2 * v]!, flat[2 * v + 1]!) < SPECIMEN_RADIUS * (1 - 1e-9)) continue;
    sag -= positions[3 * v + 1]!;
    count++;
  }
  const expected = plateSag(rigidity, AREAL_DENSITY * STANDARD_GRAVITY);
  return [
    {
      id: 'swatch.disc.plate-sag',
      source:
        'Annular plate, inner edge clamped, outer free, D12 = 0, uniform load: w = q r^4/64D + C1 + C2 ln r + C3 r^2 + C4 r^2 ln r (Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells, ch. 3, from memory; constants solved here)',
      expected: 1e6 * expected,
      got: (1e6 * sag) / count,
      unit: 'um',
      tolerance: 0.02 * 1e6 * expected,
    },
  ];
}

/** Sag of the free edge: C2, C3, C4 from no slope at a, and no moment and no shear force at b. */
function plateSag(rigidity: number, load: number): number {
  const a = SUPPORT_RADIUS;
  const b = SPECIMEN_RADIUS;
  const q = load / rigidity;
  // Shear: (lap w)' = q r / 2 + 4 C4 / r = 0.
  const c4 = (-q * b * b) / 8;
  // Moment (no cross effect): w'' = 3 q r^2 / 16 - C2 / r^2 + 2 C3 + C4 (2 ln r + 3) = 0 at b;
  // slope: w' = q r^3 / 16 + C2 / r + 2 C3 r + C4 r (2 ln r + 1) = 0 at a.
  const moment = (3 * q * b * b) / 16 + c4 * (2 * Math.log(b) + 3);
  const slope = (q * a * a) / 16 + c4 * (2 * Math.log(a) + 1);
  const c2 = (moment - slope) / (1 / (a * a) + 1 / (b * b));
  const c3 = -(slope + c2 / (a * a)) / 2;
  const at = (r: number) => (q * r ** 4) / 64 + c2 * Math.log(r) + c3 * r * r + c4 * r * r * Math.log(r);
  return at(b) - at(a);
}
