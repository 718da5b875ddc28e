/**
 * One cold run of the demo study in a process of its own; prints what it took as JSON.
 *
 * Arguments: edge length (mm), friction. The yardstick is timed in the same process.
 */
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { runStudy } from '../../core/study/run-study.ts';
import { openStudy } from '../../core/study/open-study.ts';
import { yardstick } from './yardstick.ts';

const folder = 'assets/demo';
const [edgeMm = '6', friction = '0.3'] = process.argv.slice(2);

const study = await openStudy(
  await readFile(path.join(folder, 'harbour-waist-shaper.study.json'), 'utf8'),
  'harbour-waist-shaper.study.json',
  {
    text: (name) => readFile(path.join(folder, name), 'utf8'),
    bytes: (name) => readFile(path.join(folder, name)),
  },
);
const marks: Record<string, number> = {};
const start = performance.now();
const steps = runStudy({
  ...study,
  fabrics: study.fabrics.slice(0, 1),
  friction: Number(friction),
  edge: Number(edgeMm) / 1000,
});
let step = steps.next();
while (!step.done) {
  marks[step.value.step] ??= performance.now();
  step = steps.next();
}
const end = performance.now();
const { equilibrium } = step.value.worn[0]!;
console.log(
  JSON.stringify({
    vertexCount: equilibrium.distance.length,
    bodySeconds: (marks['garment']! - marks['body']!) / 1000,
    garmentSeconds: (marks['settle']! - marks['garment']!) / 1000,
    settleSeconds: (end - marks['settle']!) / 1000,
    totalSeconds: (end - start) / 1000,
    memoryMb: process.resourceUsage().maxRSS / 1024,
    residual: equilibrium.residual,
    atRest: equilibrium.atRest,
    newtonSteps: equilibrium.newtonSteps.at(-1),
    linearIterations: equilibrium.linearIterations.at(-1),
    yardstickSeconds: yardstick(),
  }),
);
