import { useEffect } from 'react';
import { FIELD_ORDER } from '../core/words/field-words.ts';
import { VIEW_KEYS, VIEW_ORDER } from '../core/words/stage-words.ts';
import type { ShownStudy } from './store/study-store.ts';
import { useTable, type Table } from './table.ts';

/** Every key of the window; KEY_LINES in core/words/stage-words.ts tells them. */
export function keyTable(table: Table): ReadonlyMap<string, () => void> {
  const { actions, runner, study, view } = table;
  const withShown = (work: (shown: ShownStudy) => void) => () => {
    const { shown } = study.getState();
    if (shown !== null) work(shown);
  };
  const keys = new Map<string, () => void>([
    [' ', withShown(({ settled }) => actions.swapFabric(settled.worn.length))],
    ['d', withShown(({ settled }) => settled.comparison !== null && actions.toggleDifference())],
    ['a', withShown(({ settled }) => actions.fitRange(settled))],
    ['c', actions.changeRamp],
    ['z', actions.toggleFraming],
    ['arrowleft', () => actions.turn(-15, 0)],
    ['arrowright', () => actions.turn(15, 0)],
    ['arrowup', () => actions.turn(0, -15)],
    ['arrowdown', () => actions.turn(0, 15)],
    ['+', () => actions.approach(0.8)],
    ['=', () => actions.approach(0.8)],
    ['-', () => actions.approach(1.25)],
    ['o', () => void table.openStudy()],
    ['p', () => void table.savePicture()],
    ['?', actions.toggleHelp],
    [
      'escape',
      () => {
        if (study.getState().activity.kind !== 'idle') runner.stop();
        else if (study.getState().notice !== null) study.setState({ notice: null });
        else if (view.getState().helpOpen) actions.toggleHelp();
        else actions.closeLeaf();
      },
    ],
  ]);
  FIELD_ORDER.forEach((field, index) => keys.set(String(index + 1), () => actions.chooseField(field)));
  for (const name of VIEW_ORDER) keys.set(VIEW_KEYS[name].toLowerCase(), () => actions.look(name));
  return keys;
}

/** Listens on the whole window, but not while somebody types. */
export function useKeys(): void {
  const table = useTable();
  useEffect(() => {
    const keys = keyTable(table);
    const press = (event: KeyboardEvent): void => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const { target } = event;
      if (target instanceof HTMLInputElement) return;
      // Space on a button that was reached by keyboard presses that button.
      if (event.key === ' ' && target instanceof HTMLButtonElement && target.matches(':focus-visible'))
        return;
      const work = keys.get(event.key.toLowerCase());
      if (work === undefined) return;
      event.preventDefault();
      work();
    };
    // A button that was clicked with the pointer does not keep the keys: Space swaps again at once.
    const letGo = ({ detail, target }: MouseEvent): void => {
      if (detail > 0 && target instanceof Element) target.closest('button')?.blur();
    };
    globalThis.addEventListener('keydown', press);
    globalThis.addEventListener('click', letGo);
    return () => {
      globalThis.removeEventListener('keydown', press);
      globalThis.removeEventListener('click', letGo);
    };
  }, [table]);
}
