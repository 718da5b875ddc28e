import type { ReactElement } from 'react';
import { IMPORT_STEP_WORDS } from '../../../core/words/import-step-words.ts';
import { useImport, useTable } from '../../table.ts';
import { TryChoice } from '../TryChoice.tsx';

/** Whether holes are closed and coarse places refined; everything else is mended without asking, and told. */
export function MendChoices(): ReactElement | null {
  const { importDeeds } = useTable();
  const choices = useImport((state) => state.choices);
  const usualEdge = useImport(({ opened }) => opened?.guess.choices.refineEdgeMm ?? null);
  if (choices === null) return null;
  const { closeHoles, refineEdgeMm } = choices;
  return (
    <>
      <TryChoice
        name={IMPORT_STEP_WORDS.holes}
        options={{ close: IMPORT_STEP_WORDS.close, leave: IMPORT_STEP_WORDS.leaveOpen }}
        chosen={closeHoles ? 'close' : 'leave'}
        choose={(word) => importDeeds.choose({ closeHoles: word === 'close' })}
      />
      {usualEdge !== null && (
        <TryChoice
          name={IMPORT_STEP_WORDS.coarse}
          options={{
            refine: IMPORT_STEP_WORDS.refine(usualEdge),
            leave: IMPORT_STEP_WORDS.leaveCoarse,
          }}
          chosen={refineEdgeMm === null ? 'leave' : 'refine'}
          choose={(word) => importDeeds.choose({ refineEdgeMm: word === 'refine' ? usualEdge : null })}
        />
      )}
    </>
  );
}
