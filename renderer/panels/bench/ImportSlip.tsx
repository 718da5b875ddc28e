import type { ReactElement } from 'react';
import type { ColumnMeaning } from '../../../core/io/tensile-table.ts';
import { IMPORT_WORDS, STRIP_WORDS } from '../../../core/words/bench-place-words.ts';
import { columnMeaningWords } from '../../../core/words/table-words.ts';
import { sayFinding } from '../../../core/words/say.ts';
import { STRIPS } from '../../store/bench-draft.ts';
import { stripWishes, withAnswer, type Incoming, type IncomingStrip } from '../../store/bench-import.ts';
import { useBench, useTable } from '../../table.ts';
import { ImportQuestions } from './ImportQuestions.tsx';

/** A tester's table before it is taken over: what was understood, what is asked, which strips go where. */
export function ImportSlip(): ReactElement | null {
  const { benchDeeds } = useTable();
  const incoming = useBench((bench) => bench.incoming);
  if (incoming === null) return null;
  const { file, table } = incoming;
  const isReady = stripWishes(incoming).length > 0;
  const findings = [...new Set(table.findings.map(sayFinding))];
  return (
    <section className="import-slip" aria-label={IMPORT_WORDS.title}>
      <header className="leaf-head">
        <h2>{file.name}</h2>
        <button type="button" className="plain" onClick={benchDeeds.putTableAway}>
          {IMPORT_WORDS.putAway}
        </button>
      </header>
      <p className="soft">{IMPORT_WORDS.understood(table.rowCount, table.test)}</p>
      <Columns incoming={incoming} />
      {table.questions.length > 0 ? (
        <ImportQuestions key={table.questions.length} incoming={incoming} />
      ) : (
        <Strips incoming={incoming} />
      )}
      {findings.slice(0, 4).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <button
        type="button"
        className="word take-over"
        disabled={!isReady}
        onClick={() => void benchDeeds.takeOver()}
      >
        {IMPORT_WORDS.takeOver}
      </button>
    </section>
  );
}

/** Columns shown at most. */
const MOST_COLUMNS = 10;
const MEANINGS = Object.keys(columnMeaningWords).filter(
  (meaning): meaning is ColumnMeaning => meaning in columnMeaningWords,
);

/** Columns as they were understood; a word that is wrong is changed in its place. */
function Columns({ incoming }: { readonly incoming: Incoming }): ReactElement {
  const { benchDeeds } = useTable();
  const { table } = incoming;
  const say = (column: number, typed: string): void => {
    const meaning = MEANINGS.find((one) => one === typed);
    if (meaning !== undefined)
      void benchDeeds.sayOfTable((wish) => withAnswer(wish, { column: { column, meaning } }));
  };
  // What means something stands first.
  const columns = table.columns.toSorted(
    (a, b) => Number(a.meaning === 'ignored') - Number(b.meaning === 'ignored'),
  );
  return (
    <table className="sheet figures import-columns">
      <thead>
        <tr>
          <th scope="col">Column</th>
          <th scope="col">read as</th>
          <th scope="col">in</th>
        </tr>
      </thead>
      <tbody>
        {columns.slice(0, MOST_COLUMNS).map(({ column, headerRow, header, meaning, unit }) => (
          <tr key={`${column} ${headerRow}`}>
            <th scope="row">
              {column} · {header === '' ? IMPORT_WORDS.noHeader : header}
            </th>
            <td>
              <select
                aria-label={IMPORT_WORDS.readAs(column)}
                value={meaning}
                onChange={({ target }) => say(column, target.value)}
              >
                {MEANINGS.map((one) => (
                  <option key={one} value={one}>
                    {columnMeaningWords[one]}
                  </option>
                ))}
              </select>
            </td>
            <td>{unit ?? '–'}</td>
          </tr>
        ))}
      </tbody>
      {columns.length > MOST_COLUMNS && (
        <caption className="import-left">{IMPORT_WORDS.left(columns.length - MOST_COLUMNS)}</caption>
      )}
    </table>
  );
}

/** Which strips of the table go where, and of which cycle. */
function Strips({ incoming }: { readonly incoming: Incoming }): ReactElement {
  const { benchDeeds } = useTable();
  const { strips, cycle, cycles } = incoming;
  const set = (index: number, strip: IncomingStrip): void =>
    benchDeeds.choose({ ...incoming, strips: strips.with(index, strip) });
  return (
    <>
      {cycles.length > 1 && (
        <label className="import-line">
          <span>{IMPORT_WORDS.cycle}</span>
          <select
            value={cycle ?? ''}
            onChange={({ target }) => benchDeeds.choose({ ...incoming, cycle: Number(target.value) })}
          >
            {cycles.map((one) => (
              <option key={one} value={one}>
                {one}
              </option>
            ))}
          </select>
        </label>
      )}
      {strips.map((strip, index) => (
        <StripLine key={strip.from} strip={strip} change={(changed) => set(index, changed)} />
      ))}
    </>
  );
}

interface StripLineProps {
  readonly strip: IncomingStrip;
  readonly change: (strip: IncomingStrip) => void;
}

function StripLine({ strip, change }: StripLineProps): ReactElement {
  const { from, into, specimens } = strip;
  const name = from === null ? IMPORT_WORDS.unsaid : STRIP_WORDS[from];
  return (
    <div className="import-line">
      <label>
        <span>{IMPORT_WORDS.goesTo(name)}</span>
        <select
          value={into ?? ''}
          onChange={({ target }) =>
            change({
              ...strip,
              into: [...STRIPS, 'out' as const].find((one) => one === target.value) ?? null,
            })
          }
        >
          {into === null && <option value="">{IMPORT_WORDS.choose}</option>}
          {STRIPS.map((one) => (
            <option key={one} value={one}>
              {STRIP_WORDS[one]}
            </option>
          ))}
          <option value="out">{IMPORT_WORDS.leaveOut}</option>
        </select>
      </label>
      {specimens.length > 1 && (
        <span className="import-specimens" role="group" aria-label={IMPORT_WORDS.specimensOf(name)}>
          {specimens.slice(0, 8).map(({ specimen, isTaken }, index) => (
            <label key={specimen}>
              <input
                type="checkbox"
                checked={isTaken}
                onChange={() =>
                  change({ ...strip, specimens: specimens.with(index, { specimen, isTaken: !isTaken }) })
                }
              />
              {specimen}
            </label>
          ))}
        </span>
      )}
    </div>
  );
}
