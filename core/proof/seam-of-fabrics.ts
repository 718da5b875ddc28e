import { NEAR_RIGID } from '../body/body.ts';
import { liningForce } from '../equilibrium/lining-force.ts';
import { lawFromStrips } from '../fabric/law-from-strips.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import type { ClothLevel } from '../garment/garment.ts';
import { setRestShape, type RestShape } from '../garment/rest-shape.ts';
import { turnedGrain } from '../garment/turned-grain.ts';
import { radiansFromDegrees } from '../units/units.ts';
import type { Check } from './check.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { columnMean, innerRows, linearLaw, mean, settleTube } from './settled-tube.ts';
import { cylinderBody } from './smooth-bodies.ts';

/** Two fabrics sewn together along the body, and cloth whose grain is turned. */
export function seamOfFabricsChecks(): Check[] {
  return [...inSeries(), ...turned()];
}

const BAR = { radius: 0.1, height: 0.08, stretch: 1.25, columns: 64 };
const STIFFNESS = [250, 100] as const;

/**
 * Half a tube of one fabric, half of another, free to slide round a hard bar: both carry the same tension, and each
 * stretches as its stiffness lets it.
 */
function inSeries(): Check[] {
  const { radius, height, stretch, columns } = BAR;
  const girth = 2 * Math.PI * radius;
  const levels = proofTube({
    rowCount: 2,
    columnCount: columns / 4,
    halvings: 2,
    place: (around, along) => onRing(radius, height * along, around),
    relaxed: { girth: girth / stretch, length: height },
  }).map((level, l): ClothLevel => {
    const columnCount = (columns / 4) * 2 ** l;
    const panel = Uint8Array.from(level.restArea, (_, t) =>
      (t >> 1) % columnCount < columnCount / 2 ? 0 : 1,
    );
    return { ...level, panel };
  });
  const tube = settleTube(
    {
      levels,
      laws: STIFFNESS.map(linearLaw),
      body: cylinderBody(radius),
      foundation: NEAR_RIGID,
      friction: 0,
    },
    columns,
  );
  const half = girth / stretch / 2;
  const tension = (girth - 2 * half) / (half / STIFFNESS[0] + half / STIFFNESS[1]);
  const source =
    'Two springs in series round a frictionless bar: T = (C - a1 - a2) / (a1/K1 + a2/K2), p = T/R; K 250 and 100 N/m, R 100 mm';
  const stretchAt = (column: number): number => {
    const { positions } = tube.equilibrium;
    const a = 3 * (4 * columns + column);
    return (
      Math.hypot(positions[a + 3]! - positions[a]!, positions[a + 5]! - positions[a + 2]!) /
      ((2 * half) / columns)
    );
  };
  const quarter = columns / 4;
  return [
    {
      id: 'seam.series.pressure',
      source,
      expected: tension / radius,
      got: mean(innerRows(tube, tube.pressure)),
      unit: 'Pa',
      tolerance: (0.01 * tension) / radius,
    },
    ...[quarter, 3 * quarter].map((column, i) => ({
      id: `seam.series.pressure-on-${STIFFNESS[i]}`,
      source,
      expected: tension / radius,
      got: columnMean(tube, tube.pressure, column),
      unit: 'Pa',
      tolerance: (0.01 * tension) / radius,
    })),
    ...[quarter, 3 * quarter].map((column, i) => ({
      id: `seam.series.stretch-of-${STIFFNESS[i]}`,
      source,
      expected: 100 * (tension / STIFFNESS[i]!),
      got: 100 * (stretchAt(column) - 1),
      unit: '%',
      tolerance: tension / STIFFNESS[i]!,
    })),
  ];
}

/** A linear orthotropic cloth; N/m. */
const ORTHOTROPIC = { along: 300, across: 150, narrowing: 0.3, shear: 60 };
/** Small, so that the linear theory holds; below 0.5 % a law from strips rounds the corner where force sets in. */
const EXTENSION = 1e-2;

function orthotropicLaw(): TensionLaw {
  const { along, across, narrowing, shear } = ORTHOTROPIC;
  const reach = 0.2;
  return lawFromStrips({
    warp: { load: [[1 + reach, along * reach]], width: [[1 + reach, 1 - narrowing * reach]] },
    weft: {
      load: [[1 + reach, across * reach]],
      width: [[1 + reach, 1 - ((narrowing * across) / along) * reach]],
    },
    shear: { modulus: shear },
  });
}

/** Linings pulled along a line that their warp is turned from, alone and two over each other, against plane elasticity. */
function turned(): Check[] {
  const source =
    'Off-axis modulus 1/E = c^4/E1 + s^4/E2 + (1/G - 2 nu/E1) s^2 c^2 (Lekhnitskii; laminate theory)';
  const single = (
    [
      [0, 300],
      [15, 259.8556090584139],
      [45, 162.1621621621622],
      [60, 149.06832298136646],
      [75, 148.47716607722813],
      [90, 150],
    ] as const
  ).map(([degrees, expected]) => ({
    id: `lining.turned-${degrees}`,
    source,
    expected,
    got: stripModulus([radiansFromDegrees(degrees)]),
    unit: 'N/m',
    tolerance: 0.02 * expected,
  }));
  const double = (
    [
      [0, 90],
      [45, -45],
      [0, 45],
    ] as const
  ).map((degrees) => {
    const angles = degrees.map(radiansFromDegrees);
    const expected = laminateModulus(angles);
    return {
      id: `lining.laid-${degrees.join('-and-')}`,
      source:
        'Classical lamination theory, membrane part: A = sum of turned Q, E = 1 / (A^-1)11; E1 300, E2 150, nu12 0.3, G 60 N/m',
      expected,
      got: stripModulus(angles),
      unit: 'N/m',
      tolerance: 0.02 * expected,
    };
  });
  return [...single, ...double];
}

/**
 * Force per width over extension of linings that lie over each other, pulled along x and free to narrow and to skew:
 * a square of two triangles in the homogeneous shape x -> ((1 + e) x + s y, (1 + w) y), with w and s sought where the
 * energy is least.
 */
function stripModulus(angles: readonly number[]): number {
  const square: RestShape = { restInverse: new Float64Array(8), restArea: new Float64Array(2) };
  setRestShape({ ax: 1, ay: 0, bx: 1, by: 1 }, 0, square);
  setRestShape({ ax: 1, ay: 1, bx: 0, by: 1 }, 1, square);
  const level: ClothLevel = {
    mesh: {
      positions: Float64Array.from([0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0]),
      triangles: Uint32Array.from([0, 1, 2, 0, 2, 3]),
    },
    ...square,
    parents: new Uint32Array(0),
    edgeVertex: new Uint8Array(4).fill(1),
  };
  const law = orthotropicLaw();
  const forces = angles.map((angle) =>
    liningForce(level, { fabric: 0, triangles: Uint32Array.from([0, 1]), ...turnedGrain(square, -angle) }, [
      law,
    ]),
  );
  // Derivatives of the energy after (e, w, s), by the chain rule through the corners.
  const pull = ([e, w, s]: readonly [number, number, number]): [number, number, number] => {
    const positions = Float64Array.from([0, 0, 0, 1 + e, 0, 0, 1 + e + s, 1 + w, 0, s, 1 + w, 0]);
    const gradient = new Float64Array(12);
    for (const force of forces) force.addGradient(positions, gradient);
    return [gradient[3]! + gradient[6]!, gradient[7]! + gradient[10]!, gradient[6]! + gradient[9]!];
  };
  let w = 0;
  let s = 0;
  for (let i = 0; i < 30; i++) {
    const h = 1e-6;
    const [, gw, gs] = pull([EXTENSION, w, s]);
    const [, ww, sw] = pull([EXTENSION, w + h, s]);
    const [, ws, ss] = pull([EXTENSION, w, s + h]);
    const a = (ww - gw) / h;
    const b = (ws - gw) / h;
    const c = (sw - gs) / h;
    const d = (ss - gs) / h;
    const determinant = a * d - b * c;
    w -= (d * gw - b * gs) / determinant;
    s -= (a * gs - c * gw) / determinant;
  }
  return pull([EXTENSION, w, s])[0] / EXTENSION;
}

/** 1 / (A^-1)11 of plies on each other, A the sum of their turned stiffnesses; N/m. */
function laminateModulus(angles: readonly number[]): number {
  const { along, across, narrowing, shear } = ORTHOTROPIC;
  const less = 1 - (narrowing * narrowing * across) / along;
  const q11 = along / less;
  const q22 = across / less;
  const q12 = narrowing * q22;
  const sum = { a11: 0, a12: 0, a22: 0, a16: 0, a26: 0, a66: 0 };
  for (const angle of angles) {
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    const mixed = q12 + 2 * shear;
    sum.a11 += q11 * c ** 4 + 2 * mixed * c * c * s * s + q22 * s ** 4;
    sum.a22 += q11 * s ** 4 + 2 * mixed * c * c * s * s + q22 * c ** 4;
    sum.a12 += (q11 + q22 - 4 * shear) * c * c * s * s + q12 * (c ** 4 + s ** 4);
    sum.a66 += (q11 + q22 - 2 * q12 - 2 * shear) * c * c * s * s + shear * (c ** 4 + s ** 4);
    sum.a16 += (q11 - q12 - 2 * shear) * c ** 3 * s - (q22 - q12 - 2 * shear) * c * s ** 3;
    sum.a26 += (q11 - q12 - 2 * shear) * c * s ** 3 - (q22 - q12 - 2 * shear) * c ** 3 * s;
  }
  // With no force across and no shear the strip's stiffness is det A / det of A without its first row and column.
  const { a11, a12, a22, a16, a26, a66 } = sum;
  const rest = a22 * a66 - a26 * a26;
  return a11 - (a12 * (a12 * a66 - a26 * a16) - a16 * (a12 * a26 - a22 * a16)) / rest;
}
