import { useState, type ReactElement } from 'react';
import type { BlockChange } from '../../../core/block/changed-block.ts';
import type { BlockSheet } from '../../../core/block/blocks.ts';
import { fixed } from '../../../core/sheet/number-format.ts';
import { specFields, type SpecField } from '../../../core/sheet/spec-sheet.ts';
import { BLOCK_WORDS } from '../../../core/words/garment-sheet-words.ts';
import { SPEC_WORDS } from '../../../core/words/spec-words.ts';
import { askedChange, refusedNow, type SettledStudy, type ShownStudy } from '../../store/study-store.ts';
import { useStudy, useTable } from '../../table.ts';
import { Findings } from '../Findings.tsx';
import { TryChoice } from '../TryChoice.tsx';
import { TryDeeds } from '../TryLeaf.tsx';
import { GirthTable } from './GirthTable.tsx';
import { PanelsFlat } from './PanelsFlat.tsx';
import { SpecNumbers } from './SpecNumbers.tsx';

/** What may be typed, cm. */
const LENGTHS = [1, 200] as const;
const HEIGHTS = [0, 220] as const;

type Cut = NonNullable<SettledStudy['cut']>;
type Part = 'girths' | 'lengths' | 'laid';

interface SpecSheetProps {
  readonly shown: ShownStudy;
  readonly opened: BlockSheet;
  readonly cut: Cut;
}

/** The sheet of a garment that is cut from panels: every number typed is worn at once. */
export function SpecSheet({ shown, opened, cut }: SpecSheetProps): ReactElement {
  const { tryOut } = useTable();
  const wanted = useStudy(askedChange);
  const refused = useStudy(refusedNow);
  const { block = {}, girthScale = 1 } = wanted;
  const fields = specFields(opened, block, girthScale);
  const change = (part: BlockChange): void => tryOut({ ...wanted, block: { ...block, ...part } }, 'now');
  const set = (part: Part) => (name: string, metres: number | null) => {
    const value = part === 'girths' && metres !== null ? metres / girthScale : metres;
    change({ [part]: { ...block[part], [name]: value } });
  };
  const isRefused = (part: Part) => (name: string) =>
    refused !== null && block[part]?.[name] !== shown.tried.block?.[part]?.[name];
  return (
    <div className="spec-sheet">
      <div className="spec-made">
        <strong>{BLOCK_WORDS[opened.block]}</strong>
        <TryChoice
          name={SPEC_WORDS.made}
          options={SPEC_WORDS.constructions}
          chosen={fields.construction}
          choose={(construction) => change({ construction })}
        />
      </div>
      <GirthTable
        fields={fields.girths}
        levels={cut.levels}
        fabricCount={shown.settled.worn.length}
        isRefused={isRefused('girths')}
        set={set('girths')}
      />
      <p className="soft">{SPEC_WORDS.stretchNote}</p>
      <SpecNumbers
        title={SPEC_WORDS.lengths}
        fields={fields.lengths}
        range={LENGTHS}
        said={SPEC_WORDS.field.lengths}
        empty={() => null}
        isRefused={isRefused('lengths')}
        set={set('lengths')}
      />
      <SpecNumbers
        title={SPEC_WORDS.laid}
        fields={fields.laid}
        range={HEIGHTS}
        said={SPEC_WORDS.field.laid}
        empty={(field) => ({ shown: ownHeight(field, cut), said: SPEC_WORDS.asBody })}
        isRefused={isRefused('laid')}
        set={set('laid')}
      />
      {refused === null ? (
        <BelowSheet shown={shown} cut={cut} />
      ) : (
        <div className="spec-refused" role="alert">
          <strong>{refused.notice.what}</strong> {refused.notice.remedy}{' '}
          <span className="soft">{SPEC_WORDS.refused}</span>
        </div>
      )}
      <TryDeeds wanted={wanted} />
    </div>
  );
}

/** Where the edge lies that the wearer does not hold elsewhere, cm up. */
function ownHeight({ name }: SpecField, { levels }: Cut): string {
  const height = levels.find((level) => level.name === name)?.height ?? null;
  return height === null ? '' : fixed(100 * height, 1);
}

/** The panels, or what has to be said of the sheet: that first wherever it is new. */
function BelowSheet({ shown, cut }: Omit<SpecSheetProps, 'opened'>): ReactElement {
  const { garmentFindings } = shown.settled;
  const said = JSON.stringify(garmentFindings);
  const [turned, turn] = useState<{ readonly said: string; readonly part: 'panels' | 'remarks' } | null>(
    null,
  );
  const hasRemarks = garmentFindings.length > 0;
  const part = turned?.said === said ? turned.part : hasRemarks ? 'remarks' : 'panels';
  return (
    <div className="spec-below">
      {hasRemarks && (
        <TryChoice
          name={SPEC_WORDS.part}
          options={{ panels: SPEC_WORDS.panels, remarks: SPEC_WORDS.remarks(garmentFindings.length) }}
          chosen={part}
          choose={(chosen) => turn({ said, part: chosen })}
        />
      )}
      {part === 'panels' ? <PanelsFlat picture={cut.panels} /> : <Findings findings={garmentFindings} />}
    </div>
  );
}
