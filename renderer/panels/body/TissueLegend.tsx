import { useMemo, type ReactElement } from 'react';
import { areaText } from '../../../core/sheet/number-format.ts';
import { sourceAreas, tissueLegend } from '../../../core/sheet/tissue-legend.ts';
import { TISSUE_ESTIMATE_WORDS, TISSUE_SOURCE_WORDS } from '../../../core/words/tape-words.ts';
import { TISSUE_WORDS } from '../../../core/words/tissue-words.ts';
import { useBody, useView } from '../../table.ts';
import { AreaBars, Edge, Ramp } from '../Legend.tsx';

/** The tape measure beside the tissue map, and where its values are from. */
export function TissueLegend(): ReactElement | null {
  const flesh = useBody((body) => body.flesh);
  const shown = useBody((body) => body.fleshShown);
  const isOpen = useBody((body) => body.part === 'flesh');
  const ramp = useView((view) => view.ramp);
  const read = useMemo(
    () =>
      flesh && {
        legend: tissueLegend(flesh.map, shown, flesh.area),
        sources: sourceAreas(flesh.map, flesh.area),
      },
    [flesh, shown],
  );
  if (read === null || !isOpen) return null;
  return (
    <aside className="legend" aria-label={TISSUE_WORDS.legend}>
      <h2 className="legend-name">{TISSUE_WORDS.headings[shown]}</h2>
      <div className="tape">
        <AreaBars legend={read.legend} />
        <Edge edge={read.legend.first} side="first" />
        <Ramp name={ramp} />
      </div>
      <dl className="tissue-sources">
        {read.sources.map(({ source, area }) => (
          <div key={source}>
            <dt>{TISSUE_SOURCE_WORDS[source]}</dt>
            <dd>{areaText(area)}</dd>
          </div>
        ))}
      </dl>
      <p className="band-line">{TISSUE_ESTIMATE_WORDS}</p>
    </aside>
  );
}
