import { describe, expect, it } from 'vitest';
import type { Equilibrium } from '../../../core/equilibrium/equilibrium.ts';
import { clothPull } from '../../../core/fields/stretch-and-tension.ts';
import { wornFindings } from '../../../core/fields/worn-findings.ts';
import type { Garment } from '../../../core/garment/garment.ts';
import { onRing, proofTube } from '../../../core/proof/proof-tube.ts';
import { knit } from '../../help/banded-tube.ts';
import { cylinderField } from '../../help/smooth-body.ts';

const RADIUS = 0.06;
const LENGTH = 0.1;

/** A tube pulled over a bar by these ratios of its own size, its upper half turned by `twist` rad. */
function worn({ around, along, twist = 0 }: { around: number; along: number; twist?: number }) {
  const levels = proofTube({
    rowCount: 4,
    columnCount: 16,
    halvings: 0,
    place: (share, height) => onRing(RADIUS, LENGTH * height, share),
    relaxed: { girth: (2 * Math.PI * RADIUS) / around, length: LENGTH / along },
  });
  const { positions: straight } = levels[0]!.mesh;
  const positions = straight.slice();
  for (let i = 0; i < positions.length; i += 3) {
    const by = twist * Math.max(0, (2 * straight[i + 1]!) / LENGTH - 1);
    positions[i] = straight[i]! * Math.cos(by) + straight[i + 2]! * Math.sin(by);
    positions[i + 2] = straight[i + 2]! * Math.cos(by) - straight[i]! * Math.sin(by);
  }
  const garment: Garment = { levels, warp: 'around', rings: [], columnCount: 0, findings: [] };
  const nothing = new Float64Array(positions.length / 3);
  const equilibrium: Equilibrium = {
    positions,
    residual: 0,
    tolerance: 1e-4,
    atRest: true,
    newtonSteps: [0],
    linearIterations: [0],
    contactForce: new Float64Array(positions.length),
    distance: nothing,
    offset: nothing,
    normalForce: nothing,
  };
  const pull = clothPull(garment, [knit], positions);
  const worn = { garment, equilibrium, pull, skin: cylinderField(RADIUS), friction: 0.3 };
  const slack = wornFindings(worn, []).find(({ code }) => code === 'worn/slack');
  return { pull, slack: slack?.facts as { sharePercent: number } | undefined };
}

describe('slack area', () => {
  it('is not spoken of on taut cloth', () => {
    const { pull, slack } = worn({ around: 1.2, along: 1.1 });
    expect(slack).toBeUndefined();
    expect(pull.wrinkled.every((one) => one === 0)).toBe(true);
  });

  it('counts cloth that is gathered along one yarn', () => {
    const { pull, slack } = worn({ around: 1.2, along: 0.7 });
    expect(slack!.sharePercent).toBeCloseTo(100, 6);
    expect(pull.slackAlong.every((one) => one === 1)).toBe(true);
    expect(pull.slackAcross.every((one) => one === 0)).toBe(true);
  });

  it('counts cloth sheared into wrinkles, although both yarns still pull', () => {
    const { pull, slack } = worn({ around: 1.02, along: 1.02, twist: 0.5 });
    // The upper half; sheared triangles of a coarse tube are a little larger.
    expect(slack!.sharePercent).toBeCloseTo(50, 0);
    for (const flags of [pull.slackAlong, pull.slackAcross])
      expect(flags.every((one) => one === 0)).toBe(true);
    for (const tensions of [pull.tensionAlong, pull.tensionAcross]) {
      expect(Math.min(...tensions)).toBeGreaterThan(0);
    }
  });
});
