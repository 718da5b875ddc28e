import { describe, expect, it } from 'vitest';
import { BODY_REGIONS } from '../../../core/body/body-regions.ts';
import { zonesAbove } from '../../../core/judgement/tight-zones.ts';
import { pretendField, pretendGirths, pretendTube } from '../../help/pretend-result.ts';

const body = { girths: pretendGirths };
const tube = pretendTube({ columns: 96, rings: 25 });
const cloth = {
  positions: tube.mesh.positions,
  triangles: tube.mesh.triangles,
  edgeVertex: tube.edgeVertex,
  vertexArea: tube.vertexArea,
};

/** A cone of pressure round a point of the tube: `peak` at the point, falling to zero at `reach` (m). */
function cones(
  ...peaks: readonly { angle: number; height: number; peak: number; reach: number }[]
): number[] {
  return Array.from(tube.vertexArea, (_, v) => {
    const [x, y, z] = [0, 1, 2].map((k) => tube.mesh.positions[3 * v + k]!);
    return Math.max(
      ...peaks.map(({ angle, height, peak, reach }) => {
        const away = Math.hypot(x! - 0.16 * Math.sin(angle), y! - height, z! - 0.12 * Math.cos(angle));
        return Math.max(0, peak * (1 - away / reach));
      }),
    );
  });
}

const left = { angle: Math.PI / 2, height: 1.045, peak: 3000, reach: 0.06 };

describe('tight zones', () => {
  it('finds nothing below the limit', () => {
    expect(zonesAbove(cloth, body, { field: pretendField(cones(left)), above: 3500 })).toEqual([]);
  });

  it('measures a cone as geometry has it', () => {
    const above = 1500;
    const [zone, ...others] = zonesAbove(cloth, body, { field: pretendField(cones(left)), above });
    expect(others).toEqual([]);
    // Closed form: above half its height a cone covers half its reach: pi (30 mm)² = 28.3 cm² on a flat surface, and its
    // mean there is a third below the top: 1500 + 1500/3 = 2000 Pa. Vertices stand 10 mm apart: one ring of them is a
    // third of that area.
    expect(zone!.area * 1e4).toBeGreaterThan(28.3 * 0.7);
    expect(zone!.area * 1e4).toBeLessThan(28.3 * 1.3);
    expect(zone!.mean).toBeGreaterThan(1900);
    expect(zone!.mean).toBeLessThan(2150);
    expect(zone!.max).toBeGreaterThan(2700);
    expect(zone!.place).toMatchObject({ level: 'waist', side: 'left', hem: null });
  });

  it('names the region of the nearest skin where the body knows it, and leaves it out where it does not', () => {
    const search = { field: pretendField(cones(left)), above: 1500 };
    expect(zonesAbove(cloth, body, search)[0]!.place.region).toBe(undefined);
    // Two vertices of skin: one beside the peak, one at the other side of the body.
    const skin = {
      positions: Float64Array.from([-0.2, 1.045, 0, 0.2, 1.045, 0]),
      triangles: new Uint32Array(),
    };
    const region = Uint8Array.from([BODY_REGIONS.indexOf('seat'), BODY_REGIONS.indexOf('side')]);
    const regions = { region, part: new Uint8Array(2) };
    expect(zonesAbove(cloth, { ...body, skin, regions }, search)[0]!.place.region).toBe('side');
  });

  it('carries the bands of its peak and of its mean, joined with its mirror image too', () => {
    const band = { low: -0.1, high: 0.06 };
    const right = { ...left, angle: -Math.PI / 2, peak: 2900 };
    for (const peaks of [[left], [left, right]]) {
      const [zone] = zonesAbove(cloth, body, {
        field: pretendField(cones(...peaks), { band }),
        above: 1500,
      });
      expect(zone!.band!.max.low).toBeCloseTo(0.9 * zone!.max, 6);
      expect(zone!.band!.max.high).toBeCloseTo(1.06 * zone!.max, 6);
      expect(zone!.band!.mean.low).toBeCloseTo(0.9 * zone!.mean, 6);
      expect(zone!.band!.mean.high).toBeCloseTo(1.06 * zone!.mean, 6);
    }
    expect(
      zonesAbove(cloth, body, { field: pretendField(cones(left)), above: 1500 })[0]!.band,
    ).toBeUndefined();
  });

  it('tells mirror images once, on both sides, with both peaks', () => {
    const right = { ...left, angle: -Math.PI / 2 };
    const zones = zonesAbove(cloth, body, { field: pretendField(cones(left, right)), above: 1500 });
    expect(zones).toHaveLength(1);
    expect(zones[0]!.place.side).toBe('bothSides');
    expect(zones[0]!.peaks).toHaveLength(2);
  });

  it('keeps unlike sides apart, the higher first', () => {
    const right = { ...left, angle: -Math.PI / 2, peak: 2200 };
    const zones = zonesAbove(cloth, body, { field: pretendField(cones(left, right)), above: 1500 });
    expect(zones.map(({ place }) => place.side)).toEqual(['left', 'right']);
  });

  it('sees one zone where it goes all round', () => {
    const band = Array.from(tube.vertexArea, (_, v) =>
      Math.abs(tube.mesh.positions[3 * v + 1]! - 1.0) < 0.03 ? 2500 : 0,
    );
    const zones = zonesAbove(cloth, body, { field: pretendField(band), above: 2000 });
    expect(zones).toHaveLength(1);
    expect(zones[0]!.place.side).toBe('around');
  });

  it('names a hem where the peak lies at one', () => {
    const atHem = { ...left, height: 1.14 };
    const [zone] = zonesAbove(cloth, body, { field: pretendField(cones(atHem)), above: 1500 });
    expect(zone!.place.hem).toBe('upper');
    const low = { ...left, height: 0.9, angle: 0 };
    const [lower] = zonesAbove(cloth, body, { field: pretendField(cones(low)), above: 1500 });
    expect(lower!.place).toMatchObject({ hem: 'lower', side: 'front' });
  });

  it('leaves out what has no value, unless told otherwise', () => {
    const field = {
      ...pretendField(cones(left)),
      undefinedAt: new Uint8Array(tube.vertexArea.length).fill(1),
    };
    expect(zonesAbove(cloth, body, { field, above: 1500 })).toEqual([]);
    expect(zonesAbove(cloth, body, { field, above: 1500, countUndefined: true })).toHaveLength(1);
  });

  it('does not depend on where the form stands', () => {
    const moved = {
      ...cloth,
      positions: cloth.positions.map((value, i) => (i % 3 === 0 ? value + 0.4 : value)),
    };
    const field = pretendField(cones(left));
    const [here] = zonesAbove(cloth, body, { field, above: 1500 });
    const [there] = zonesAbove(moved, body, { field, above: 1500 });
    expect(there!.place).toEqual(here!.place);
    expect(there!.area).toBe(here!.area);
  });
});
