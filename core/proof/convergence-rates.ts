import { elasticaUnderLoad } from '../fabric/heavy-elastica.ts';
import { evenColumns, stripMesh } from '../swatch/strip-mesh.ts';
import { STANDARD_GRAVITY } from '../units/units.ts';
import type { Check } from './check.ts';
import { flatCloth } from './flat-cloth.ts';
import { hang } from './hung-cloth.ts';
import { ovalMiss, settleOvalTube } from './oval-tube.ts';
import { coneTube, REVOLVED_CELLS, waistTube } from './revolved-tubes.ts';
import { innerRows, spread } from './settled-tube.ts';
import { compareTube, expectedRest } from './tube-of-revolution.ts';
import { pressureOnHardBar, settledBar } from './tube-sizes.ts';

/** The order that linear triangles promise: halve the edge and a quarter of the error is left. */
const ORDER = 2;
const SOFT = 0.5e6;

/** An error that must shrink with the edge. */
interface Shrinking {
  readonly id: string;
  readonly what: string;
  readonly source: string;
  /** The error on a mesh whose edges have been halved so often. */
  readonly error: (halvings: number) => number;
  /** Halvings of the coarsest of the meshes. */
  readonly from: number;
  readonly tolerance: number;
}

/** How fast the error falls when the edges are halved three times: log2 of the error's ratio, a halving on the mean. */
export function* convergenceRates(): Generator<void, Check[]> {
  const checks: Check[] = [];
  for (const { id, what, source, error, from, tolerance } of [bar(), oval(), cone(), waist(), bent()]) {
    const errors: number[] = [];
    for (const halvings of [from, from + 1, from + 2, from + 3]) {
      errors.push(Math.abs(error(halvings)));
      yield;
    }
    checks.push({
      id: `rate.${id}`,
      what: `order of the error, ${what}`,
      source: `${source}; linear triangles: order 2; errors ${errors.map((one) => one.toPrecision(2)).join(', ')}`,
      expected: ORDER,
      got: Math.log2(errors[0]! / errors[3]!) / 3,
      unit: 'order',
      tolerance,
    });
  }
  return checks;
}

function bar(): Shrinking {
  const radius = 0.07;
  const expected = pressureOnHardBar(radius);
  return {
    id: 'bar',
    what: 'pressure on a round bar',
    source: 'Laplace on a bar that gives way by a hair; all vertices, root-mean-square',
    error: (halvings) => {
      const tube = settledBar(radius, 16 * 2 ** halvings);
      return spread(innerRows(tube, tube.pressure), expected) / expected;
    },
    from: 1,
    tolerance: 0.1,
  };
}

function oval(): Shrinking {
  return {
    id: 'oval',
    what: 'pressure on an oval bar',
    source: 'Laplace on an ellipse of 150 x 100 mm; all vertices, root-mean-square',
    error: (halvings) => {
      const tube = {
        a: 0.15,
        b: 0.1,
        tension: 60,
        stiffness: 600,
        height: 0.08,
        columns: 16 * 2 ** halvings,
        rows: 8,
      };
      return ovalMiss(tube, settleOvalTube(tube));
    },
    from: 0,
    tolerance: 0.3,
  };
}

const REVOLVED = 'Independent solver for membranes of revolution, 1536 pieces';

function cone(): Shrinking {
  const tube = coneTube(SOFT);
  const expected = expectedRest(tube);
  return {
    id: 'cone',
    what: 'pressure on a soft cone',
    source: REVOLVED,
    error: (halvings) => compareTube(tube, expected, { ...REVOLVED_CELLS, halvings }).pressureMiss,
    from: 2,
    tolerance: 0.3,
  };
}

function waist(): Shrinking {
  const tube = waistTube(SOFT);
  const expected = expectedRest(tube);
  return {
    id: 'waist-gap',
    what: 'gap at a waist',
    source: REVOLVED,
    error: (halvings) => {
      const { gap, expectedGap } = compareTube(tube, expected, { ...REVOLVED_CELLS, halvings });
      return gap - expectedGap;
    },
    from: 2,
    tolerance: 0.3,
  };
}

/** A strip laid over a ridge. */
function bent(): Shrinking {
  const load = 2;
  const rigidity = 5e-6;
  const arealDensity = 0.21;
  const width = 0.02;
  const turn = 0.3;
  const length = Math.cbrt((load * rigidity) / (arealDensity * STANDARD_GRAVITY));
  return {
    id: 'bending',
    what: 'fall of a bent strip’s tip',
    source: 'Heavy elastica B th" = -w (L - s) cos th (Bickley 1934), clamped by symmetry',
    error: (halvings) => {
      const rows = 2 * 2 ** halvings;
      const columns = evenColumns(length, width, rows);
      const sheet = stripMesh({
        overhang: 2 * length,
        width,
        angle: 0,
        hangingRows: 2 * rows,
        lyingRows: 0,
        columns,
      });
      const level = flatCloth(sheet, (u, v) => {
        const angle = (turn * (u - length)) / length;
        return [(length / turn) * Math.sin(angle), (length / turn) * (Math.cos(angle) - 1), v];
      });
      const { positions } = hang(level, {
        arealDensity,
        stiffness: 400,
        bending: { warp: rigidity, weft: rigidity, twist: rigidity / 2 },
        held: (v) => Math.abs(sheet.along[2 * v]! - length) < 1e-9,
      });
      const tip = positions.length - 3 * Math.ceil((columns + 1) / 2);
      return -positions[tip + 1]! / length - elasticaUnderLoad(load).tipDown;
    },
    from: 0,
    tolerance: 0.3,
  };
}
