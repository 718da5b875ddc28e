import type { ReactElement } from 'react';
import type { BenchDraft } from '../../store/bench-draft.ts';
import { useBench, useTable } from '../../table.ts';
import { TextField } from './Fields.tsx';

/** The label pinned to the cloth: whose readings these are. */
export function FabricLabel(): ReactElement {
  const { benchActions } = useTable();
  const { name, lot, date, note, invented } = useBench(({ draft }) => draft);
  const set = (key: string, fields: Partial<BenchDraft>): void =>
    benchActions.change(key, (draft) => ({ ...draft, ...fields }));
  return (
    <div className="fabric-label">
      <TextField
        name="Fabric"
        kind="text"
        place="name"
        value={name}
        change={(typed) => set('name', { name: typed })}
      />
      <TextField
        name="Lot"
        kind="text"
        place="lot"
        value={lot}
        change={(typed) => set('lot', { lot: typed })}
      />
      <TextField
        name="Read on"
        kind="text"
        place="date"
        value={date}
        example="2025-03-14"
        change={(typed) => set('date', { date: typed })}
      />
      <TextField
        name="Note"
        kind="text"
        place="note"
        value={note}
        change={(typed) => set('note', { note: typed })}
      />
      <label className="tick">
        <input
          type="checkbox"
          checked={invented}
          onChange={({ target }) => set('invented', { invented: target.checked })}
        />
        Invented, not measured
      </label>
    </div>
  );
}
