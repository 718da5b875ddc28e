import { describe, expect, it } from 'vitest';
import { createImportRunner } from '../../renderer/store/import-runner.ts';
import {
  bodyHeightMm,
  chosenHeight,
  createImportStore,
  currentBody,
  heightsMm,
  isWearable,
  openQuestions,
  skinParts,
} from '../../renderer/store/import-store.ts';
import { turnedQuarter } from '../../renderer/store/axis-turns.ts';
import { createImportDesk } from '../../renderer/worker/import-desk.ts';
import type { FromImport, ToImport } from '../../renderer/worker/import-messages.ts';
import { readMeshScene } from '../../core/io/read-mesh-scene.ts';
import { writeObj } from '../../core/io/write-obj.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import { ellipseCylinder, tube } from '../help/shapes.ts';

/** 1.2 m high, 300 mm wide, 200 mm deep: as tall as no person in cm or m, in mm as a child. */
const pillar = ellipseCylinder([0.15, 0.1], 1.2, 0.05);
const text = (mesh: TriangleMesh): string => writeObj(mesh);
const fileOf = (content: string, name = 'pillar.obj') => ({ name, blob: new Blob([content]) });

/** A runner with the real desk behind it, but without a thread: messages go from hand to hand. */
function step() {
  const store = createImportStore();
  const workers: { posted: ToImport[]; ended: boolean; say: (message: FromImport) => void }[] = [];
  const deeds = createImportRunner(store, (say) => {
    const desk = createImportDesk({
      post: (message) => say(message),
      breathe: () => new Promise((resolve) => setImmediate(resolve)),
      now: () => 0,
      read: readMeshScene,
    });
    const worker = { posted: [] as ToImport[], ended: false, say };
    workers.push(worker);
    return {
      post: (message) => {
        worker.posted.push(message);
        void desk(message);
      },
      end: () => {
        worker.ended = true;
      },
    };
  });
  const rest = async (): Promise<void> => {
    while (store.getState().work !== null) await new Promise((resolve) => setImmediate(resolve));
  };
  return { store, deeds, workers, rest };
}

describe('a mesh that is brought in', () => {
  it('is read, guessed at and made ready without a word', async () => {
    const { store, deeds, rest } = step();
    deeds.open(fileOf(text(pillar)));
    expect(store.getState()).toMatchObject({ isOpen: true, work: { doing: 'reading' }, made: null });
    await rest();
    const state = store.getState();
    expect(state.fault).toBeNull();
    expect(state.opened?.parts).toHaveLength(1);
    expect(skinParts(state)).toBe('1');
    // 1200 mm in the file's own millimetres.
    expect(chosenHeight(state)).toBeCloseTo(1200, 1);
    const made = currentBody(state)!;
    expect(made.report.closed).toBe(true);
    expect(bodyHeightMm(made)).toBeCloseTo(1200, 1);
    // Nobody stands there.
    expect(state.levels).toEqual([]);
    // Refining rounds the rims of the lids.
    expect(made.high[1] - made.low[1]).toBeCloseTo(1.2, 2);
  });

  it('may be worn when every doubtful guess was looked at, and not before', async () => {
    const { store, deeds, rest } = step();
    deeds.open(fileOf(text(pillar)));
    await rest();
    // Without legs, head and toes neither up nor front can be sure.
    expect(openQuestions(store.getState())).toEqual(expect.arrayContaining(['up', 'front']));
    expect(isWearable(store.getState())).toBe(false);
    for (const question of openQuestions(store.getState())) deeds.confirm(question);
    expect(isWearable(store.getState())).toBe(true);
  });

  it('is made anew when an answer changes, by the worker that holds it', async () => {
    const { store, deeds, workers, rest } = step();
    deeds.open(fileOf(text(pillar)));
    await rest();
    deeds.choose({ unit: 'cm' }, 'unit');
    expect(currentBody(store.getState())).toBeNull();
    await rest();
    // 12 m high is no body: the fault says so, the answers stay.
    expect(store.getState().fault?.what).toContain('12000 mm');
    expect(store.getState()).toMatchObject({ choices: { unit: 'cm' }, work: null });
    deeds.choose({ unit: 'mm' });
    await rest();
    expect(store.getState().fault).toBeNull();
    expect(currentBody(store.getState())).not.toBeNull();
    expect(workers).toHaveLength(1);
    expect(workers[0]!.posted.map(({ kind }) => kind)).toEqual(['open', 'make', 'make']);
  });

  it('tells heights of the axis that points up', async () => {
    const { store, deeds, rest } = step();
    deeds.open(fileOf(text(pillar)));
    await rest();
    expect(heightsMm(store.getState()).cm).toBeCloseTo(12_000, 0);
    deeds.choose({ up: '+x', front: '+z' });
    // At once by the box, then by the body: 300 mm wide, now high.
    expect(heightsMm(store.getState()).mm).toBeCloseTo(300, 0);
    await rest();
    expect(heightsMm(store.getState()).mm).toBeCloseTo(300, 0);
    expect(heightsMm(store.getState()).inch).toBeCloseTo(7620, -1);
  });

  it('takes the newest answer where several come at once', async () => {
    const { store, deeds, rest } = step();
    deeds.open(fileOf(text(pillar)));
    await rest();
    deeds.stand(turnedQuarter);
    deeds.stand(turnedQuarter);
    const { choices } = store.getState();
    await rest();
    expect(currentBody(store.getState())?.choices).toBe(choices);
    expect(openQuestions(store.getState())).not.toContain('front');
    const turned = store
      .getState()
      .made!.report.steps.flatMap((step) => (step.kind === 'turned' ? [step.facts] : []));
    expect(turned).toEqual([{ up: choices!.up, front: choices!.front }]);
  });

  it('with a hole left open is no body', async () => {
    const open = tube({ radii: () => [0.15, 0.1], height: 1.2, edge: 0.05, closed: false });
    const { store, deeds, rest } = step();
    deeds.open(fileOf(text(open)));
    await rest();
    for (const question of openQuestions(store.getState())) deeds.confirm(question);
    expect(isWearable(store.getState())).toBe(true);
    deeds.choose({ closeHoles: false });
    await rest();
    expect(currentBody(store.getState())?.report.closed).toBe(false);
    expect(isWearable(store.getState())).toBe(false);
  });
});

describe('nothing is stuck', () => {
  it('when the file is none: the fault names place and remedy, and another file is taken', async () => {
    const { store, deeds, workers, rest } = step();
    deeds.open(fileOf('v 0 0 0\nv 1 0 nan\n'));
    await rest();
    expect(store.getState().fault?.what).toMatch(/line 2|Vertex 2/i);
    expect(store.getState().fault?.remedy).not.toBe('');
    deeds.open(fileOf(text(pillar)));
    await rest();
    expect(store.getState().fault).toBeNull();
    expect(workers.map(({ ended }) => ended)).toEqual([true, false]);
  });

  it('when the file is larger than a body can be: it is not even read', async () => {
    const { store, deeds, rest } = step();
    const vast = {
      size: 2 ** 32,
      arrayBuffer: () => Promise.reject(new Error('read after all')),
    } as unknown as Blob;
    deeds.open({ name: 'vast.stl', blob: vast });
    await rest();
    expect(store.getState().fault?.what).toContain(String(2 ** 32));
  });

  it('when the file was taken away meanwhile', async () => {
    const { store, deeds, rest } = step();
    const gone = {
      size: 1,
      arrayBuffer: () => Promise.reject(new Error('NotReadableError')),
    } as unknown as Blob;
    deeds.open({ name: 'gone.obj', blob: gone });
    await rest();
    expect(store.getState().fault?.what).toContain('gone.obj');
  });

  it('when it is stopped: the worker is ended, late words are not heard, and it goes on from the file', async () => {
    const { store, deeds, workers, rest } = step();
    deeds.open(fileOf(text(pillar)));
    deeds.stop();
    expect(store.getState().work).toBe('stopped');
    expect(workers[0]!.ended).toBe(true);
    workers[0]!.say({ kind: 'stand', turn: 1, stand: { doing: 'closing', share: 0 } });
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(store.getState()).toMatchObject({ work: 'stopped', opened: null, made: null });
    deeds.goOn();
    await rest();
    expect(currentBody(store.getState())).not.toBeNull();
    expect(workers).toHaveLength(2);
  });

  it('when it is left: the answers stay, and changing one reads the file again with them', async () => {
    const { store, deeds, workers, rest } = step();
    deeds.open(fileOf(text(pillar)));
    await rest();
    deeds.choose({ refineEdgeMm: null });
    await rest();
    deeds.leave();
    expect(store.getState()).toMatchObject({ isOpen: false, work: null });
    expect(workers[0]!.ended).toBe(true);
    deeds.show();
    deeds.choose({ closeHoles: false });
    await rest();
    expect(workers[1]!.posted[0]).toMatchObject({
      kind: 'open',
      choices: { refineEdgeMm: null, closeHoles: false },
    });
    expect(currentBody(store.getState())).not.toBeNull();
  });

  it('when the program itself fails: that is said, and the next wish begins anew', async () => {
    const { store, deeds, workers, rest } = step();
    deeds.open(fileOf(text(pillar)));
    await rest();
    workers[0]!.say({ kind: 'bug', turn: null, message: 'x is not a function' });
    expect(store.getState().fault?.what).toContain('x is not a function');
    expect(workers[0]!.ended).toBe(true);
    deeds.choose({ closeHoles: false });
    await rest();
    expect(workers).toHaveLength(2);
    expect(store.getState().fault).toBeNull();
  });
});
