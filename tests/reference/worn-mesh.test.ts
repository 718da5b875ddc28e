/** Source: Laplace, P = T / R (cylinder), P = T kappa (any convex section); the whole chain from files, no short cuts. */
import { describe, expect, it } from 'vitest';
import { writeObj } from '../../core/io/write-obj.ts';
import { openStudy } from '../../core/study/open-study.ts';
import { runStudy } from '../../core/study/run-study.ts';
import type { StudyResult } from '../../core/study/study.ts';
import { wornSummary } from '../../core/study/worn-summary.ts';
import { turnBack } from '../../core/body/turn-up.ts';
import { cone, cylinder, ellipseCylinder } from '../help/shapes.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';

/** A bench sheet of a fabric without narrowing: T = 250 N/m per 100 % along warp and weft. */
const line = [10, 20, 30, 40].map((percent) => [percent, 12.5 * (percent / 100)]);
const still = [10, 20, 30, 40].map((percent) => [percent, 50]);
const strip = { load: line, width: still };
const sheet = {
  snugfieldBench: 1,
  name: 'Even (made up for a test)',
  lot: '1',
  date: '2026-01-01',
  invented: true,
  strip: { lengthMm: 200, widthMm: 50, massG: { warp: 2, weft: 2, bias: 2 } },
  thickness: { mm: 0.5, pressureKPa: 1 },
  stretch: { gaugeMm: 100, widthMm: 50, warp: strip, weft: strip, bias: { load: line } },
  bending: { angleDeg: 41.5, overhangMm: { warp: 28, weft: 28, bias: 28 } },
};

interface Wearing {
  readonly up?: 'x' | 'y' | 'z';
  readonly friction?: number;
}

async function wear(
  skin: TriangleMesh,
  tube: object,
  { up = 'y', friction = 0 }: Wearing = {},
): Promise<StudyResult> {
  const files: Record<string, string> = {
    'fabric.json': JSON.stringify(sheet),
    'body.obj': writeObj(turnBack(skin, up)),
  };
  const study = {
    snugfield: 1,
    name: 'bar',
    body: { mesh: 'body.obj', unit: 'mm', up, tissue: 'rigid' },
    fabrics: [{ id: 'even', sheet: 'fabric.json' }],
    garment: { tube: { region: 'whole', warp: 'along', ...tube } },
    friction,
    edgeMm: 8,
  };
  const text = async (path: string) => files[path]!;
  const opened = await openStudy(JSON.stringify(study), 'bar.study.json', {
    text,
    bytes: async () => new Uint8Array(),
  });
  const steps = runStudy(opened);
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
}

const summaryOf = (result: StudyResult) => wornSummary(result, result.worn[0]!);

describe('a tube on a bar that came as a file', () => {
  it.each(['y', 'z', 'x'] as const)('presses with T / R within one per cent, up axis %s', async (up) => {
    const radius = 0.3 / Math.PI;
    const result = await wear(
      cylinder(radius, 0.4, 0.008, { jitter: 0.3 }),
      { fromMm: 100, toMm: 300, girths: [{ atMm: 200, relaxedMm: 480 }], relaxedLengthMm: 200 },
      { up },
    );
    const { fields, atRest } = summaryOf(result);
    expect(atRest).toBe(true);
    const pressureKPa = (250 * 0.25) / radius / 1000;
    expect(Math.abs(fields['skinPressureKPa']!.mean / pressureKPa - 1)).toBeLessThan(0.01);
    expect(Math.abs(fields['tensionAcrossNPerM']!.mean / 62.5 - 1)).toBeLessThan(0.01);
    // A single vertex sees the facets of the bar: 5 % is what an 8 mm mesh with wandering vertices gives.
    expect(fields['skinPressureKPa']!.max / pressureKPa).toBeLessThan(1.05);
    expect(fields['skinPressureKPa']!.min / pressureKPa).toBeGreaterThan(0.95);
  });

  it('on an ellipse presses most at the ends of the long axis: P = T a / b^2 within 3 %, mean 2 pi T / C within 1 %', async () => {
    const [a, b] = [0.15, 0.1065];
    const girth = 0.8116230403;
    const result = await wear(ellipseCylinder([a, b], 0.4, 0.008), {
      fromMm: 100,
      toMm: 300,
      girths: [{ atMm: 200, relaxedMm: (1000 * girth) / 1.24 }],
      relaxedLengthMm: 200,
    });
    const { fields } = summaryOf(result);
    const tension = 250 * 0.24;
    expect(
      Math.abs((fields['skinPressureKPa']!.mean * 1000) / ((2 * Math.PI * tension) / girth) - 1),
    ).toBeLessThan(0.01);
    expect(Math.abs((fields['discPressureKPa']!.max * 1000) / ((tension * a) / b ** 2) - 1)).toBeLessThan(
      0.03,
    );
    expect(Math.abs((fields['discPressureKPa']!.min * 1000) / ((tension * b) / a ** 2) - 1)).toBeLessThan(
      0.03,
    );
  });

  it('on a cone that friction holds presses with T cos(a) / r within 2 %, ring by ring', async () => {
    const angle = (8 * Math.PI) / 180;
    const [low, height] = [0.12, 0.4];
    const high = low - height * Math.tan(angle);
    const skin = cone([low, high], height, 0.008);
    const girthAt = (y: number) => 2 * Math.PI * (low - y * Math.tan(angle));
    // A fifth smaller than the cone at both hems, as long as its flank; mu = 1 carries the slope (tan 8 deg = 0.14).
    const result = await wear(
      skin,
      {
        fromMm: 100,
        toMm: 250,
        girths: [0.1, 0.25].map((y) => ({ atMm: 1000 * y, relaxedMm: 1000 * girthAt(y) * 0.8 })),
        relaxedLengthMm: 150 / Math.cos(angle),
      },
      { friction: 1 },
    );
    const pressure = result.worn[0]!.fields.find(({ id }) => id === 'skinPressure')!.values;
    const tension = result.worn[0]!.fields.find(({ id }) => id === 'tensionAcross')!.values;
    result.garment.rings.slice(3, -3).forEach(({ at }, i) => {
      const first = (i + 3) * result.garment.columnCount;
      const ring = Array.from({ length: result.garment.columnCount }, (_, k) => first + k);
      const mean = (values: Float64Array) => ring.reduce((sum, v) => sum + values[v]!, 0) / ring.length;
      const expected = (mean(tension) * Math.cos(angle)) / (low - at * Math.tan(angle));
      expect(Math.abs(mean(pressure) / expected - 1)).toBeLessThan(0.02);
    });
  });
});
