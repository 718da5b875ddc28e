import { discLevels } from '../swatch/disc-mesh.ts';
import { stripMesh } from '../swatch/strip-mesh.ts';
import { STANDARD_GRAVITY } from '../units/units.ts';
import type { Check } from './check.ts';
import { flatCloth } from './flat-cloth.ts';
import { hang } from './hung-cloth.ts';
import { mean } from './settled-tube.ts';

/** N/m. */
const STIFFNESS = 250;
/** kg/m^2. */
const AREAL_DENSITY = 0.21;

/** Cloth under its own weight with nothing under it: bridging, spanned over a ring, hanging. */
export function hangingClothChecks(): Check[] {
  return [bridge(), disc(), ...hanging()];
}

/** A strip that bridges a hollow, stretched until it pulls with 30 N/m. */
function bridge(): Check {
  const span = 0.12;
  const tension = 30;
  const rows = 24;
  const stretch = 1 + tension / STIFFNESS;
  const size = { overhang: span / stretch, width: 0.02, angle: 0, hangingRows: rows, lyingRows: 0 };
  const sheet = stripMesh({ ...size, columns: 4 });
  const level = flatCloth(sheet, (u, v) => [stretch * u, 0, v]);
  const { positions } = hang(level, {
    arealDensity: AREAL_DENSITY * stretch,
    stiffness: STIFFNESS,
    held: (v) => sheet.along[2 * v]! < 1e-9 || sheet.along[2 * v]! > size.overhang - 1e-9,
  });
  const middle = positions.filter((_, i) => {
    const v = Math.floor(i / 3);
    return i % 3 === 1 && Math.abs(sheet.along[2 * v]! - size.overhang / 2) < 1e-9;
  });
  const expected = (1000 * AREAL_DENSITY * STANDARD_GRAVITY * span * span) / (8 * tension);
  return {
    id: 'hanging.bridge-sag',
    source: 'Own-weight sag of a taut strip q L^2/(8 T); 210 g/m2 as stretched, L 120 mm, T 30 N/m',
    expected,
    got: -1000 * mean(middle),
    unit: 'mm',
    tolerance: 0.01 * expected,
  };
}

/** A cloth stretched alike all ways over a ring, loaded by so much of its own weight that it acts as a pressure. */
function disc(): Check {
  const radius = 0.05;
  const tension = 50;
  const pressure = 50;
  // Tension over the stretched width: K (l - 1) / l.
  const stretch = 1 / (1 - tension / STIFFNESS);
  const rest = radius / stretch;
  const { outline, ...sheet } = discLevels({ radius: rest, rim: rest / 2 }, 500, 400).at(-1)!;
  const rim = new Set(outline);
  const level = flatCloth(sheet, (u, v) => [stretch * u, 0, stretch * v]);
  const { positions } = hang(level, {
    // A unit of unstretched cloth lies over stretch^2 of the ring.
    arealDensity: (pressure * stretch * stretch) / STANDARD_GRAVITY,
    stiffness: STIFFNESS,
    held: (v) => rim.has(v),
  });
  const expected = (1000 * pressure * radius * radius) / (4 * tension);
  return {
    id: 'hanging.disc-sag',
    source: 'Membrane over a ring under even load P a^2/(4 T), slopes small; P 50 Pa, a 50 mm, T 50 N/m',
    expected,
    got: -1000 * positions[1]!,
    unit: 'mm',
    tolerance: 0.02 * expected,
  };
}

/** A strip that hangs from its upper end: at every height it carries what hangs below. */
function hanging(): Check[] {
  const length = 0.3;
  const rows = 30;
  const sheet = stripMesh({
    overhang: length,
    width: 0.04,
    angle: 0,
    hangingRows: rows,
    lyingRows: 0,
    columns: 4,
  });
  const level = flatCloth(sheet, (u, v) => [v, -u, 0]);
  const density = 2;
  const { positions } = hang(level, {
    arealDensity: density,
    stiffness: STIFFNESS,
    held: (v) => sheet.along[2 * v]! < 1e-9,
  });
  const weight = density * STANDARD_GRAVITY;
  const middleOf = (u: number): number => {
    let nearest = 0;
    for (let v = 0; 2 * v < sheet.along.length; v++) {
      const miss = (w: number) => Math.hypot(sheet.along[2 * w]! - u, sheet.along[2 * w + 1]!);
      if (miss(v) < miss(nearest)) nearest = v;
    }
    return nearest;
  };
  const pulledAt = (u: number): number => {
    const step = (2 * length) / rows;
    const upper = middleOf(u - step);
    const lower = middleOf(u + step);
    const apart = sheet.along[2 * lower]! - sheet.along[2 * upper]!;
    return STIFFNESS * ((positions[3 * upper + 1]! - positions[3 * lower + 1]!) / apart - 1);
  };
  const source = 'A hanging strip: tension = weight below per width; 2 kg/m2, 300 mm long';
  const ends = [0.1, 0.5].map((share) => {
    const expected = weight * length * (1 - share);
    return {
      id: `hanging.strip.tension-at-${share}`,
      source,
      expected,
      got: pulledAt(share * length),
      unit: 'N/m',
      tolerance: 0.01 * expected,
    };
  });
  const longer = (1e3 * weight * length * length) / (2 * STIFFNESS);
  return [
    ...ends,
    {
      id: 'hanging.strip.longer',
      source: 'A hanging strip grows by M g L^2/(2 K); 2 kg/m2, L 300 mm, K 250 N/m',
      expected: longer,
      got: -1e3 * (positions[3 * middleOf(length) + 1]! + length),
      unit: 'mm',
      tolerance: 0.01 * longer,
    },
  ];
}
