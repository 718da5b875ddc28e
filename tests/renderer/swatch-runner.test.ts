import { describe, expect, it } from 'vitest';
import { createSwatchRunner } from '../../renderer/store/swatch-runner.ts';
import { createSwatchStore, type SwatchSubject } from '../../renderer/store/swatch-store.ts';
import type { FromSwatchWorker, SettledSwatch, SwatchOrder } from '../../renderer/worker/swatch-messages.ts';

const subject = (letter: string, text = `sheet ${letter}`): SwatchSubject => ({
  letter,
  name: `Fabric ${letter}`,
  invented: true,
  text,
});

const settled: SettledSwatch = {
  test: 'drape',
  thickness: 4e-4,
  rest: {
    positions: new Float64Array(9),
    triangles: new Uint32Array([0, 1, 2]),
    flat: new Float64Array(6),
    residual: 1e-5,
    atRest: true,
    supportRadius: 0.09,
    specimenRadius: 0.15,
    drapeCoefficient: 0.4,
    shadow: new Float64Array(6),
    foldCount: 6,
  },
};

interface Started {
  readonly order: SwatchOrder;
  readonly say: (message: FromSwatchWorker) => void;
  ended: boolean;
}

function layOut() {
  const started: Started[] = [];
  const store = createSwatchStore();
  const deeds = createSwatchRunner(store, (order, say) => {
    const worker: Started = { order, say, ended: false };
    started.push(worker);
    return {
      end: () => {
        worker.ended = true;
      },
    };
  });
  return { started, store, deeds };
}

describe('the swatch runner', () => {
  it('lays each fabric down in a worker of its own and ends it when it rests', () => {
    const { started, store, deeds } = layOut();
    deeds.show([subject('A'), subject('B')]);
    expect(started.map(({ order }) => order.text)).toEqual(['sheet A', 'sheet B']);
    started[0]!.say({ kind: 'progress', progress: { level: 1, levelCount: 3, iteration: 4, residual: 0.1 } });
    expect(store.getState().runs[0]!.progress).toMatchObject({ level: 1, iteration: 4 });
    started[0]!.say({ kind: 'settled', swatch: settled });
    expect(started[0]!.ended).toBe(true);
    expect(store.getState().runs[0]).toMatchObject({ progress: null, stale: false });
    expect(store.getState().runs[1]!.progress).not.toBeNull();
  });

  it('keeps a fabric whose readings did not change, and lays the changed one anew', () => {
    const { started, store, deeds } = layOut();
    deeds.show([subject('A'), subject('B')]);
    for (const worker of started) worker.say({ kind: 'settled', swatch: settled });
    deeds.show([subject('A'), subject('B', 'other readings')]);
    expect(started).toHaveLength(3);
    expect(started[2]!.order.text).toBe('other readings');
    expect(store.getState().runs[0]!.settled).toBe(settled);
    expect(store.getState().runs[1]!.settled).toBeNull();
  });

  it('draws thickness without settling anew, but settles for another stiffness', () => {
    const { started, store, deeds } = layOut();
    deeds.show([subject('A')]);
    started[0]!.say({ kind: 'settled', swatch: settled });
    deeds.exaggerateThickness(8);
    expect(started).toHaveLength(1);
    expect(store.getState().thicknessFactor).toBe(8);
    deeds.exaggerateBending(4);
    expect(started[1]!.order.bendingFactor).toBe(4);
  });

  it('stops at once, keeps what lay there, hears nothing more, and goes on when asked', () => {
    const { started, store, deeds } = layOut();
    deeds.show([subject('A')]);
    started[0]!.say({ kind: 'settled', swatch: settled });
    deeds.chooseTest('cantilever');
    deeds.stop();
    expect(started[1]!.ended).toBe(true);
    started[1]!.say({ kind: 'progress', progress: { level: 0, levelCount: 1, iteration: 9, residual: 1 } });
    expect(store.getState().runs[0]).toMatchObject({ progress: null, stale: true, settled });
    deeds.goOn();
    expect(started[2]!.order.wish.test).toBe('cantilever');
  });

  it('says a fault in words and keeps the other fabric', () => {
    const { started, store, deeds } = layOut();
    deeds.show([subject('A'), subject('B')]);
    started[1]!.say({
      kind: 'fault',
      fault: { code: 'file/missing', facts: { path: 'b.bench.json' }, file: 'b.bench.json' },
    });
    expect(store.getState().runs[1]!.notice?.what).toContain('b.bench.json');
    expect(store.getState().runs[0]!.progress).not.toBeNull();
  });

  it('never lets the eye turn under the table or over the top', () => {
    const { store, deeds } = layOut();
    deeds.turn(1, 100);
    expect(store.getState().turn.over).toBeLessThan(Math.PI / 2);
    deeds.turn(0, -100);
    expect(store.getState().turn.over).toBeGreaterThan(-0.5);
  });
});
