import type { ReactElement } from 'react';
import type { Field } from '../../core/fields/field.ts';
import type { ColourRange } from '../../core/sheet/colour-scale.ts';
import { tapeUnits } from '../../core/sheet/display-unit.ts';
import type { Legend } from '../../core/sheet/legend.ts';
import type { SettledStudy } from '../store/study-store.ts';
import { isRangeChanged } from '../store/view-store.ts';
import { useTable, useView } from '../table.ts';
import { Key } from './Key.tsx';
import { TypedNumber } from './TypedNumber.tsx';

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
        <TypedNumber
          key={`low ${legend.lowLabel}`}
          name={`Lower end of the range, ${legend.first.unit}`}
          label={legend.lowLabel}
          set={(typed) => actions.setRange({ ...range, low: toSi(typed) })}
        />
        <span>to</span>
        <TypedNumber
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
