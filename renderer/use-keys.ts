import { useEffect } from 'react';
import { FIELD_ORDER } from '../core/words/field-words.ts';
import { VIEW_KEYS, VIEW_ORDER } from '../core/words/stage-words.ts';
import type { ShownStudy } from './store/study-store.ts';
import { useTable, type Table } from './table.ts';

/** Every key of the window; KEY_LINES in core/words/stage-words.ts tells them. */
export function keyTable(table: Table): ReadonlyMap<string, () => void> {
  const { actions, study } = table;
  const withShown = (work: (shown: ShownStudy) => void) => () => {
    const { shown } = study.getState();
    if (shown !== null) work(shown);
  };
  const stage = new Map<string, () => void>([
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
    ['p', () => void table.savePicture()],
  ]);
  FIELD_ORDER.forEach((field, index) => stage.set(String(index + 1), () => actions.chooseField(field)));
  for (const name of VIEW_ORDER) stage.set(VIEW_KEYS[name].toLowerCase(), () => actions.look(name));
  return withBench(table, stage);
}

/** The stage's keys sleep while the bench stands in the window; the bench's own and those of both places are added. */
function withBench(table: Table, stage: ReadonlyMap<string, () => void>): ReadonlyMap<string, () => void> {
  const { actions, runner, study, view, history, bench, benchActions, benchSignals } = table;
  const isBench = (): boolean => bench.getState().isOpen;
  const keys = new Map<string, () => void>();
  for (const [key, work] of stage) keys.set(key, () => !isBench() && work());
  keys.set('n', () => (isBench() ? benchActions.close() : benchActions.open()));
  keys.set('o', () => {
    if (isBench()) benchSignals.openFile.set(benchSignals.openFile.get() + 1);
    else void table.openStudy();
  });
  keys.set('i', () => table.bringBody());
  keys.set('?', actions.toggleHelp);
  keys.set('ctrl+z', () => (isBench() ? benchActions.undo() : history.undo()));
  keys.set('ctrl+shift+z', () => (isBench() ? benchActions.redo() : history.redo()));
  keys.set('escape', () => {
    if (study.getState().activity.kind !== 'idle') runner.stop();
    else if (study.getState().notice !== null) study.setState({ notice: null });
    else if (view.getState().helpOpen) actions.toggleHelp();
    else if (isBench()) leaveBench(table);
    else actions.closeLeaf();
  });
  return withProof(table, withImport(table, keys));
}

/** While a body is brought in, keys turn its preview and leave it; those of the study beneath sleep. */
function withImport(table: Table, places: ReadonlyMap<string, () => void>): ReadonlyMap<string, () => void> {
  const { study, view, actions, imports, importDeeds, importViewActions: own } = table;
  const isImport = (): boolean => imports.getState().isOpen;
  const keys = new Map<string, () => void>();
  for (const [key, work] of places) keys.set(key, () => !isImport() && work());
  const inStep = (key: string, work: () => void): void => {
    const elsewhere = places.get(key);
    keys.set(key, () => (isImport() ? work() : elsewhere?.()));
  };
  for (const name of VIEW_ORDER) inStep(VIEW_KEYS[name].toLowerCase(), () => own.look(name));
  inStep('arrowleft', () => own.turn(-15, 0));
  inStep('arrowright', () => own.turn(15, 0));
  inStep('arrowup', () => own.turn(0, -15));
  inStep('arrowdown', () => own.turn(0, 15));
  for (const key of ['+', '=']) inStep(key, () => own.approach(0.8));
  inStep('-', () => own.approach(1.25));
  inStep('o', () => void importDeeds.pick());
  inStep('?', actions.toggleHelp);
  inStep('escape', () => {
    if (study.getState().notice !== null) study.setState({ notice: null });
    else if (view.getState().helpOpen) actions.toggleHelp();
    else importDeeds.leave();
  });
  return keys;
}

/** Every other key sleeps while the page of outside checks lies open. */
function withProof(table: Table, places: ReadonlyMap<string, () => void>): ReadonlyMap<string, () => void> {
  const { study, view, actions, proof, proofDeeds } = table;
  const keys = new Map<string, () => void>();
  for (const [key, work] of places) keys.set(key, () => !proof.getState().isOpen && work());
  const onPage = (key: string, work: () => void): void => {
    const elsewhere = places.get(key);
    keys.set(key, () => (proof.getState().isOpen ? work() : elsewhere?.()));
  };
  onPage('p', () => void table.saveProof('picture'));
  onPage('?', actions.toggleHelp);
  onPage('escape', () => {
    if (study.getState().notice !== null) study.setState({ notice: null });
    else if (view.getState().helpOpen) actions.toggleHelp();
    else if (proof.getState().checking !== null) proofDeeds.stop();
    else proofDeeds.close();
  });
  return keys;
}

/** First the table that waits on the bench is put away, then the bench itself is left. */
function leaveBench({ bench, benchActions, benchDeeds }: Table): void {
  if (bench.getState().incoming !== null) benchDeeds.putTableAway();
  else benchActions.close();
}

/** Fields that take letters; on a word pair or a tick the keys go on working. */
function isTyping(target: EventTarget | null): boolean {
  if (target instanceof HTMLInputElement)
    return !['radio', 'checkbox', 'range', 'file'].includes(target.type);
  return target instanceof HTMLSelectElement || target instanceof HTMLTextAreaElement;
}

/** Arrows and Space belong to a word pair, a tick or a slider while it has the focus. */
const isOwnKey = (target: EventTarget | null, key: string): boolean =>
  target instanceof HTMLInputElement && (key === ' ' || key.startsWith('Arrow'));

/** `ctrl+shift+z`; null for what belongs to the browser. */
function keyName({ key, ctrlKey, metaKey, altKey, shiftKey }: KeyboardEvent): string | null {
  const name = key.toLowerCase();
  if (altKey) return null;
  if (!ctrlKey && !metaKey) return name;
  return name === 'z' ? `ctrl+${shiftKey ? 'shift+' : ''}z` : null;
}

/** Listens on the whole window, but not while somebody types. */
export function useKeys(): void {
  const table = useTable();
  useEffect(() => {
    const keys = keyTable(table);
    const press = (event: KeyboardEvent): void => {
      const { target } = event;
      const name = keyName(event);
      if (name === null || isTyping(target) || isOwnKey(target, event.key)) return;
      // Space on a button that was reached by keyboard presses that button.
      if (event.key === ' ' && target instanceof HTMLButtonElement && target.matches(':focus-visible'))
        return;
      const work = keys.get(name);
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
