import { beforeEach, describe, expect, it } from 'vitest';
import {
  createViewStore,
  hatchMargin,
  isRangeChanged,
  paintedField,
  rangeOf,
  viewActions,
  type ViewActions,
  type ViewStore,
} from '../../renderer/store/view-store.ts';
import { pretendSettled } from '../help/pretend-result.ts';

const settled = pretendSettled();
let store: ViewStore;
let actions: ViewActions;

beforeEach(() => {
  store = createViewStore();
  actions = viewActions(store);
  actions.lay(settled);
});

describe('range', () => {
  it('is shared by both fabrics and stays when they are swapped', () => {
    const before = rangeOf(store.getState());
    actions.swapFabric(2);
    expect(store.getState().fabric).toBe(1);
    expect(rangeOf(store.getState())).toEqual(before);
    // Made-up pressures reach 1500 * 1.5 = 2250 Pa: the smallest standard range above is 4 kPa.
    expect(before).toEqual({ low: 0, high: 4000 });
  });

  it('stays locked as typed until it is reset, per field', () => {
    actions.setRange({ low: 500, high: 2500 });
    expect(rangeOf(store.getState())).toEqual({ low: 500, high: 2500 });
    expect(isRangeChanged(store.getState())).toBe(true);
    actions.chooseField('gap');
    expect(isRangeChanged(store.getState())).toBe(false);
    actions.chooseField('skinPressure');
    actions.resetRange();
    expect(rangeOf(store.getState())).toEqual({ low: 0, high: 4000 });
  });

  it('never becomes one that cannot be divided by', () => {
    actions.setRange({ low: 1000, high: 1000 });
    expect(rangeOf(store.getState())).toEqual({ low: 0, high: 4000 });
    actions.setRange({ low: 3000, high: 1000 });
    expect(rangeOf(store.getState())).toEqual({ low: 1000, high: 3000 });
  });

  it('of a difference keeps zero in the middle whichever end is typed', () => {
    actions.toggleDifference();
    const { high } = rangeOf(store.getState());
    actions.setRange({ low: -300, high });
    expect(rangeOf(store.getState())).toEqual({ low: -300, high: 300 });
    actions.setRange({ low: -300, high: 700 });
    expect(rangeOf(store.getState())).toEqual({ low: -700, high: 700 });
  });

  it('is fitted to both fabrics together, once, when asked', () => {
    actions.fitRange(settled);
    const fitted = rangeOf(store.getState());
    const highest = Math.max(...settled.worn[0]!.fields[0]!.values);
    expect(fitted.high).toBeGreaterThanOrEqual(highest);
    actions.swapFabric(2);
    expect(rangeOf(store.getState())).toEqual(fitted);
  });

  it('of the last study is put away when a new one is laid', () => {
    actions.setRange({ low: 0, high: 123 });
    actions.swapFabric(2);
    actions.lay(settled);
    expect(rangeOf(store.getState()).high).toBe(4000);
    expect(store.getState().fabric).toBe(0);
  });
});

describe('what is painted', () => {
  it('is the chosen field of the chosen fabric, or the difference', () => {
    actions.chooseField('give');
    actions.chooseFabric(1);
    expect(paintedField(settled, store.getState())).toBe(
      settled.worn[1]!.fields.find(({ id }) => id === 'give'),
    );
    actions.toggleDifference();
    const difference = paintedField(settled, store.getState());
    expect(difference.kind).toBe('symmetric');
    expect(settled.comparison!.differences).toContain(difference);
  });

  it('leaves the difference when a fabric is asked for', () => {
    actions.toggleDifference();
    actions.swapFabric(2);
    expect(store.getState().showing).toBe('values');
  });

  it('shows values where there is nothing to compare', () => {
    actions.toggleDifference();
    const alone = { ...settled, comparison: null };
    expect(alone.worn[0]!.fields).toContain(paintedField(alone, store.getState()));
  });

  it('is hatched by distance where skin decides, gaps the other way round', () => {
    const view = { field: 'skinPressure', showing: 'values', fabric: 0 } as const;
    expect(hatchMargin(settled, view)).toBe(settled.worn[0]!.distance);
    expect(hatchMargin(settled, { ...view, field: 'gap' })![5]).toBe(-settled.worn[0]!.distance[5]!);
    expect(hatchMargin(settled, { ...view, field: 'tensionAlong' })).toBeNull();
  });
});

describe('wishes for views', () => {
  it('count up, so that the same view can be asked for twice', () => {
    actions.look('front');
    const { count } = store.getState().wish;
    actions.look('front');
    expect(store.getState().wish).toMatchObject({ view: 'front', turn: null, count: count + 1 });
  });

  it('keep the framing until it is changed', () => {
    actions.toggleFraming();
    actions.look('back');
    expect(store.getState().wish.framing).toBe('form');
  });
});

it('opens one leaf at a time and closes it with the same word', () => {
  actions.toggleLeaf('body');
  actions.toggleLeaf('review');
  expect(store.getState().leaf).toBe('review');
  actions.toggleLeaf('review');
  expect(store.getState().leaf).toBeNull();
});
