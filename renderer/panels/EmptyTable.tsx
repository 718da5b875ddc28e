import type { ReactElement } from 'react';
import { useTable } from '../table.ts';

/** An empty table says how to lay something on it. */
export function EmptyTable(): ReactElement {
  const { openStudy, openDemo } = useTable();
  return (
    <div className="empty">
      <p>Drop a study and its fabric sheets on the table.</p>
      <div>
        <button className="word" type="button" onClick={() => void openStudy()}>
          Open a study
        </button>
        <button className="word" type="button" onClick={() => void openDemo()}>
          Open the demonstration
        </button>
      </div>
    </div>
  );
}
