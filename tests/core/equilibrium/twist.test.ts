import { describe, expect, it } from 'vitest';
import type { DistanceField } from '../../../core/body/distance-field.ts';
import { settle } from '../../../core/equilibrium/settle.ts';
import { onRing, proofTube } from '../../../core/proof/proof-tube.ts';
import { torsoFabric } from '../../help/torso-case.ts';

const RADIUS = 0.1;
const HEIGHT = 0.3;

/** A skin that is nowhere near. */
const nowhere: DistanceField = {
  sample: (_x, _y, _z, into) => {
    into.fill(0);
    into[0] = 1;
    into[1] = 1;
  },
};

/** A tube stretched by a tenth between two held rings, the upper one turned, with nothing inside. */
function twisted(degrees: number, halvings: number) {
  const levels = proofTube({
    rowCount: 5,
    columnCount: 8,
    halvings,
    place: (around, along) => onRing(RADIUS, HEIGHT * along, around + (degrees / 360) * along),
    relaxed: { girth: 2 * Math.PI * RADIUS, length: HEIGHT / 1.1 },
  });
  const held = levels.map(({ mesh, edgeVertex }) =>
    Uint8Array.from(mesh.positions, (_, i) => edgeVertex[Math.floor(i / 3)]!),
  );
  const foundation = levels.map(({ edgeVertex }) => new Float64Array(edgeVertex.length));
  const search = settle({ levels, laws: [torsoFabric()], body: nowhere, foundation, friction: 0, held });
  let steps = 0;
  let step = search.next();
  for (; !step.done; step = search.next()) steps++;
  return { rest: step.value, steps };
}

describe('a twisted tube that nothing holds up', () => {
  it.each([5, 10])('comes to rest at %d degrees', (degrees) => {
    const { rest } = twisted(degrees, 2);
    expect(rest.atRest).toBe(true);
    expect(rest.residual).toBeLessThanOrEqual(1e-4);
  });

  it('where shear wrinkles do not settle, ends in bounded steps and says what is left', () => {
    const { rest, steps } = twisted(20, 3);
    expect(steps).toBeLessThan(200);
    expect(rest.positions.every(Number.isFinite)).toBe(true);
    expect(Number.isFinite(rest.residual)).toBe(true);
    expect(rest.atRest).toBe(rest.residual <= rest.tolerance);
  });
});
