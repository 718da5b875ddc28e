import { lawFromStrips } from '../fabric/law-from-strips.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import type { Check } from './check.ts';
import { CCX_HOURGLASS } from './data/ccx-hourglass.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { mean, rowMean, settleTube } from './settled-tube.ts';
import { bodyOfRevolution, waistProfile } from './smooth-bodies.ts';

const ROWS = 24;
const COLUMNS = 64;
const HEIGHT = 0.24;
const FOUNDATION = 2.265e6;
/** Rows at either hem left out: the two programs share out edge areas differently. */
const EDGE_ROWS = 2;
/** A Green eigenstrain of -0.2 in both directions: natural length over laid length = sqrt(1 - 2 * 0.2). */
const NATURAL_SCALE = Math.sqrt(0.6);
/** E t per laid width; per natural width it is times 0.6. */
const MEMBRANE_STIFFNESS = 500;

/**
 * A tube over a waist, frictionless: where it bridges the hollow, how far it stands off and how the pressure runs from
 * hem to hem, against another program's solution on the same mesh.
 */
export function hourglassBridging(): Check[] {
  const profile = waistProfile(0.13, 0.025, 0.06);
  const levels = proofTube({
    rowCount: ROWS / 8,
    columnCount: COLUMNS / 8,
    halvings: 3,
    place: (around, along) => {
      const y = HEIGHT * (along - 0.5);
      return onRing(profile.radius(y), y, around);
    },
    relaxed: { around: NATURAL_SCALE, along: NATURAL_SCALE },
  });
  const held = levels.map(({ mesh, edgeVertex }) =>
    Uint8Array.from(mesh.positions, (_, i) => (i % 3 === 1 ? edgeVertex[(i - 1) / 3]! : 0)),
  );
  const body = bodyOfRevolution(profile);
  const tube = settleTube(
    { levels, laws: [saintVenantKirchhoff()], body, foundation: FOUNDATION, friction: 0, held },
    COLUMNS,
  );
  const rows = CCX_HOURGLASS.map((_, row) => row);
  const pressures = Float64Array.from(rows, (row) => rowMean(tube, tube.pressure, row));
  const average = mean(pressures.subarray(EDGE_ROWS, ROWS + 1 - EDGE_ROWS));
  const ratios = pressures.map((pressure) => pressure / average);
  const { positions } = tube.equilibrium;
  const gapMm = rows.map((row) => {
    const at = 3 * row * COLUMNS;
    const radius = Math.hypot(positions[at]!, positions[at + 2]!);
    return 1000 * (radius - profile.radius(positions[at + 1]!));
  });
  const source =
    'CalculiX ccx 2.20 on the same mesh (M3D3, NLGEOM, node-to-surface contact); see data/ccx-hourglass.ts';
  const waist = ROWS / 2;
  const compared = rows.slice(EDGE_ROWS, ROWS + 1 - EDGE_ROWS);
  const missed = (of: (row: number) => number) =>
    Math.sqrt(mean(Float64Array.from(compared, (row) => of(row) ** 2)));
  const offSkin = (on: (row: number) => boolean) => rows.filter((row) => !on(row)).length;
  return [
    {
      id: 'hourglass.waist-gap',
      source,
      expected: CCX_HOURGLASS[waist]!.radialGapMm,
      got: gapMm[waist]!,
      unit: 'mm',
      tolerance: 0.04,
    },
    {
      id: 'hourglass.gap-profile',
      source: `${source}; root-mean-square difference over the rows, hem rows left out; its body is a polygon that lies up to 0.04 mm within ours`,
      expected: 0,
      got: missed((row) => gapMm[row]! - CCX_HOURGLASS[row]!.radialGapMm),
      unit: 'mm',
      tolerance: 0.05,
    },
    {
      id: 'hourglass.rows-off-skin',
      source: `${source}; rows without pressure, which is where the cloth bridges`,
      expected: offSkin((row) => CCX_HOURGLASS[row]!.pressureOverMean > 0),
      got: offSkin((row) => pressures[row]! > 0),
      unit: 'rows',
      tolerance: 0,
    },
    {
      id: 'hourglass.pressure-profile',
      source: `${source}; root-mean-square difference of pressure over its mean, hem rows left out`,
      expected: 0,
      got: missed((row) => ratios[row]! - CCX_HOURGLASS[row]!.pressureOverMean),
      unit: 'of the mean',
      tolerance: 0.03,
    },
  ];
}

/** Force per natural width of a St. Venant-Kirchhoff membrane without coupling: T = E t' (l^2 - 1) l / 2. */
function saintVenantKirchhoff(): TensionLaw {
  const stiffness = MEMBRANE_STIFFNESS * NATURAL_SCALE ** 2;
  const load = Array.from({ length: 80 }, (_, i): [number, number] => {
    const stretch = 1 + (i + 1) / 100;
    return [stretch, (stiffness * (stretch ** 2 - 1) * stretch) / 2];
  });
  // Shear energy E t' E12^2 with E12 = lu lv sin(g) / 2, at the stretch the laid tube starts from (lu lv = 1 / 0.6).
  const shear = stiffness / (2 * NATURAL_SCALE ** 4);
  return lawFromStrips({ warp: { load }, weft: { load }, shear: { modulus: shear } });
}
