import { useRef, type ChangeEvent, type ReactElement } from 'react';
import type { SizeChart } from '../../../core/body/size-chart.ts';
import type { ChosenSize } from '../../../core/sheet/tape-table.ts';
import { FORM_WORDS } from '../../../core/words/form-words.ts';
import { TAPE_LEAF_WORDS } from '../../../core/words/tape-leaf-words.ts';
import { useBody, useTable } from '../../table.ts';

interface ChartLineProps {
  readonly chart: SizeChart;
  readonly beside: ChosenSize | null;
}

/** The chart and the size that stand beside the body. */
export function ChartLine({ chart, beside }: ChartLineProps): ReactElement {
  const { body } = useTable();
  const size = useBody((state) => state.size);
  const nearest = size === null && beside !== null ? beside.size : null;
  return (
    <div className="beside-line">
      <label>
        {TAPE_LEAF_WORDS.beside}
        <select
          value={size ?? ''}
          onChange={({ target }) => body.setState({ size: target.value === '' ? null : target.value })}
        >
          <option value="">{nearest === null ? '–' : TAPE_LEAF_WORDS.nearest(nearest)}</option>
          {chart.sizes.map((name) => (
            <option key={name} value={name}>
              {name}
            </option>
          ))}
        </select>
      </label>
      <ChartName chart={chart} />
    </div>
  );
}

/** What the chart is called, whether it is invented, and the way to another. */
export function ChartName({ chart }: { readonly chart: SizeChart }): ReactElement {
  const { bodyDeeds } = useTable();
  const ownChart = useBody((state) => state.ownChart);
  return (
    <p className="chart-name">
      <span className="name" title={chart.source}>
        {chart.name}
      </span>
      {chart.isInvented && <span className="invented">{FORM_WORDS.invented}</span>}
      <OpenChart />
      {ownChart !== null && (
        <button type="button" className="plain" onClick={bodyDeeds.houseChart}>
          {TAPE_LEAF_WORDS.houseChart}
        </button>
      )}
    </p>
  );
}

function OpenChart(): ReactElement {
  const { bodyDeeds } = useTable();
  const input = useRef<HTMLInputElement>(null);
  const take = ({ target }: ChangeEvent<HTMLInputElement>): void => {
    const file = target.files?.[0];
    if (file !== undefined) void file.text().then((text) => bodyDeeds.readChart(file.name, text));
    // The same file may be opened again when it has been mended.
    target.value = '';
  };
  return (
    <>
      <button type="button" className="plain" onClick={() => input.current?.click()}>
        {TAPE_LEAF_WORDS.openChart}
      </button>
      <input
        ref={input}
        type="file"
        accept=".csv,.json,.txt,.tsv"
        hidden
        aria-label={TAPE_LEAF_WORDS.openChart}
        onChange={take}
      />
    </>
  );
}
