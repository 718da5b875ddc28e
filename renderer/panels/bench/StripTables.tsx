import type { ReactElement } from 'react';
import { BENCH_HINTS, TABLE_WORDS } from '../../../core/words/bench-place-words.ts';
import {
  CURVES,
  EMPTY_SPECIMEN,
  withoutSpecimen,
  withPart,
  withSpecimen,
  withTable,
  type CurveName,
  type StripName,
} from '../../store/bench-draft.ts';
import { useBench, useTable } from '../../table.ts';
import { Choice } from './Fields.tsx';
import { ReadingTable } from './ReadingTable.tsx';
import { faultyField, noteAt } from './use-field.ts';

/** Rows of a table before anything is typed: every 10 % up to 100 % and the start. */
const LEAST = 12;

/** The tables of one cut: its strips one after another, each pulled out, let back and measured across. */
export function StripTables({ strip }: { readonly strip: StripName }): ReactElement {
  const curves: readonly CurveName[] = strip === 'held' ? ['load'] : CURVES;
  return (
    <div className="strip-tables">
      <Specimens strip={strip} />
      {strip === 'held' && <HeldDirection />}
      <div className="curve-tables">
        {curves.map((curve) => (
          <CurveTable key={curve} strip={strip} curve={curve} />
        ))}
      </div>
      <p className="hint">
        {strip === 'held' ? BENCH_HINTS.held : `${BENCH_HINTS.paste} ${BENCH_HINTS.width}`}
      </p>
    </div>
  );
}

/** Which of the repeats lies open. */
function Specimens({ strip }: { readonly strip: StripName }): ReactElement {
  const { benchActions } = useTable();
  const count = useBench(({ draft }) => draft.stretch.strips[strip].length);
  const chosen = useBench(({ specimen }) => specimen);
  const add = (): void => {
    benchActions.change(null, (draft) => withSpecimen(draft, strip));
    benchActions.chooseSpecimen(count);
  };
  return (
    <div className="specimens" role="group" aria-label="Repeats">
      {Array.from({ length: count }, (_, index) => (
        <button
          key={index}
          type="button"
          className="word"
          aria-pressed={index === chosen}
          onClick={() => benchActions.chooseSpecimen(index)}
        >
          Strip {index + 1}
        </button>
      ))}
      <button type="button" className="plain" onClick={add}>
        Another strip
      </button>
      <button
        type="button"
        className="plain"
        onClick={() => benchActions.change(null, (draft) => withoutSpecimen(draft, strip, chosen))}
      >
        {count > 1 ? 'Take this one away' : 'Clear this one'}
      </button>
    </div>
  );
}

function HeldDirection(): ReactElement {
  const { benchActions } = useTable();
  const direction = useBench(({ draft }) => draft.stretch.heldDirection);
  return (
    <Choice
      name="Pulled along"
      options={[
        { value: 'warp', word: 'warp' },
        { value: 'weft', word: 'weft' },
      ]}
      chosen={direction}
      choose={(heldDirection) =>
        benchActions.change('stretch.heldDirection', (draft) => withPart(draft, 'stretch', { heldDirection }))
      }
    />
  );
}

interface CurveTableProps {
  readonly strip: StripName;
  readonly curve: CurveName;
}

function CurveTable({ strip, curve }: CurveTableProps): ReactElement {
  const { benchActions } = useTable();
  const state = useBench((bench) => bench);
  const faulty = faultyField(state);
  const { specimen } = state;
  const { units, strips } = state.draft.stretch;
  const rows = (strips[strip][specimen] ?? EMPTY_SPECIMEN)[curve];
  const { title, reading } = TABLE_WORDS[curve];
  const place = `stretch.${strip}[${specimen}].${curve}`;
  return (
    <ReadingTable
      key={specimen}
      caption={title}
      columns={[
        { name: 'Extension', unit: units.extension },
        { name: reading, unit: curve === 'width' ? units.width : units.force },
      ]}
      rows={rows}
      least={LEAST}
      noteAt={(row, column) =>
        noteAt(state, `${place}[${row}][${column}]`, rows[row]?.[column] ?? '', faulty)?.text ?? null
      }
      change={(next, key) =>
        benchActions.change(key && `${place} ${key}`, (draft) =>
          withTable(
            draft,
            { strip, specimen, curve },
            next.map(([extension = '', value = '']) => [extension, value]),
          ),
        )
      }
    />
  );
}
