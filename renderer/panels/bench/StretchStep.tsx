import type { ReactElement } from 'react';
import {
  BENCH_HINTS,
  EXTENSION_MM_WORDS,
  EXTENSION_UNIT_WORDS,
  FORCE_UNIT_WORDS,
  STRIP_WORDS,
  WIDTH_UNIT_WORDS,
} from '../../../core/words/bench-place-words.ts';
import { DIRECTIONS, STRIPS, withPart, type PairUnits } from '../../store/bench-draft.ts';
import { useBench, useTable } from '../../table.ts';
import { Choice, TextField, UnitChoice } from './Fields.tsx';
import { StripTables } from './StripTables.tsx';

/** Strips or loops pulled out and let back: how, in which units, and the readings direction by direction. */
export function StretchStep(): ReactElement {
  const { benchActions } = useTable();
  const strip = useBench((bench) => bench.strip);
  return (
    <>
      <TestFields />
      <UnitFields />
      <div className="strip-row" role="group" aria-label="Strips by their cut">
        {STRIPS.map((name) => (
          <button
            key={name}
            type="button"
            className="word"
            aria-pressed={name === strip}
            onClick={() => benchActions.chooseStrip(name)}
          >
            {STRIP_WORDS[name]}
          </button>
        ))}
      </div>
      <StripTables key={strip} strip={strip} />
    </>
  );
}

/** Strip or loop, its size, and the cycle. */
function TestFields(): ReactElement {
  const { benchActions } = useTable();
  const stretch = useBench(({ draft }) => draft.stretch);
  const set = (key: string, fields: Partial<typeof stretch>): void =>
    benchActions.change(key, (draft) => withPart(draft, 'stretch', fields));
  const isLoop = stretch.test === 'loop';
  return (
    <div className="field-row">
      <Choice
        name="Pulled"
        options={[
          { value: 'strip', word: 'as a strip' },
          { value: 'loop', word: 'as a loop' },
        ]}
        chosen={stretch.test}
        choose={(test) => set('stretch.test', { test })}
      />
      <TextField
        name="Gauge length"
        unit="mm"
        place="stretch.gauge"
        value={stretch.gauge}
        change={(gauge) => set('stretch.gauge', { gauge })}
      />
      {isLoop && (
        <TextField
          name="Round the loop"
          unit="mm"
          place="stretch.circumference"
          value={stretch.circumference}
          change={(circumference) => set('stretch.circumference', { circumference })}
        />
      )}
      <TextField
        name="Strip width"
        unit="mm"
        place="stretch.width"
        value={stretch.width}
        change={(width) => set('stretch.width', { width })}
      />
      <TextField
        name="Cycle"
        place="stretch.cycle"
        value={stretch.cycle}
        className="narrow"
        change={(cycle) => set('stretch.cycle', { cycle })}
      />
    </div>
  );
}

/** What the numbers of the tables are in, and the question that nobody answers for the person. */
function UnitFields(): ReactElement {
  const { benchActions } = useTable();
  const { units, test } = useBench(({ draft }) => draft.stretch);
  const greatest = useBench(({ draft }) => draft.greatestStretch);
  const set = (changed: Partial<PairUnits>): void =>
    benchActions.change(null, (draft) =>
      withPart(draft, 'stretch', { units: { ...draft.stretch.units, ...changed } }),
    );
  return (
    <div className="field-row">
      <UnitChoice
        name="Extension in"
        words={EXTENSION_UNIT_WORDS}
        chosen={units.extension}
        choose={(extension) => set({ extension })}
      />
      <UnitChoice
        name="Force in"
        words={FORCE_UNIT_WORDS}
        chosen={units.force}
        choose={(force) => set({ force })}
      />
      <UnitChoice
        name="Width in"
        words={WIDTH_UNIT_WORDS}
        chosen={units.width}
        choose={(width) => set({ width })}
      />
      <Choice
        name="Which way does it stretch most?"
        options={DIRECTIONS.map((value) => ({ value, word: STRIP_WORDS[value] }))}
        chosen={greatest}
        choose={(greatestStretch) =>
          benchActions.change('greatestStretch', (draft) => ({ ...draft, greatestStretch }))
        }
      />
      {(units.extension === 'mm' || test === 'loop') && (
        <p className="hint field-hint">
          {units.extension === 'mm' && EXTENSION_MM_WORDS[test]} {test === 'loop' && BENCH_HINTS.loopForce}
        </p>
      )}
    </div>
  );
}
