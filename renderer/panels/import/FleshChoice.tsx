import type { ReactElement } from 'react';
import { EVEN_FLESH_WORDS, FLESH_WORDS, IMPORT_STEP_WORDS } from '../../../core/words/import-step-words.ts';
import { useImport, useTable } from '../../table.ts';
import { TryChoice } from '../TryChoice.tsx';
import { TypedNumber } from '../TypedNumber.tsx';

const NAMES = {
  transferred: FLESH_WORDS.transferred.name,
  even: FLESH_WORDS.even.name,
  rigid: FLESH_WORDS.rigid.name,
} as const;

/** As far as a body may go: `body/bad-tissue`. */
const DEPTHS = [1, 200] as const;
const MODULI = [0.5, 1000] as const;

/** What lies under the skin, which a mesh does not tell. */
export function FleshChoice(): ReactElement {
  const { importDeeds } = useTable();
  const flesh = useImport((state) => state.flesh);
  return (
    <>
      <TryChoice
        name={IMPORT_STEP_WORDS.fleshName}
        options={NAMES}
        chosen={flesh.kind}
        choose={(kind) => importDeeds.layFlesh({ kind })}
      />
      {flesh.kind === 'even' && (
        <div className="even-flesh">
          <TypedNumber
            key={`depth ${flesh.depthMm}`}
            name={EVEN_FLESH_WORDS.depth}
            label={String(flesh.depthMm)}
            set={(typed) => importDeeds.layFlesh({ depthMm: within(typed, DEPTHS) })}
          />
          <span>{EVEN_FLESH_WORDS.mm}</span>
          <TypedNumber
            key={`modulus ${flesh.modulusKPa}`}
            name={EVEN_FLESH_WORDS.modulus}
            label={String(flesh.modulusKPa)}
            set={(typed) => importDeeds.layFlesh({ modulusKPa: within(typed, MODULI) })}
          />
          <span>{EVEN_FLESH_WORDS.kPa}</span>
        </div>
      )}
      <p className="soft">{FLESH_WORDS[flesh.kind].meaning}</p>
    </>
  );
}

const within = (typed: number, [low, high]: readonly [number, number]): number =>
  Math.min(high, Math.max(low, typed));
