import { describe, expect, it } from 'vitest';
import { readBenchSheet } from '../../../core/io/read-bench-sheet.ts';
import { bendOverEdge } from '../../../core/swatch/bend-over-edge.ts';
import type { Direction } from '../../../core/fabric/fabric.ts';
import type { SwatchFabric } from '../../../core/swatch/swatch.ts';
import { radiansFromDegrees } from '../../../core/units/units.ts';
import { demoSheet, demoSheetText, type DemoName } from '../../help/demo-sheet.ts';

const SLOPE = radiansFromDegrees(41.5);

function swatchOf(name: DemoName): SwatchFabric {
  const { laws, bendingRigidity, arealDensity } = readBenchSheet(demoSheetText(name));
  return { law: laws.load, bendingRigidity, arealDensity };
}

function overEdge(fabric: SwatchFabric, direction: Direction, slope = SLOPE) {
  const search = bendOverEdge(fabric, { direction, slope });
  let step = search.next();
  while (!step.done) step = search.next();
  return step.value;
}

describe('a strip over an edge', () => {
  // Asked for: the bench's overhang within 2 %.
  it.each(
    (['plover-185', 'tern-210'] as const).flatMap((name) =>
      (['warp', 'weft', 'bias'] as const).map((direction) => [name, direction] as const),
    ),
  )('gives the overhang of %s %s back', (name, direction) => {
    const read = demoSheet(name).bending.overhangMm[direction]!;
    const rest = overEdge(swatchOf(name), direction);
    expect(rest.atRest).toBe(true);
    expect(Math.abs(1000 * rest.overhang - read) / read).toBeLessThan(0.02);
    expect(Math.atan2(rest.tip[1], rest.tip[0])).toBeCloseTo(SLOPE, 3);
  });

  it('hangs farther over the edge the stiffer and the lighter it is: by the cube root of G / M', () => {
    const fabric = swatchOf('tern-210');
    const { warp, weft, bias } = fabric.bendingRigidity;
    const { overhang } = overEdge(fabric, 'warp');
    const stiff = overEdge(
      { ...fabric, bendingRigidity: { warp: 8 * warp, weft: 8 * weft, bias: 8 * bias } },
      'warp',
    );
    expect(stiff.overhang / overhang).toBeCloseTo(2, 1);
    const heavy = overEdge({ ...fabric, arealDensity: 2 * fabric.arealDensity }, 'warp');
    expect(heavy.overhang / overhang).toBeCloseTo(Math.cbrt(0.5), 2);
  });

  it('can be stopped, and says how far it is', () => {
    const search = bendOverEdge(swatchOf('tern-210'), { direction: 'bias', slope: SLOPE });
    const first = search.next();
    if (first.done) throw new Error('done at once');
    expect(first.value.iteration).toBe(0);
    expect(first.value.residual).toBeGreaterThan(0.1);
  });
});
