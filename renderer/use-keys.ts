import { useEffect } from 'react';
import { FIELD_ORDER } from '../core/words/field-words.ts';
import { VIEW_KEYS, type ViewName } from '../core/words/stage-words.ts';
import { useTable, type Table } from './table.ts';

type KeyTable = Readonly<Record<string, () => void>>;

/** Every key of the window; see KEY_LINES in core/words/stage-words.ts for what is told of them. */
function keyTable(table: Table): KeyTable {
  const { actions, runner, study, view } = table;
  const fields = FIELD_ORDER.map((field, index) => [String(index + 1), () => actions.chooseField(field)]);
  const views = Object.entries(VIEW_KEYS).map(([name, key]) => [
    key.toLowerCase(),
    // Object.entries forgets that the keys are view names.
    () => actions.look(name as ViewName),
  ]);
  const withShown = (work: (fabricCount: number) => void): void => {
    const { shown } = study.getState();
    if (shown !== null) work(shown.settled.worn.length);
  };
  return {
    ...(Object.fromEntries([...fields, ...views]) as KeyTable),
    ' ': () => withShown(actions.swapFabric),
    d: () => withShown((count) => count > 1 && actions.toggleDifference()),
    c: actions.changeRamp,
    a: () => {
      const { shown } = study.getState();
      if (shown !== null) actions.fitRange(shown.settled);
    },
    z: actions.toggleFraming,
    arrowleft: () => actions.turn(-15, 0),
    arrowright: () => actions.turn(15, 0),
    arrowup: () => actions.turn(0, -15),
    arrowdown: () => actions.turn(0, 15),
    '+': () => actions.approach(0.8),
    '=': () => actions.approach(0.8),
    '-': () => actions.approach(1.25),
    o: () => void table.openStudy(),
    p: () => void table.savePicture(),
    '?': actions.toggleHelp,
    escape: () => {
      if (study.getState().activity.kind !== 'idle') runner.stop();
      else if (study.getState().notice !== null) study.setState({ notice: null });
      else if (view.getState().helpOpen) actions.toggleHelp();
      else actions.closeLeaf();
    },
  };
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
      const work = keys[event.key.toLowerCase()];
      if (work === undefined) return;
      event.preventDefault();
      work();
    };
    globalThis.addEventListener('keydown', press);
    return () => globalThis.removeEventListener('keydown', press);
  }, [table]);
}
