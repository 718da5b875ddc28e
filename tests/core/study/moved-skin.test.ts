import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { nearestPointOf } from '../../../core/mesh/nearest-point.ts';
import { movedSkin } from '../../../core/study/moved-skin.ts';
import { openStudy } from '../../../core/study/open-study.ts';
import { runStudy } from '../../../core/study/run-study.ts';
import { sphere } from '../../help/shapes.ts';

it('a sphere that gives everywhere alike is a smaller sphere, one that bulges a larger one', () => {
  const skin = sphere(0.1, 0.01);
  for (const movement of [0.004, -0.002]) {
    const moved = movedSkin(skin, new Float64Array(skin.positions.length / 3).fill(movement));
    for (let i = 0; i < moved.length; i += 3) {
      // Normals of facets: right within a hundredth of the movement.
      expect(Math.hypot(moved[i]!, moved[i + 1]!, moved[i + 2]!)).toBeCloseTo(0.1 - movement, 4);
    }
  }
});

it('the cloth lies on the skin as it has moved, not on the skin as it was', async () => {
  const demo = new URL('../../../assets/demo/', import.meta.url);
  const text = (name: string): Promise<string> => Promise.resolve(readFileSync(new URL(name, demo), 'utf8'));
  const name = 'harbour-waist-shaper.study.json';
  const opened = await openStudy(await text(name), name, {
    text,
    bytes: () => Promise.reject(new Error('no bytes in this study')),
  });
  const run = runStudy({
    ...opened,
    fabrics: opened.fabrics.slice(0, 1),
    edge: 0.012,
    flesh: { kind: 'layer', poisson: 0.45, skin: 'slides' },
  });
  let step = run.next();
  while (!step.done) step = run.next();
  const { body, worn } = step.value;
  const { equilibrium, movedSkin: moved } = worn[0]!;
  const { positions, distance, offset, normalForce } = equilibrium;
  const [before, after] = [body.skin.positions, moved!].map((skin) =>
    nearestPointOf({ positions: skin, triangles: body.skin.triangles }),
  );
  const found = new Float64Array(4);
  const rms = (nearest: typeof before): number => {
    let sum = 0;
    let count = 0;
    for (let v = 0; v < distance.length; v++) {
      if (distance[v]! + offset[v]! >= 0 || normalForce[v] === 0) continue;
      nearest!(positions[3 * v]!, positions[3 * v + 1]!, positions[3 * v + 2]!, found);
      sum += found[3]! ** 2;
      count++;
    }
    return Math.sqrt(sum / count);
  };
  expect(rms(before)).toBeGreaterThan(5e-4);
  // Facets of 8 mm on the skin and 12 mm on the cloth round a waist of 120 mm: less than a tenth of a millimetre of sag.
  expect(rms(after)).toBeLessThan(0.15 * rms(before));
});
