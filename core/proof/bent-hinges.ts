import { rollingRigidity, type BendingTensor } from '../equilibrium/bending-force.ts';
import type { FlatSheet } from '../equilibrium/curvature-patches.ts';
import { hingeBending } from '../equilibrium/hinge-bending.ts';
import { elasticaUnderLoad } from '../fabric/heavy-elastica.ts';
import { evenColumns, stripMesh } from '../swatch/strip-mesh.ts';
import { radiansFromDegrees, STANDARD_GRAVITY } from '../units/units.ts';
import type { Check } from './check.ts';
import { flatCloth } from './flat-cloth.ts';
import { hang } from './hung-cloth.ts';

/** kg/m^2. */
const AREAL_DENSITY = 0.21;

/** Cloth that bends as garments bend, at hinges, against the plate and the heavy elastica. */
export function bentHingeChecks(): Check[] {
  return [...rolled(), ...ridge()];
}

/**
 * A cloth rolled up round a bar: the energy of its hinges against the plate's, B / (2 R^2) per area, along the warp,
 * along the weft and askew, on an irregular mesh.
 */
function rolled(): Check[] {
  const tensor: BendingTensor = { warp: 2e-5, weft: 0.5e-5, twist: 0.4e-5 };
  const radius = 0.1;
  const side = 0.2;
  const sheet = irregularSquare(side, 48);
  return [0, 30, 45, 90].map((degrees) => {
    const angle = radiansFromDegrees(degrees);
    const level = flatCloth(sheet, (u, v) => {
      const round = (u * Math.cos(angle) + v * Math.sin(angle)) / radius;
      return [
        radius * Math.sin(round),
        radius * (1 - Math.cos(round)),
        v * Math.cos(angle) - u * Math.sin(angle),
      ];
    });
    const { positions } = level.mesh;
    const energy = hingeBending(level, tensor).addGradient(positions, new Float64Array(positions.length));
    const expected = 1e6 * (rollingRigidity(tensor, angle) / (2 * radius * radius)) * side * side;
    return {
      id: `hinges.rolled-${degrees}`,
      source:
        'Plate rolled to a cylinder: B(angle)/(2 R^2) per area, B = D11 c^4 + D22 s^4 + 4 D66 c^2 s^2; R 100 mm. Along free edges the curvature across them is left out: 3 %',
      expected,
      got: 1e6 * energy,
      unit: 'uJ',
      tolerance: 0.03 * expected,
    };
  });
}

/** Between -0.25 and 0.25, without order. */
const wave = (seed: number): number => 0.25 * Math.sin(12.9898 * seed + 4 * Math.sin(78.233 * seed));

/** A square of right-angled cells whose inner corners are moved about; m. */
function irregularSquare(side: number, cells: number): FlatSheet {
  const flat = new Float64Array(2 * (cells + 1) ** 2);
  const triangles: number[] = [];
  for (let row = 0; row <= cells; row++) {
    for (let column = 0; column <= cells; column++) {
      const v = row * (cells + 1) + column;
      const inner = row % cells !== 0 && column % cells !== 0;
      flat[2 * v] = (side * (column + (inner ? wave(v) : 0))) / cells;
      flat[2 * v + 1] = (side * (row + (inner ? wave(v + 0.5) : 0))) / cells;
      if (row === cells || column === cells) continue;
      const up = v + cells + 1;
      if ((row + column) % 2 === 0) triangles.push(v, v + 1, up + 1, v, up + 1, up);
      else triangles.push(v, v + 1, up, v + 1, up + 1, up);
    }
  }
  return { flat, triangles: Uint32Array.from(triangles) };
}

/** Strips laid over a ridge, which hang on both sides as a cantilever does; started as arcs of about the right turn. */
function ridge(): Check[] {
  const rigidity = 5e-6;
  const width = 0.02;
  const rows = 12;
  return (
    [
      [1, 0.16],
      [2, 0.3],
      [8, 1.2],
    ] as const
  ).flatMap(([load, turn]): Check[] => {
    const length = Math.cbrt((load * rigidity) / (AREAL_DENSITY * STANDARD_GRAVITY));
    const columns = evenColumns(length, width, rows);
    const size = { overhang: 2 * length, width, angle: 0, hangingRows: 2 * rows, lyingRows: 0, columns };
    const sheet = stripMesh(size);
    const level = flatCloth(sheet, (u, v) => {
      const angle = (turn * (u - length)) / length;
      return [(length / turn) * Math.sin(angle), (length / turn) * (Math.cos(angle) - 1), v];
    });
    const { positions } = hang(level, {
      arealDensity: AREAL_DENSITY,
      stiffness: 400,
      bending: { warp: rigidity, weft: rigidity, twist: rigidity / 2 },
      held: (v) => Math.abs(sheet.along[2 * v]! - length) < 1e-9,
    });
    const tip = positions.length - 3 * Math.ceil((columns + 1) / 2);
    const { tipForward, tipDown } = elasticaUnderLoad(load);
    const common = {
      source: 'Heavy elastica B th" = -w (L - s) cos th (Bickley 1934), clamped by symmetry; 1 % of length',
      unit: '1',
      tolerance: 0.01,
    };
    return [
      {
        id: `hinges.tip-forward-${load}`,
        expected: tipForward,
        got: positions[tip]! / length,
        ...common,
      },
      {
        id: `hinges.tip-down-${load}`,
        expected: tipDown,
        got: -positions[tip + 1]! / length,
        ...common,
      },
    ];
  });
}
