import type { ReactElement } from 'react';
import type { FieldId } from '../../core/fields/field.ts';
import { FIELD_ORDER, FIELD_WORDS } from '../../core/words/field-words.ts';
import { useTable, useView } from '../table.ts';
import { Key } from './Key.tsx';

/** Neighbours of one family stand behind its word. */
const FAMILIES: readonly { readonly family: string; readonly members: readonly FieldId[] }[] = familiesOf();

/** The map is chosen by a word along the top. */
export function FieldWords(): ReactElement {
  return (
    <nav className="field-words" aria-label="What is painted">
      {FAMILIES.map(({ family, members }) => (
        <div className="family" key={family}>
          {FIELD_WORDS[members[0]!].member !== '' && <span className="family-word">{family}</span>}
          {members.map((field) => (
            <FieldWord key={field} field={field} />
          ))}
        </div>
      ))}
    </nav>
  );
}

function FieldWord({ field }: { readonly field: FieldId }): ReactElement {
  const { actions } = useTable();
  const isChosen = useView((view) => view.field === field);
  const { family, member, name, meaning } = FIELD_WORDS[field];
  // The word that is seen is part of the name that is heard.
  const visible = member === '' ? family : member;
  const [before = '', after = ''] = name.split(visible);
  return (
    <button
      className="word"
      type="button"
      aria-pressed={isChosen}
      title={meaning}
      onClick={() => actions.chooseField(field)}
    >
      <span>
        <span className="hidden">{before}</span>
        {visible}
        <span className="hidden">{after}</span>
      </span>
      <Key name={String(FIELD_ORDER.indexOf(field) + 1)} />
    </button>
  );
}

function familiesOf(): { family: string; members: FieldId[] }[] {
  const families: { family: string; members: FieldId[] }[] = [];
  for (const field of FIELD_ORDER) {
    const { family } = FIELD_WORDS[field];
    const last = families.at(-1);
    if (last?.family === family) last.members.push(field);
    else families.push({ family, members: [field] });
  }
  return families;
}
