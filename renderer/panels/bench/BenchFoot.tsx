import { useId, type ReactElement } from 'react';
import { BENCH_DEEDS } from '../../../core/words/bench-place-words.ts';
import { fabricLetter } from '../../../core/words/stage-words.ts';
import { useBench, useStudy, useTable } from '../../table.ts';

/** What can be done with the fabric: onto the form, or beside another one. */
export function BenchFoot(): ReactElement {
  const { benchDeeds } = useTable();
  const isFabric = useBench(({ reading }) => reading.outcome.kind === 'fabric' && !reading.isStale);
  const sheet = useStudy(({ shown }) => shown?.sheet ?? null);
  return (
    <footer className="bench-foot">
      <div className="put-on">
        {[0, 1].map((index) => (
          <button
            key={index}
            type="button"
            className="word"
            disabled={!isFabric}
            onClick={() => void benchDeeds.putOnForm(index)}
          >
            {BENCH_DEEDS.putOn(fabricLetter(index))}
          </button>
        ))}
        <span className="soft">
          {sheet === null
            ? 'No study lies on the stage.'
            : sheet.fabrics
                .slice(0, 2)
                .map(({ name }, index) => `${fabricLetter(index)} is now ${name}`)
                .join(', ')}
        </span>
      </div>
      <SetBeside />
    </footer>
  );
}

/** A second fabric for curves and swatch. */
function SetBeside(): ReactElement {
  const { benchDeeds } = useTable();
  const id = useId();
  const beside = useBench((bench) => bench.beside);
  const sheet = useStudy(({ shown }) => shown?.sheet ?? null);
  const fabrics = sheet?.fabrics ?? [];
  const isOfStudy = fabrics.some(({ id: fabricId }) => `study ${fabricId}` === beside?.key);
  return (
    <div className="beside">
      <label htmlFor={id}>Beside it</label>
      <select
        id={id}
        value={beside?.key ?? ''}
        onChange={({ target }) => void benchDeeds.setBeside(target.value)}
      >
        <option value="">nothing</option>
        {fabrics.map(({ id: fabricId, name }, index) => (
          <option key={fabricId} value={`study ${fabricId}`}>
            {fabricLetter(index)} · {name}
          </option>
        ))}
        {beside !== null && !isOfStudy && <option value={beside.key}>{beside.fabric.sheet.name}</option>}
      </select>
    </div>
  );
}
