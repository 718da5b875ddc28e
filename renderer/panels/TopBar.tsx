import type { ReactElement } from 'react';
import { useStudy, useTable, useView } from '../table.ts';
import { FieldWords } from './FieldWords.tsx';
import { Key } from './Key.tsx';

/** The study's name, the words of the maps, and the three things done with paper. */
export function TopBar(): ReactElement {
  const { openStudy, savePicture, actions } = useTable();
  const name = useStudy(({ shown, activity }) =>
    activity.kind === 'settling' ? activity.sheet.name : (shown?.sheet.name ?? 'Snugfield'),
  );
  const hasStudy = useStudy(({ shown }) => shown !== null);
  const helpOpen = useView((view) => view.helpOpen);
  return (
    <header className="top-bar">
      <h1 className="study-name" title={name}>
        {name}
      </h1>
      <FieldWords />
      <div className="deeds">
        <button className="word" type="button" onClick={() => void openStudy()}>
          <span>Open</span>
          <Key name="O" />
        </button>
        <button className="word" type="button" disabled={!hasStudy} onClick={() => void savePicture()}>
          <span>Picture</span>
          <Key name="P" />
        </button>
        <button className="word" type="button" aria-expanded={helpOpen} onClick={actions.toggleHelp}>
          <span>Help</span>
          <Key name="?" />
        </button>
      </div>
    </header>
  );
}
