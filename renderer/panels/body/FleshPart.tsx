import type { ReactElement } from 'react';
import type { TissueCorrections } from '../../../core/body/tissue-map.ts';
import { TISSUE_WORDS } from '../../../core/words/tissue-words.ts';
import { useBody, useStudy, useTable } from '../../table.ts';
import { TryChoice } from '../TryChoice.tsx';
import { BrushFold } from './BrushFold.tsx';
import { RegionTable } from './RegionTable.tsx';

/** What lies under the skin: a map on the form, and the ways to correct it. */
export function FleshPart(): ReactElement {
  const { body, bodyDeeds } = useTable();
  const flesh = useBody((state) => state.flesh);
  const shown = useBody((state) => state.fleshShown);
  useStudy(({ shown: study }) => study?.tried);
  useBody((state) => state.drawn);
  if (flesh === null) return <p className="soft">{TISSUE_WORDS.reading}</p>;
  const tissue = bodyDeeds.tissueNow();
  const lay = (next: TissueCorrections): void => {
    bodyDeeds.drawTissue(next);
    bodyDeeds.liftBrush();
  };
  return (
    <>
      <TryChoice
        name={TISSUE_WORDS.shown}
        options={TISSUE_WORDS.shows}
        chosen={shown}
        choose={(chosen) => body.setState({ fleshShown: chosen })}
      />
      {flesh.rows.length > 0 && (
        <TryChoice
          name={TISSUE_WORDS.moduli}
          options={TISSUE_WORDS.moduliKinds}
          chosen={tissue.moduli ?? 'even'}
          choose={(moduli) => lay({ ...tissue, moduli })}
        />
      )}
      <BrushFold tissue={tissue} lay={lay} />
      <RegionTable rows={flesh.rows} tissue={tissue} lay={lay} />
    </>
  );
}
