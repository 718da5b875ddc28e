import { expect, it } from 'vitest';
import { BODY_REGIONS } from '../../../core/body/body-regions.ts';
import { TISSUE_SOURCES, type TissueMap } from '../../../core/body/tissue-map.ts';
import { sourceAreas, sourceOf, tissueLegend, tissueRange } from '../../../core/sheet/tissue-legend.ts';
import { tissueRows } from '../../../core/sheet/tissue-rows.ts';

const [BELLY, SEAT] = [BODY_REGIONS.indexOf('belly'), BODY_REGIONS.indexOf('seat')];
const map: TissueMap = {
  depth: Float64Array.of(0.02, 0.03, 0.05, 0.041),
  modulus: Float64Array.of(40e3, 20e3, 30e3, 30e3),
  region: Uint8Array.of(BELLY, BELLY, SEAT, SEAT),
  source: Uint8Array.from(['recipe', 'brush', 'region', 'region'] as const, (name) =>
    TISSUE_SOURCES.indexOf(name),
  ),
};
const area = Float64Array.of(1e-4, 2e-4, 3e-4, 4e-4);

it('rows are the plain means of a region, and say what was typed', () => {
  const rows = tissueRows(map, { regions: [{ region: 'seat', depth: 0.0455 }], strokes: [] });
  expect(rows.map(({ region }) => region).toSorted()).toEqual(['belly', 'seat']);
  const belly = rows.find(({ region }) => region === 'belly')!;
  expect(belly.depthMm).toBeCloseTo(25, 9);
  expect(belly.modulusKPa).toBeCloseTo(30, 9);
  expect(belly.isDepthTyped).toBe(false);
  expect(rows.find(({ region }) => region === 'seat')).toMatchObject({
    isDepthTyped: true,
    isModulusTyped: false,
  });
  expect(tissueRows({ ...map, region: null }, { regions: [], strokes: [] })).toEqual([]);
});

it('scales begin at nothing and end on a round number that holds every value', () => {
  expect(tissueRange(map, 'depth')).toEqual({ low: 0, high: 0.06 });
  expect(tissueRange(map, 'modulus')).toEqual({ low: 0, high: 40e3 });
  // A rigid body has no depth at all, and still a scale.
  expect(tissueRange({ ...map, depth: new Float64Array(4) }, 'depth').high).toBeGreaterThan(0);
});

it('the legend is in mm or in kPa alone, and its bars hold all of the skin', () => {
  const depth = tissueLegend(map, 'depth', area);
  expect([depth.first.unit, depth.second]).toEqual(['mm', null]);
  expect(depth.highLabel).toBe('60');
  expect(depth.bands.reduce((sum, part) => sum + part, 0)).toBeCloseTo(10e-4, 12);
  const modulus = tissueLegend(map, 'modulus', area);
  expect([modulus.first.unit, modulus.second]).toEqual(['kPa', null]);
});

it('areas by source add up to the skin', () => {
  expect(sourceAreas(map, area)).toEqual([
    { source: 'recipe', area: 1e-4 },
    { source: 'region', area: 7e-4 },
    { source: 'brush', area: 2e-4 },
  ]);
  expect(sourceOf(map, 1)).toBe('brush');
});
