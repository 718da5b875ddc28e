import { useEffect, type ReactElement, type ReactNode } from 'react';
import { BENCH_NOTICES, BENCH_PART_WORDS } from '../../../core/words/bench-place-words.ts';
import { useBench, useLibrary, useSwatch, useTable } from '../../table.ts';
import { Key } from '../Key.tsx';
import { BenchFoot } from './BenchFoot.tsx';
import { BenchTop } from './BenchTop.tsx';
import { CurvesPage } from './CurvesPage.tsx';
import { cardPicture } from './card-picture.ts';
import { FabricCardPage } from './FabricCardPage.tsx';
import { ImportSlip } from './ImportSlip.tsx';
import { LibraryPage } from './LibraryPage.tsx';
import { ReadingsPage } from './ReadingsPage.tsx';
import { SwatchPage } from './SwatchPage.tsx';

/** The bench: a second table, where one stands with instruments and a sheet of readings. */
export function BenchPlace({ swatchStage }: { readonly swatchStage: ReactNode }): ReactElement {
  const { benchActions } = useTable();
  const part = useBench((bench) => bench.part);
  return (
    <div className="bench-place">
      <BenchTop />
      <nav className="leaf-edge" aria-label="Places">
        <button type="button" className="leaf-tab" onClick={benchActions.close}>
          Stage
        </button>
        <Key name="N" />
      </nav>
      <main className={`bench-part part-${part}`} aria-label={BENCH_PART_WORDS[part]}>
        <BenchPartPage swatchStage={swatchStage} />
        <ImportSlip />
      </main>
      {part !== 'library' && <BenchFoot />}
    </div>
  );
}

function BenchPartPage({ swatchStage }: { readonly swatchStage: ReactNode }): ReactElement {
  const { benchDeeds, swatchDeeds } = useTable();
  const part = useBench((bench) => bench.part);
  const outcome = useBench(({ reading }) => reading.outcome);
  const swatch = useSwatch((state) => state);
  if (part === 'library') return <BenchLibrary />;
  if (part === 'readings') return <ReadingsPage />;
  if (outcome.kind !== 'fabric') return <NotYet isRefused={outcome.kind === 'fault'} />;
  const { fabric } = outcome;
  switch (part) {
    case 'curves':
      return <CurvesPage fabric={fabric} />;
    case 'swatch':
      return (
        <SwatchPage
          state={swatch}
          deeds={swatchDeeds}
          stage={swatchStage}
          onSavePicture={(png) => void benchDeeds.savePicture(png, 'swatch')}
        />
      );
    case 'card':
      return (
        <FabricCardPage
          card={fabric.card}
          onSavePicture={() =>
            void cardPicture(fabric.card).then((png) => benchDeeds.savePicture(png, 'card'))
          }
          onPrint={() => void benchDeeds.printCard()}
        />
      );
  }
}

function BenchLibrary(): ReactElement {
  const { benchDeeds, libraryDeeds } = useTable();
  const library = useLibrary((state) => state);
  const sheet = useBench(({ read }) => read.sheet);
  const isUnopened = library.place.kind === 'unopened';
  useEffect(() => {
    if (isUnopened) void libraryDeeds.open();
  }, [isUnopened, libraryDeeds]);
  return (
    <LibraryPage
      library={library}
      deeds={libraryDeeds}
      draft={sheet}
      onSaveDraft={(fileName) => void benchDeeds.saveInLibrary(fileName)}
      onOpen={(path) => void benchDeeds.openFromLibrary(path)}
      onCompare={(pathA, pathB) => void benchDeeds.compareInLibrary(pathA, pathB)}
    />
  );
}

/** Where curves, swatch or card would stand, while the readings make no fabric. */
function NotYet({ isRefused }: { readonly isRefused: boolean }): ReactElement {
  const { benchActions } = useTable();
  const { what, remedy } = isRefused ? BENCH_NOTICES.refused : BENCH_NOTICES.unfinished;
  return (
    <div className="not-yet">
      <p>{what}</p>
      <p className="soft">{remedy}</p>
      <button type="button" className="plain" onClick={() => benchActions.choosePart('readings')}>
        To the readings
      </button>
    </div>
  );
}
