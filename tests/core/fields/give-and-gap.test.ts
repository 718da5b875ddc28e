import { describe, expect, it } from 'vitest';
import { clothPull } from '../../../core/fields/stretch-and-tension.ts';
import { wornFields } from '../../../core/fields/worn-fields.ts';
import { onRing, proofTube } from '../../../core/proof/proof-tube.ts';
import { fieldNamed, knit } from '../../help/banded-tube.ts';
import { cylinderField } from '../../help/smooth-body.ts';

const RADIUS = 0.06;
const levels = proofTube({
  rowCount: 2,
  columnCount: 8,
  halvings: 0,
  place: (around, along) => onRing(RADIUS, 0.1 * along, around),
  relaxed: { around: 0.8, along: 1 },
});
const { positions } = levels[0]!.mesh;
const vertexCount = positions.length / 3;

/** Fields of a tube whose first vertices stand so far from the undeformed skin, the skin there moved in by so much; m. */
function fieldsAt(places: readonly { distance: number; offset: number }[], flesh: 'foundation' | 'layer') {
  const of = (part: 'distance' | 'offset') =>
    Float64Array.from({ length: vertexCount }, (_, v) => places[v]?.[part] ?? 0);
  const distance = of('distance');
  const offset = of('offset');
  // Pressed wherever it stands in the skin as that has moved.
  const normalForce = distance.map((away, v) => Math.max(0, -(away + offset[v]!)) * 1e3);
  const contactForce = positions.map((x, i) =>
    i % 3 === 1 ? 0 : (x / RADIUS) * normalForce[Math.floor(i / 3)]!,
  );
  return wornFields({
    garment: { levels, warp: 'around', rings: [], columnCount: 0, findings: [] },
    equilibrium: {
      positions,
      residual: 0,
      tolerance: 1e-4,
      atRest: true,
      newtonSteps: [0],
      linearIterations: [0],
      contactForce,
      distance,
      offset,
      normalForce,
    },
    pull: clothPull({ levels, warp: 'around', rings: [], columnCount: 0, findings: [] }, [knit], positions),
    skin: cylinderField(RADIUS),
    friction: 0.3,
    flesh,
  });
}

const read = (fields: ReturnType<typeof fieldsAt>, id: 'gap' | 'give', v: number) => {
  const { values, undefinedAt } = fieldNamed(fields, id);
  return undefinedAt[v] === 1 ? null : values[v]!;
};

const close = (x: number) => expect.closeTo(x, 12) as number;

describe('gap and give', () => {
  it('on a foundation: in under the cloth, or off the skin', () => {
    const fields = fieldsAt(
      [
        { distance: -0.002, offset: 0 },
        { distance: 0.004, offset: 0 },
      ],
      'foundation',
    );
    expect([read(fields, 'gap', 0), read(fields, 'give', 0)]).toEqual([null, 0.002]);
    expect([read(fields, 'gap', 1), read(fields, 'give', 1)]).toEqual([0.004, null]);
    expect(fieldNamed(fields, 'give').kind).toBe('sequential');
  });

  it('on a layer: from the skin as it has moved, bulges below zero', () => {
    const fields = fieldsAt(
      [
        // Pressed in by 3 mm, 1 of them because of what presses beside.
        { distance: -0.003, offset: 0.001 },
        // On a bulge: it touches although it stands 1 mm outside of the undeformed skin.
        { distance: 0.001, offset: -0.0015 },
        // Bridging 4 mm over skin that bulges by 1.
        { distance: 0.004, offset: -0.001 },
        // Drawn in beside the cloth's press: the gap is wider than the undeformed skin tells.
        { distance: 0.0005, offset: 0.0005 },
      ],
      'layer',
    );
    expect([0, 1, 2, 3].map((v) => read(fields, 'gap', v))).toEqual([null, null, close(0.003), close(0.001)]);
    expect([0, 1, 2, 3].map((v) => read(fields, 'give', v))).toEqual([0.003, -0.001, -0.001, 0.0005]);
    expect(fieldNamed(fields, 'give').kind).toBe('symmetric');
  });
});
