import { useId, type ReactElement } from 'react';
import type { SizeChart } from '../../../core/body/size-chart.ts';
import { FORM_WORDS } from '../../../core/words/form-words.ts';

interface SizeWordsProps {
  readonly chart: SizeChart;
  /** Null where the measures are of no size. */
  readonly chosen: string | null;
  readonly choose: (size: string) => void;
}

/** The sizes of the chart by their names. */
export function SizeWords({ chart, chosen, choose }: SizeWordsProps): ReactElement {
  const group = useId();
  return (
    <fieldset className="size-words">
      <legend>{FORM_WORDS.size}</legend>
      {chart.sizes.map((size) => (
        <label key={size} className={size === chosen ? 'chosen' : ''}>
          <input
            type="radio"
            className="hidden"
            name={group}
            checked={size === chosen}
            onChange={() => choose(size)}
            onClick={() => size === chosen && choose(size)}
          />
          {size}
        </label>
      ))}
    </fieldset>
  );
}
