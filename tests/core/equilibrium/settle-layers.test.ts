import { describe, expect, it } from 'vitest';
import { settle } from '../../../core/equilibrium/settle.ts';
import { settleLayers, type LayerProblem } from '../../../core/equilibrium/settle-layers.ts';
import type { DistanceField } from '../../../core/body/distance-field.ts';
import { onRing, proofTube } from '../../../core/proof/proof-tube.ts';
import { linearLaw } from '../../../core/proof/settled-tube.ts';
import { bodyOfRevolution, cylinderBody, waistProfile } from '../../../core/proof/smooth-bodies.ts';

const RADIUS = 0.1;

interface Tube {
  readonly from: number;
  readonly to: number;
  readonly stretch: number;
  readonly foundation?: number;
  readonly radius?: (y: number) => number;
}

function layer({ from, to, stretch, foundation = 5e5, radius = () => RADIUS }: Tube): LayerProblem {
  const levels = proofTube({
    rowCount: 3,
    columnCount: 8,
    halvings: 2,
    place: (around, along) => {
      const y = from + (to - from) * along;
      return onRing(radius(y), y, around);
    },
    relaxed: { girth: (2 * Math.PI * RADIUS) / stretch, length: to - from },
  });
  return {
    levels,
    laws: [linearLaw(200)],
    foundation: levels.map(({ mesh }) => new Float64Array(mesh.positions.length / 3).fill(foundation)),
    friction: 0.3,
    thickness: 0.0008,
  };
}

function wear(body: DistanceField, layers: readonly LayerProblem[]) {
  const search = settleLayers({ body, layers });
  let step = search.next();
  while (!step.done) step = search.next();
  return step.value;
}

const largest = (values: Float64Array) => values.reduce((most, value) => Math.max(most, value), 0);

describe('two garments, the outer one shorter', () => {
  const inner = layer({ from: 0, to: 0.12, stretch: 1.2 });
  const outer = layer({ from: 0.03, to: 0.09, stretch: 1.3 });
  const { layers, rounds, findings } = wear(cylinderBody(RADIUS), [inner, outer]);

  it('come to rest in a few rounds, with nothing to tell', () => {
    expect(layers.every(({ equilibrium }) => equilibrium.atRest)).toBe(true);
    expect(rounds).toBeLessThanOrEqual(6);
    expect(findings).toEqual([]);
  });

  it('press in sum what the skin gives: k times the depth', () => {
    const [under] = layers;
    const { distance } = under!.equilibrium;
    const wanted = largest(distance.map((d) => -5e5 * d));
    // The share of the outer one is read at the nearest point of its mesh: its hems are a row wide.
    for (let v = 0; v < distance.length; v++) {
      expect(Math.abs(under!.total[v]! + 5e5 * distance[v]!)).toBeLessThan(0.01 * wanted);
    }
  });

  it('press alone where the other does not reach', () => {
    const [under] = layers;
    const { positions } = under!.equilibrium;
    let alone = 0;
    for (let v = 0; v < under!.total.length; v++) {
      const y = positions[3 * v + 1]!;
      if (y > 0.02 && y < 0.1) continue;
      alone++;
      expect(under!.total[v]).toBe(under!.pressure[v]);
    }
    expect(alone).toBeGreaterThan(40);
  });

  it('ride above the skin by their own middle: the outer by one and a half thicknesses', () => {
    // The middle of the tubes, where both press: positions = R + lift - give of the sum.
    for (const [i, lift] of [0.0004, 0.0012].entries()) {
      const { equilibrium } = layers[i]!;
      const { positions, distance } = equilibrium;
      const middle = Math.floor(distance.length / 2);
      const r = Math.hypot(positions[3 * middle]!, positions[3 * middle + 2]!);
      expect(r - RADIUS - distance[middle]!).toBeCloseTo(lift, 9);
    }
  });
});

it('one garment alone is settled as ever', () => {
  const only = layer({ from: 0, to: 0.12, stretch: 1.2 });
  const { layers, rounds } = wear(cylinderBody(RADIUS), [only]);
  const search = settle({ ...only, body: cylinderBody(RADIUS), lift: only.thickness / 2 });
  let step = search.next();
  while (!step.done) step = search.next();
  expect(rounds).toBe(1);
  expect(layers[0]!.equilibrium.positions).toEqual(step.value.positions);
});

it('tells where the outer garment presses on a bridge of the inner one', () => {
  // A waist so hollow that both tubes span it; the outer is laid on it, narrow, where the inner stands off.
  const profile = waistProfile(0.1, 0.02, 0.03);
  const span = layer({ from: -0.09, to: 0.09, stretch: 1.1, foundation: 5e7 });
  const belt = layer({
    from: -0.012,
    to: 0.012,
    stretch: 1.5,
    foundation: 5e7,
    radius: (y) => profile.radius(y),
  });
  const { findings } = wear(bodyOfRevolution(profile), [span, belt]);
  const told = findings.find(({ code }) => code === 'worn/layer-on-bridge');
  expect(told).toBeDefined();
  expect((told!.facts as { sharePercent: number }).sharePercent).toBeGreaterThan(50);
});
