import type { ReactElement } from 'react';
import { BENCH_HINTS, STRIP_WORDS } from '../../../core/words/bench-place-words.ts';
import { withPart, type MassUnit } from '../../store/bench-draft.ts';
import { useBench, useTable } from '../../table.ts';
import { Choice, TextField, UnitChoice } from './Fields.tsx';
import { RepeatTable } from './RepeatTable.tsx';

const MASS_UNITS: Readonly<Record<MassUnit, string>> = { g: 'g', mg: 'mg' };

/** Strips of one size, weighed apart or together. */
export function WeighStep(): ReactElement {
  const { benchActions } = useTable();
  const weigh = useBench(({ draft }) => draft.weigh);
  const set = (key: string | null, fields: Partial<typeof weigh>): void =>
    benchActions.change(key, (draft) => withPart(draft, 'weigh', fields));
  return (
    <>
      <div className="field-row">
        <TextField
          name="Strip length"
          unit="mm"
          place="weigh.length"
          value={weigh.length}
          change={(length) => set('weigh.length', { length })}
        />
        <TextField
          name="Strip width"
          unit="mm"
          place="weigh.width"
          value={weigh.width}
          change={(width) => set('weigh.width', { width })}
        />
        <UnitChoice
          name="Masses in"
          words={MASS_UNITS}
          chosen={weigh.unit}
          choose={(unit) => set('weigh.unit', { unit })}
        />
      </div>
      <Choice
        name="Weighed"
        options={[
          { value: 'apart', word: 'apart' },
          { value: 'together', word: 'together' },
        ]}
        chosen={weigh.weighed}
        choose={(weighed) => set('weigh.weighed', { weighed })}
      />
      {weigh.weighed === 'apart' ? (
        <RepeatTable
          caption="Mass of each strip"
          columns={(['warp', 'weft', 'bias'] as const).map((direction) => ({
            name: STRIP_WORDS[direction],
            unit: weigh.unit,
            place: `weigh.${direction}`,
            values: weigh.apart[direction],
          }))}
          change={([warp = [], weft = [], bias = []], key) =>
            set(key && `weigh.apart ${key}`, { apart: { warp, weft, bias } })
          }
        />
      ) : (
        <RepeatTable
          caption="Mass of one strip of each direction together"
          columns={[{ name: 'Together', unit: weigh.unit, place: 'weigh.together', values: weigh.together }]}
          change={([together = []], key) => set(key && `weigh.together ${key}`, { together })}
        />
      )}
      <p className="hint">{weigh.weighed === 'apart' ? BENCH_HINTS.apart : BENCH_HINTS.together}</p>
    </>
  );
}
