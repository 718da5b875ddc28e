import type { EquilibriumProblem, Equilibrium } from '../equilibrium/equilibrium.ts';
import { settle } from '../equilibrium/settle.ts';
import { lawFromStrips } from '../fabric/law-from-strips.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import type { ClothLevel } from '../garment/garment.ts';
import { vertexAreas } from '../mesh/vertex-areas.ts';

/** A problem with one foundation stiffness everywhere. */
export type UniformProblem = Omit<EquilibriumProblem, 'foundation'> & { readonly foundation: number };

/** A tube that has come to rest, with what the closed forms speak of. */
export interface SettledTube {
  readonly level: ClothLevel;
  readonly equilibrium: Equilibrium;
  /** Vertices of one ring. */
  readonly columnCount: number;
  /** Force of the body across the skin over the current area of the cloth round each vertex, Pa; V. */
  readonly pressure: Float64Array;
  /** The same for the part along the skin. */
  readonly shear: Float64Array;
}

/** Force proportional to extension, T = stiffness * (stretch - 1) along either yarn, no narrowing; N/m. */
export const linearLaw = (stiffness: number): TensionLaw =>
  lawFromStrips({
    warp: { load: [[3, 2 * stiffness]] },
    weft: { load: [[3, 2 * stiffness]] },
    shear: { modulus: stiffness / 3 },
  });

/** Lets a tube settle and reads its pressures. */
export function settleTube(problem: UniformProblem, columnCount: number): SettledTube {
  const foundation = problem.levels.map(({ mesh }) =>
    new Float64Array(mesh.positions.length / 3).fill(problem.foundation),
  );
  const search = settle({ ...problem, foundation });
  let step = search.next();
  while (!step.done) step = search.next();
  const equilibrium = step.value;
  const level = problem.levels.at(-1)!;
  const { positions, contactForce } = equilibrium;
  const areas = vertexAreas({ positions, triangles: level.mesh.triangles });
  const pressure = new Float64Array(areas.length);
  const shear = new Float64Array(areas.length);
  const sample = new Float64Array(10);
  for (let v = 0; v < areas.length; v++) {
    problem.body.sample(positions[3 * v]!, positions[3 * v + 1]!, positions[3 * v + 2]!, sample);
    const slope = Math.hypot(sample[1]!, sample[2]!, sample[3]!);
    let normal = 0;
    let squared = 0;
    for (let k = 0; k < 3; k++) {
      const force = contactForce[3 * v + k]!;
      normal += (force * sample[1 + k]!) / slope;
      squared += force * force;
    }
    pressure[v] = normal / areas[v]!;
    shear[v] = Math.sqrt(Math.max(0, squared - normal * normal)) / areas[v]!;
  }
  return { level, equilibrium, columnCount, pressure, shear };
}

/** Hem rows left out of comparisons: what area belongs to a free edge is a matter of convention. */
const EDGE_ROWS = 2;

/** The values on the rows away from both hems. */
export const innerRows = ({ columnCount }: SettledTube, values: Float64Array): Float64Array =>
  values.subarray(EDGE_ROWS * columnCount, values.length - EDGE_ROWS * columnCount);

export const mean = (values: Float64Array): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Root-mean-square departure from a value. */
export const spread = (values: Float64Array, about: number): number =>
  Math.sqrt(values.reduce((sum, value) => sum + (value - about) ** 2, 0) / values.length);

/** Mean over one ring. */
export const rowMean = ({ columnCount }: SettledTube, values: Float64Array, row: number): number =>
  mean(values.subarray(row * columnCount, (row + 1) * columnCount));

/** Mean over one column, hem rows left out. */
export function columnMean(tube: SettledTube, values: Float64Array, column: number): number {
  const inner = innerRows(tube, values);
  let sum = 0;
  for (let i = column; i < inner.length; i += tube.columnCount) sum += inner[i]!;
  return (sum * tube.columnCount) / inner.length;
}
