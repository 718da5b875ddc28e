import { useEffect, useRef, type ReactElement } from 'react';
import { BENCH_DEEDS } from '../../../core/words/bench-place-words.ts';
import { useTable } from '../../table.ts';
import { Key } from '../Key.tsx';

/** Sheets, and tables from a tensile tester. */
const ENDINGS = '.json,.csv,.tsv,.txt,.dat,.asc';

/** Opens a bench sheet or a tester's table; both shells know how a page asks for a file. */
export function OpenFile(): ReactElement {
  const { benchDeeds, benchSignals } = useTable();
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => benchSignals.openFile.listen(() => input.current?.click()), [benchSignals]);
  return (
    <>
      <button className="word" type="button" onClick={() => input.current?.click()}>
        <span>{BENCH_DEEDS.open}</span>
        <Key name="O" />
      </button>
      <input
        ref={input}
        type="file"
        hidden
        accept={ENDINGS}
        aria-label="A bench sheet or a tester’s table"
        onChange={({ target }) => {
          void benchDeeds.take([...(target.files ?? [])]);
          // The same file may be opened again.
          target.value = '';
        }}
      />
    </>
  );
}
