/**
 * One measurement of the search for rest in a process of its own; prints what it took as JSON.
 *
 * Arguments: `torso` or `any-mesh` with a vertex count and a friction, the latter as if it had no hierarchy; `flesh`, the
 * demo study on the layer; `warm`, changes tried on the settled demo study. The yardstick is timed in the same process.
 */
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { EquilibriumProblem } from '../../core/equilibrium/equilibrium.ts';
import { settle } from '../../core/equilibrium/settle.ts';
import type { TubeSheet } from '../../core/garment/tube-sheet.ts';
import { decimatedLevels } from '../../core/garment/decimated-levels.ts';
import { changedStudy } from '../../core/study/changed-study.ts';
import { openStudy } from '../../core/study/open-study.ts';
import { runStudy } from '../../core/study/run-study.ts';
import type { StandingStudy } from '../../core/study/standing-study.ts';
import type { Study, StudyChange } from '../../core/study/study.ts';
import { asTube } from '../help/as-tube.ts';
import { torsoCase, TORSO_SIZES } from '../help/torso-case.ts';
import { yardstick } from './yardstick.ts';

const folder = 'assets/demo';
/** About 10,000 vertices on the demo study. */
const EDGE = 0.004;

const memoryMb = (): number => process.resourceUsage().maxRSS / 1024;
const since = (start: number): number => (performance.now() - start) / 1000;

async function demoStudy(): Promise<Study> {
  const study = await openStudy(
    await readFile(path.join(folder, 'harbour-waist-shaper.study.json'), 'utf8'),
    'harbour-waist-shaper.study.json',
    {
      text: (name) => readFile(path.join(folder, name), 'utf8'),
      bytes: (name) => readFile(path.join(folder, name)),
    },
  );
  return { ...study, fabrics: study.fabrics.slice(0, 1), edge: EDGE };
}

function timeSettle(problem: EquilibriumProblem) {
  const start = performance.now();
  const search = settle(problem);
  let step = search.next();
  while (!step.done) step = search.next();
  const { residual, atRest, newtonSteps, distance } = step.value;
  return {
    seconds: since(start),
    memoryMb: memoryMb(),
    vertexCount: distance.length,
    newtonSteps,
    residual,
    atRest,
  };
}

/** Coarse levels are made and the cloth is settled cold; then the same with its own levels, to compare. */
function timeAnyMesh(nested: EquilibriumProblem): object {
  const finest = nested.levels.at(-1)!;
  const start = performance.now();
  const levels = decimatedLevels(finest);
  const decimateSeconds = since(start);
  const per = <T>(make: (vertexCount: number, edgeVertex: Uint8Array) => T): T[] =>
    levels.map(({ edgeVertex }) => make(edgeVertex.length, edgeVertex));
  const run = timeSettle({
    ...nested,
    levels,
    foundation: per((vertexCount) => new Float64Array(vertexCount).fill(nested.foundation[0]![0]!)),
    // Hems are held in height, as in the nested case.
    held: per((vertexCount, edgeVertex) =>
      Uint8Array.from({ length: 3 * vertexCount }, (_, i) => (i % 3 === 1 ? edgeVertex[(i - 1) / 3]! : 0)),
    ),
  });
  const own = timeSettle(nested);
  return { ...run, seconds: run.seconds + decimateSeconds, decimateSeconds, nestedSteps: own.newtonSteps };
}

/** One run; `seconds` from the first step of the search on, `wholeSeconds` with body and garment. */
function timeRun(study: Study, before?: StandingStudy) {
  const start = performance.now();
  let settling = 0;
  const chain = runStudy(study, before);
  let step = chain.next();
  while (!step.done) {
    if (step.value.step === 'settle') settling ||= performance.now();
    step = chain.next();
  }
  const { equilibrium } = step.value.worn[0]!;
  return {
    run: step.value,
    taken: {
      seconds: since(settling || start),
      wholeSeconds: since(start),
      vertexCount: equilibrium.distance.length,
      residual: equilibrium.residual,
      atRest: equilibrium.atRest,
    },
  };
}

/** One change at once, from the standing study as it was opened. */
const JUMPS: Readonly<Record<string, StudyChange>> = {
  'another curve: return': { branch: 'return' },
  'cut 2 % smaller': { girthScale: 0.98 },
  'friction 0.5 to 0.6': { friction: { coefficient: 0.6, from: 'typed' } },
};

const STEPS = [1, 2, 3, 4, 5, 6, 7];

/** Steps of a slider, each from where the one before came to rest. */
const drags = (garment: TubeSheet): Readonly<Record<string, readonly StudyChange[]>> => ({
  'cut by 0.5 %': STEPS.map((step) => ({ girthScale: 1 - 0.005 * step })),
  'friction by 0.01': STEPS.map((step) => ({
    friction: { coefficient: 0.5 + 0.01 * step, from: 'typed' },
  })),
  'hems laid 5 mm higher': STEPS.map((step) => ({
    from: garment.from + 0.005 * step,
    to: garment.to + 0.005 * step,
  })),
});

/** A drag's step in the middle, by time. */
function timeDrag(study: Study, changes: readonly StudyChange[], from: StandingStudy) {
  let standing = from;
  const steps = changes.map((change) => {
    const { run, taken } = timeRun(changedStudy(study, change), standing);
    standing = run.standing;
    return taken;
  });
  const bySeconds = steps.toSorted((one, other) => one.seconds - other.seconds);
  return {
    ...bySeconds[(steps.length - 1) / 2]!,
    slowest: bySeconds.at(-1)!.seconds,
    atRest: steps.every(({ atRest }) => atRest),
  };
}

async function timeWarm(): Promise<object> {
  const study = await demoStudy();
  const { standing } = timeRun(study).run;
  // Once to warm the code up.
  timeRun(changedStudy(study, { girthScale: 1.01 }), standing);
  return {
    jumps: Object.entries(JUMPS).map(([change, what]) => ({
      change,
      ...timeRun(changedStudy(study, what), standing).taken,
    })),
    drags: Object.entries(drags(asTube(study.garment))).map(([change, steps]) => ({
      change,
      ...timeDrag(study, steps, standing),
    })),
  };
}

const [what, size = '10368', friction = '0'] = process.argv.slice(2);

const torso = (): EquilibriumProblem =>
  torsoCase({ ...TORSO_SIZES[Number(size) as keyof typeof TORSO_SIZES], friction: Number(friction) });

async function measured(): Promise<object> {
  switch (what) {
    case 'torso':
      return timeSettle(torso());
    case 'any-mesh':
      return timeAnyMesh(torso());
    case 'flesh': {
      const study = await demoStudy();
      return timeRun({ ...study, flesh: { kind: 'layer', poisson: 0.49, skin: 'slides' } }).taken;
    }
    case 'warm':
      return timeWarm();
    case undefined:
    default:
      throw new Error(`Nothing is measured under the name ${what ?? 'nothing'}.`);
  }
}

console.log(JSON.stringify({ ...(await measured()), yardstickSeconds: yardstick() }));
