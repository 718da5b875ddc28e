import { setVertexAreas } from '../mesh/vertex-areas.ts';
import type { DistanceField } from '../body/distance-field.ts';
import {
  addBendingGradient,
  addBendingStiffness,
  createBending,
  type Bending,
  type BendingTensor,
} from './bending-force.ts';
import { cutHeld, zeroMatrix, type BlockMatrix } from './block-matrix.ts';
import {
  addContactGradient,
  addContactStiffness,
  sampleSkin,
  SAMPLE_SIZE,
  type Contact,
  type ContactPush,
} from './contact-force.ts';
import type { FlatSheet } from './curvature-patches.ts';
import {
  addPlaneGradient,
  addPlaneStiffness,
  createPlane,
  type Plane,
  type PlaneStiffness,
} from './plane-force.ts';
import { addWeightGradient, vertexWeights } from './weight-force.ts';

/** A flat sheet that stretches, bends and weighs. */
export interface SheetProblem {
  readonly sheet: FlatSheet;
  readonly plane: PlaneStiffness;
  readonly bending: BendingTensor;
  /** kg/m^2. */
  readonly arealDensity: number;
  /** What it lies on, and how hard that is (Pa/m); null where it touches nothing. */
  readonly support: { readonly body: DistanceField; readonly foundation: number } | null;
  /** 1 where a coordinate is held at its start; 3*V. */
  readonly held: Uint8Array;
}

/** The equations of a sheet: every force on every vertex, and what they sum to where it is now. */
export interface SheetSystem {
  readonly plane: Plane;
  readonly bending: Bending;
  /** N; V. */
  readonly weights: Float64Array;
  readonly contact: Contact | null;
  readonly held: Uint8Array;
  readonly matrix: BlockMatrix;
  /** Area each vertex stands for on the flat sheet, m^2; V. */
  readonly area: Float64Array;
  /** Root-sum-square of the weights of vertices that are not held, N. */
  readonly scale: number;
  /** Where the sheet is now; 3*V, m. */
  readonly positions: Float64Array;
  /** Derivative of the energy there, N; 3*V; 0 where held. */
  readonly gradient: Float64Array;
  readonly push: ContactPush;
  readonly sum: { energy: number; residual: number };
}

/** Sets a sheet up; `positions` are where it starts, and are moved by the search. */
export function sheetSystem(problem: SheetProblem, positions: Float64Array): SheetSystem {
  const { sheet, held, support } = problem;
  const vertexCount = positions.length / 3;
  const bending = createBending(sheet, problem.bending, held);
  const plane = createPlane(sheet, problem.plane, bending.pattern);
  const weights = vertexWeights(sheet.triangles, plane.restArea, problem.arealDensity);
  const area = flatVertexAreas(sheet);
  return {
    plane,
    bending,
    weights,
    contact: support && {
      body: support.body,
      foundation: new Float64Array(vertexCount).fill(support.foundation),
      area,
      offset: new Float64Array(vertexCount),
      lift: 0,
      samples: new Float64Array(SAMPLE_SIZE * vertexCount),
    },
    held,
    matrix: zeroMatrix(bending.pattern),
    area,
    scale: Math.sqrt(weights.reduce((sum, w, v) => sum + (held[3 * v + 1] ? 0 : w * w), 0)),
    positions,
    gradient: new Float64Array(3 * vertexCount),
    push: { energy: 0, forceSquared: 0 },
    sum: { energy: 0, residual: 0 },
  };
}

function flatVertexAreas({ flat, triangles }: FlatSheet): Float64Array {
  const positions = new Float64Array((3 * flat.length) / 2);
  for (let v = 0; 2 * v < flat.length; v++) positions.set(flat.subarray(2 * v, 2 * v + 2), 3 * v);
  const areas = new Float64Array(flat.length / 2);
  setVertexAreas(triangles, positions, areas);
  return areas;
}

/** Energy, gradient and residual at some positions; what the system holds of them is overwritten. */
export function evaluateSheet(system: SheetSystem, positions: Float64Array): void {
  const { plane, bending, weights, contact, held, gradient, push, sum } = system;
  gradient.fill(0);
  push.energy = 0;
  let energy = addPlaneGradient(plane, positions, gradient);
  energy += addBendingGradient(bending, positions, gradient);
  energy += addWeightGradient(weights, positions, gradient);
  if (contact) {
    sampleSkin(contact, positions);
    addContactGradient(contact, { gradient, push });
  }
  let squared = 0;
  for (let i = 0; i < held.length; i++) {
    if (held[i]) gradient[i] = 0;
    squared += gradient[i]! ** 2;
  }
  sum.energy = energy + push.energy;
  sum.residual = Math.sqrt(squared) / system.scale;
}

/**
 * Second derivatives at the system's own positions, which must be evaluated.
 *
 * @param exact - False drops what could make them negative.
 * @param damping - Added stiffness per area, Pa/m.
 */
export function assembleSheet(system: SheetSystem, exact: boolean, damping: number): void {
  const { plane, bending, contact, held, matrix, area, positions } = system;
  const { values, pattern } = matrix;
  values.fill(0);
  addPlaneStiffness(plane, positions, exact, matrix);
  addBendingStiffness(bending, matrix);
  if (contact) addContactStiffness(contact, exact, pattern.diagonal, values);
  for (let v = 0; v < area.length; v++) {
    const at = 9 * pattern.diagonal[v]!;
    for (let i = 0; i < 3; i++) values[at + 4 * i]! += damping * area[v]! + (held[3 * v + i] ? 1 : 0);
  }
  cutHeld(matrix, held);
}
