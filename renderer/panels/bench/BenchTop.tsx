import type { ReactElement } from 'react';
import { BENCH_DEEDS, BENCH_PART_ORDER, BENCH_PART_WORDS } from '../../../core/words/bench-place-words.ts';
import { useBench, useTable, useView } from '../../table.ts';
import { Key } from '../Key.tsx';
import { OpenFile } from './OpenFile.tsx';

/** The fabric's name, the parts of the bench in the order of work, and what is done with the sheet. */
export function BenchTop(): ReactElement {
  const { benchActions, benchDeeds, actions } = useTable();
  const name = useBench(({ draft }) => draft.name.trim());
  const chosen = useBench(({ part }) => part);
  const isWhole = useBench(({ read }) => read.sheet !== null);
  const canUndo = useBench(({ history }) => history.past.length > 0);
  const canRedo = useBench(({ history }) => history.future.length > 0);
  const helpOpen = useView((view) => view.helpOpen);
  return (
    <header className="top-bar">
      <h1 className="study-name" title={name}>
        {name === '' ? 'The bench' : name}
      </h1>
      <nav className="field-words" aria-label="Parts of the bench">
        {BENCH_PART_ORDER.map((part) => (
          <button
            key={part}
            type="button"
            className="word"
            aria-pressed={part === chosen}
            onClick={() => benchActions.choosePart(part)}
          >
            {BENCH_PART_WORDS[part]}
          </button>
        ))}
      </nav>
      <div className="deeds">
        <button className="word" type="button" disabled={!canUndo} onClick={benchActions.undo}>
          {BENCH_DEEDS.undo}
        </button>
        <button className="word" type="button" disabled={!canRedo} onClick={benchActions.redo}>
          {BENCH_DEEDS.redo}
        </button>
        <button className="word" type="button" onClick={benchDeeds.startAfresh}>
          {BENCH_DEEDS.fresh}
        </button>
        <OpenFile />
        <button
          className="word"
          type="button"
          disabled={!isWhole}
          onClick={() => void benchDeeds.saveSheet()}
        >
          {BENCH_DEEDS.save}
        </button>
        <button className="word" type="button" aria-expanded={helpOpen} onClick={actions.toggleHelp}>
          <span>Help</span>
          <Key name="?" />
        </button>
      </div>
    </header>
  );
}
