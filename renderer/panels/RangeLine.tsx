import { useState, type KeyboardEvent, type ReactElement } from 'react';
import type { Field } from '../../core/fields/field.ts';
import type { ColourRange } from '../../core/sheet/colour-scale.ts';
import { tapeUnits } from '../../core/sheet/display-unit.ts';
import type { Legend } from '../../core/sheet/legend.ts';
import { typedNumber } from '../../core/sheet/number-format.ts';
import type { SettledStudy } from '../store/study-store.ts';
import { isRangeChanged } from '../store/view-store.ts';
import { useTable, useView } from '../table.ts';
import { Key } from './Key.tsx';

interface RangeLineProps {
  readonly legend: Legend;
  readonly settled: SettledStudy;
  readonly field: Field;
  readonly range: ColourRange;
}

/** The range in numbers: typed, locked for both fabrics, fitted only when asked for. */
export function RangeLine({ legend, settled, field, range }: RangeLineProps): ReactElement {
  const { actions } = useTable();
  const isChanged = useView(isRangeChanged);
  const { toSi } = tapeUnits(field.unit).first;
  return (
    <div className="range-line">
      <div className="range-ends">
        <span>Locked</span>
        <RangeEnd
          key={`low ${legend.lowLabel}`}
          name={`Lower end of the range, ${legend.first.unit}`}
          label={legend.lowLabel}
          set={(typed) => actions.setRange({ ...range, low: toSi(typed) })}
        />
        <span>to</span>
        <RangeEnd
          key={`high ${legend.highLabel}`}
          name={`Upper end of the range, ${legend.first.unit}`}
          label={legend.highLabel}
          set={(typed) => actions.setRange({ ...range, high: toSi(typed) })}
        />
        <span>{legend.first.unit}</span>
      </div>
      <div className="range-deeds">
        <button className="word" type="button" onClick={() => actions.fitRange(settled)}>
          <span>Fit to values</span>
          <Key name="A" />
        </button>
        {isChanged && (
          <button className="word" type="button" onClick={actions.resetRange}>
            Reset
          </button>
        )}
      </div>
    </div>
  );
}

interface RangeEndProps {
  readonly name: string;
  readonly label: string;
  readonly set: (typed: number) => void;
}

/** One end: Enter or leaving the field takes the number, Escape gives the old one back. */
function RangeEnd({ name, label, set }: RangeEndProps): ReactElement {
  const [text, setText] = useState(label);
  const take = (): void => {
    const typed = typedNumber(text);
    if (typed !== null && text !== label) set(typed);
    else setText(label);
  };
  const press = (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.key === 'Enter') take();
    if (event.key === 'Escape') setText(label);
  };
  const isNumber = typedNumber(text) !== null;
  return (
    <input
      className="range-end"
      aria-label={name}
      aria-invalid={!isNumber}
      inputMode="decimal"
      value={text}
      onChange={({ target }) => setText(target.value)}
      onBlur={take}
      onKeyDown={press}
    />
  );
}
