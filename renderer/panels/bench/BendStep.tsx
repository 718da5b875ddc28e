import type { ReactElement } from 'react';
import { BENCH_HINTS, STRIP_WORDS } from '../../../core/words/bench-place-words.ts';
import { DIRECTIONS, withPart } from '../../store/bench-draft.ts';
import { useBench, useTable } from '../../table.ts';
import { Choice, TextField } from './Fields.tsx';
import { RepeatTable } from './RepeatTable.tsx';

/** Strips over an edge, or hung as a heart-shaped loop. */
export function BendStep(): ReactElement {
  const { benchActions } = useTable();
  const bend = useBench(({ draft }) => draft.bend);
  const set = (key: string | null, fields: Partial<typeof bend>): void =>
    benchActions.change(key, (draft) => withPart(draft, 'bend', fields));
  const isLoop = bend.kind === 'heartLoop';
  const values = isLoop ? bend.loopHeight : bend.overhang;
  return (
    <>
      <div className="field-row">
        <Choice
          name="Bent"
          options={[
            { value: 'cantilever', word: 'over an edge' },
            { value: 'heartLoop', word: 'as a heart loop' },
          ]}
          chosen={bend.kind}
          choose={(kind) => set('bend.kind', { kind })}
        />
        {isLoop ? (
          <TextField
            name="Strip in the loop"
            unit="mm"
            place="bend.stripLength"
            value={bend.stripLength}
            change={(stripLength) => set('bend.stripLength', { stripLength })}
          />
        ) : (
          <TextField
            name="Slope of the tester"
            unit="degrees"
            place="bend.angle"
            value={bend.angle}
            change={(angle) => set('bend.angle', { angle })}
          />
        )}
      </div>
      <RepeatTable
        key={bend.kind}
        caption={isLoop ? 'Height of the loop' : 'Overhang'}
        columns={DIRECTIONS.map((direction) => ({
          name: STRIP_WORDS[direction],
          unit: 'mm',
          place: `bend.${direction}`,
          values: values[direction],
        }))}
        change={([warp = [], weft = [], bias = []], key) =>
          set(key && `bend.${bend.kind} ${key}`, {
            [isLoop ? 'loopHeight' : 'overhang']: { warp, weft, bias },
          })
        }
      />
      <p className="hint">
        {isLoop ? BENCH_HINTS.loopHeight : `${BENCH_HINTS.overhang} ${BENCH_HINTS.slope}`}
      </p>
    </>
  );
}
