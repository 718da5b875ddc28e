import { describe, expect, it } from 'vitest';
import { Fault } from '../../core/fault/fault.ts';
import { runStudy } from '../../core/study/run-study.ts';
import type { StandingStudy, StudyRun } from '../../core/study/standing-study.ts';
import type { Study, StudyProgress } from '../../core/study/study.ts';
import { createLiveStudy } from '../../renderer/worker/live-study.ts';
import type { FromWorker } from '../../renderer/worker/messages.ts';
import { demoStudy } from '../help/demo-study.ts';

/** A small real run, and a live study whose searches are counted and may be held between two steps. */
async function laid() {
  const demo = await demoStudy();
  const study: Study = { ...demo, edge: 0.02, fabrics: demo.fabrics.slice(0, 1) };
  const chain = runStudy(study);
  let step = chain.next();
  while (!step.done) step = chain.next();
  const run = step.value;
  const heard: FromWorker[] = [];
  const befores: (StandingStudy | undefined)[] = [];
  const pulled: number[] = [];
  let onBreath: (() => void) | null = null;
  let failAt: number | null = null;
  function* pretend(_: Study, before?: StandingStudy): Generator<StudyProgress, StudyRun> {
    const own = befores.push(before) - 1;
    pulled[own] = 0;
    for (let i = 0; i < 5; i++) {
      pulled[own]++;
      if (failAt === own) throw new Fault('file/missing', { path: 'x' });
      yield { step: 'garment' };
    }
    return run;
  }
  let time = 0;
  const live = createLiveStudy({
    post: (message) => heard.push(message),
    breathe: () => {
      const work = onBreath;
      onBreath = null;
      work?.();
      return Promise.resolve();
    },
    now: () => (time += 100),
    run: pretend,
  });
  await live.lay(study);
  return {
    live,
    run,
    heard,
    befores,
    pulled,
    atNextBreath: (work: () => void) => {
      onBreath = work;
    },
    failNext: () => {
      failAt = befores.length;
    },
    kinds: () =>
      heard.filter(({ kind }) => kind !== 'progress').map((m) => [m.kind, 'id' in m ? m.id : null]),
  };
}

describe('a live study', () => {
  it('settles as it was opened, then runs on from what stands, with the change in its sheet', async () => {
    const { live, run, heard, befores, kinds } = await laid();
    expect(kinds()).toEqual([['settled', 0]]);
    await live.change({ friction: { coefficient: 0.25, from: 'typed' } }, 1);
    expect(befores).toEqual([undefined, run.standing]);
    expect(heard.at(-1)).toMatchObject({ kind: 'settled', id: 1, sheet: { friction: 0.25 } });
    expect(heard.filter(({ kind }) => kind === 'progress').length).toBeGreaterThan(5);
  });

  it('gives an older change up between two steps: the newest wins', async () => {
    const { live, pulled, atNextBreath, kinds } = await laid();
    let second: Promise<void> = Promise.resolve();
    atNextBreath(() => {
      second = live.change({ girthScale: 0.96 }, 2);
    });
    await live.change({ girthScale: 0.98 }, 1);
    await second;
    expect(pulled).toEqual([5, 1, 5]);
    expect(kinds()).toEqual([
      ['settled', 0],
      ['settled', 2],
    ]);
  });

  it('stops between two steps and keeps what settled last', async () => {
    const { live, run, pulled, atNextBreath, kinds, befores } = await laid();
    atNextBreath(live.stop);
    await live.change({ girthScale: 0.96 }, 1);
    expect(pulled[1]).toBe(1);
    expect(live.result()).toBe(run);
    expect(kinds()).toEqual([['settled', 0]]);
    await live.change({ girthScale: 0.96 }, 2);
    expect(befores.at(-1)).toBe(run.standing);
    expect(kinds().at(-1)).toEqual(['settled', 2]);
  });

  it('says what cannot be worn and keeps what settled last', async () => {
    const { live, run, failNext, heard } = await laid();
    failNext();
    await live.change({ girthScale: 0.5 }, 1);
    expect(heard.at(-1)).toMatchObject({ kind: 'fault', id: 1, fault: { code: 'file/missing' } });
    expect(live.result()).toBe(run);
    await live.change({}, 2);
    expect(heard.at(-1)).toMatchObject({ kind: 'settled', id: 2 });
  });

  it('has nothing to try before it was laid', async () => {
    const heard: FromWorker[] = [];
    const live = createLiveStudy({
      post: (message) => heard.push(message),
      breathe: () => Promise.resolve(),
      now: () => 0,
      run: runStudy,
    });
    await live.change({}, 1);
    expect([heard, live.result()]).toEqual([[], null]);
  });
});
