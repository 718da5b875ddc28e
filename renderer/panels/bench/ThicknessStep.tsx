import type { ReactElement } from 'react';
import { BENCH_HINTS } from '../../../core/words/bench-place-words.ts';
import { withPart } from '../../store/bench-draft.ts';
import { useBench, useTable } from '../../table.ts';
import { Choice, TextField } from './Fields.tsx';
import { RepeatTable } from './RepeatTable.tsx';

/** Thickness under a foot, with the pressure that it was read at. */
export function ThicknessStep(): ReactElement {
  const { benchActions } = useTable();
  const thickness = useBench(({ draft }) => draft.thickness);
  const set = (key: string | null, fields: Partial<typeof thickness>): void =>
    benchActions.change(key, (draft) => withPart(draft, 'thickness', fields));
  const { standard } = thickness;
  return (
    <>
      <div className="field-row">
        <TextField
          name="Pressure of the foot"
          unit="kPa"
          place="thickness.pressure"
          value={thickness.pressure}
          change={(pressure) => set('thickness.pressure', { pressure })}
        />
        <Choice
          name="Read as"
          options={[
            { value: 'ISO 5084', word: 'ISO 5084' },
            { value: 'ASTM D1777', word: 'ASTM D1777' },
            { value: 'none', word: 'neither' },
          ]}
          chosen={standard ?? 'none'}
          choose={(value) => set('thickness.standard', { standard: value === 'none' ? null : value })}
        />
      </div>
      <RepeatTable
        caption="Thickness, place by place"
        columns={[{ name: 'Thickness', unit: 'mm', place: 'thickness.values', values: thickness.values }]}
        change={([values = []], key) => set(key && `thickness.values ${key}`, { values })}
      />
      <p className="hint">
        {standard === 'ISO 5084' && `${BENCH_HINTS.iso} `}
        {standard === 'ASTM D1777' && `${BENCH_HINTS.astm} `}
        {BENCH_HINTS.pressure}
      </p>
    </>
  );
}
