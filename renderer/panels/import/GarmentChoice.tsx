import type { ReactElement } from 'react';
import { IMPORT_STEP_WORDS } from '../../../core/words/import-step-words.ts';
import { levelWords } from '../../../core/words/judgement-words.ts';
import { typedNumber } from '../../../core/sheet/number-format.ts';
import { useImport, useStudy, useTable } from '../../table.ts';
import { TryChoice } from '../TryChoice.tsx';

/** Told of the places: the one that a garment is held by. */
const TOLD = 'waist';

/** Whether the garment is laid where it lies on the body now, or as high; asked only where both bodies have named levels. */
export function GarmentChoice(): ReactElement | null {
  const { importDeeds } = useTable();
  const laidAt = useImport((state) => state.laidAt);
  const to = useImport(({ levels }) => levels?.find(({ name }) => name === TOLD)?.levelMm);
  const from = useStudy(({ shown }) => shown?.settled.girths.find(({ name }) => name === TOLD)?.levelCm);
  if (to === undefined || from === undefined) return null;
  const fromMm = 10 * (typedNumber(from) ?? Number.NaN);
  return (
    <>
      <TryChoice
        name={IMPORT_STEP_WORDS.garment}
        options={IMPORT_STEP_WORDS.laidAt}
        chosen={laidAt}
        choose={importDeeds.layAt}
      />
      <p className="soft">{IMPORT_STEP_WORDS.laidMeaning(levelWords(TOLD), [fromMm, to])}</p>
    </>
  );
}
