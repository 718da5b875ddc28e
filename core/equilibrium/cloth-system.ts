import { setVertexAreas } from '../mesh/vertex-areas.ts';
import { clothForces } from './cloth-forces.ts';
import { cutHeld } from './block-matrix.ts';
import {
  addContactGradient,
  addContactStiffness,
  sampleSkin,
  SAMPLE_SIZE,
  type Contact,
} from './contact-force.ts';
import type { EquilibriumProblem } from './equilibrium.ts';
import type { Force } from './force.ts';
import { leastForce, residualOf } from './force-balance.ts';
import { addFrictionGradient, addFrictionStiffness, type Friction } from './friction-force.ts';
import { addMembraneGradient, addMembraneStiffness, membraneRoom, type Membrane } from './membrane-force.ts';
import { updateMultigrid, type Multigrid } from './multigrid.ts';
import type { PreparedCloth } from './prepare-cloth.ts';

/** The equations of one level: every force on every vertex, and what they sum to where the cloth is now. */
export interface ClothSystem {
  readonly membrane: Membrane;
  readonly contact: Contact;
  /** Whatever else pulls at the cloth. */
  readonly others: readonly Force[];
  /** Null where cloth slides freely. */
  readonly friction: Friction | null;
  /** 1 where a coordinate is held; 3*V, or null where none is. */
  readonly held: Uint8Array | null;
  readonly multigrid: Multigrid;
  /** Index of this level in the hierarchy. */
  readonly top: number;
  /** Where each triangle's 9x9 goes. */
  readonly blocks: Uint32Array;
  /** Stiffness per area that damps a Newton step but is no force, Pa/m; raised while steps turn out too long. */
  readonly proximal: { now: number; readonly least: number };
  readonly leastForce: number;
  /** Where the cloth is now; 3*V, m. */
  readonly positions: Float64Array;
  /** Sum of all forces there with its sign turned: the derivative of the energy, N; 3*V. */
  readonly gradient: Float64Array;
  /** The part of the gradient that the skin has nothing to do with, N; 3*V. */
  readonly clothGradient: Float64Array;
  /** What one evaluation leaves. */
  readonly pull: { energy: number; cornerForceSquared: number };
  readonly other: { energy: number };
  readonly push: { energy: number; forceSquared: number };
  readonly sum: { energy: number; residual: number };
}

/**
 * Cloth that slides freely may turn round the body without any resistance. A stiffness of this share of the cloth's own
 * over its area keeps the steps' equations solvable and the cloth from wandering; it is no force, so it moves no result.
 */
const PROXIMAL_SHARE = 1e-4;

/**
 * Coarse levels made by decimation, which only lead the way, have at least this friction: cloth free to slide would creep
 * along the unevenness of such a mesh and give the finest a start gone astray.
 */
const LEADING_FRICTION = 0.02;

/** Sets up one level; `positions` are where it starts, and are moved by the search. */
export function clothSystem(
  problem: EquilibriumProblem,
  { multigrid, blocks }: PreparedCloth,
  top: number,
  positions: Float64Array,
): ClothSystem {
  const level = problem.levels[top]!;
  const vertexCount = positions.length / 3;
  const held = problem.held?.[top];
  const area = level.restArea.reduce((sum, one) => sum + one, 0);
  const { typicalStiffness } = problem.laws[0]!;
  const proximal = (PROXIMAL_SHARE * typicalStiffness) / area;
  // Coarse levels only lead the way: the skin's own movement is looked at on the finest.
  const isFinest = top === problem.levels.length - 1;
  const offset = isFinest ? problem.offset : undefined;
  const leading = !isFinest && problem.levels[top + 1]!.parentWeights ? LEADING_FRICTION : 0;
  const friction = Math.max(problem.friction, leading);
  const system: ClothSystem = {
    membrane: { level, laws: problem.laws, room: membraneRoom() },
    contact: {
      body: problem.body,
      foundation: problem.foundation[top]!,
      area: new Float64Array(vertexCount),
      offset: offset ?? new Float64Array(vertexCount),
      lift: problem.lift ?? 0,
      samples: new Float64Array(SAMPLE_SIZE * vertexCount),
    },
    others: clothForces(problem, level),
    friction:
      friction > 0
        ? {
            coefficient: friction,
            anchor: level.mesh.positions,
            normalForce: new Float64Array(vertexCount),
            normal: new Float64Array(3 * vertexCount),
          }
        : null,
    held: held?.some((one) => one !== 0) ? held : null,
    multigrid,
    top,
    blocks: blocks[top]!,
    proximal: { now: proximal, least: proximal },
    leastForce: leastForce(typicalStiffness, level.restArea),
    positions,
    gradient: new Float64Array(3 * vertexCount),
    clothGradient: new Float64Array(3 * vertexCount),
    other: { energy: 0 },
    pull: { energy: 0, cornerForceSquared: 0 },
    push: { energy: 0, forceSquared: 0 },
    sum: { energy: 0, residual: 0 },
  };
  updateAreas(system);
  return system;
}

/** Takes the vertices' areas from where the cloth is now. */
export function updateAreas({ membrane, contact, positions }: ClothSystem): void {
  setVertexAreas(membrane.level.mesh.triangles, positions, contact.area);
}

/** Energy, gradient and residual at some positions; what the system holds of them is overwritten. */
export function evaluate(system: ClothSystem, positions: Float64Array): void {
  const { membrane, contact, others, clothGradient, pull, other } = system;
  sampleSkin(contact, positions);
  clothGradient.fill(0);
  addMembraneGradient(membrane, positions, { gradient: clothGradient, pull });
  other.energy = 0;
  for (const force of others) other.energy += force.addGradient(positions, clothGradient);
  addSkin(system, positions);
}

/** The same where the cloth was evaluated last, after only its contact areas or the friction's normal forces changed. */
export function evaluateSkin(system: ClothSystem): void {
  addSkin(system, system.positions);
}

function addSkin(system: ClothSystem, positions: Float64Array): void {
  const { contact, friction, held, gradient, clothGradient, pull, push, other, sum } = system;
  gradient.set(clothGradient);
  addContactGradient(contact, { gradient, push });
  const rubbing = friction ? addFrictionGradient(friction, positions, { gradient }) : 0;
  if (held) for (let i = 0; i < held.length; i++) if (held[i]) gradient[i] = 0;
  sum.energy = pull.energy + push.energy + other.energy + rubbing;
  sum.residual = residualOf(gradient, {
    contactSquared: push.forceSquared,
    cornerSquared: pull.cornerForceSquared,
    least: system.leastForce,
  });
}

/**
 * Second derivatives at the system's own positions, on all levels of the hierarchy. The body's samples must be those
 * of the same positions.
 *
 * @param exact - False drops what could make them negative: surer far from rest, slower near it.
 * @returns False where they are not positive definite, which only exact ones can be.
 */
export function assemble(system: ClothSystem, exact: boolean): boolean {
  const { membrane, contact, others, friction, held, multigrid, top, blocks, positions, proximal } = system;
  const { matrix } = multigrid.levels[top]!;
  const { values, pattern } = matrix;
  values.fill(0);
  addMembraneStiffness(membrane, positions, exact, { blocks, values });
  addContactStiffness(contact, exact, pattern.diagonal, values);
  if (friction) addFrictionStiffness(friction, positions, pattern.diagonal, values);
  for (const force of others) force.addStiffness(positions, exact, matrix);
  for (let v = 0; v < contact.area.length; v++) {
    const at = 9 * pattern.diagonal[v]!;
    for (let i = 0; i < 9; i += 4) values[at + i]! += proximal.now * contact.area[v]!;
  }
  if (held) cutHeld(matrix, held);
  return updateMultigrid(multigrid, top);
}
