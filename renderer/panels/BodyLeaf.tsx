import type { ReactElement } from 'react';
import { FORM_WORDS } from '../../core/words/form-words.ts';
import { BODY_PARTS_SHOWN } from '../store/body-store.ts';
import type { ShownStudy } from '../store/study-store.ts';
import { useBody, useTable } from '../table.ts';
import { FormPart } from './body/FormPart.tsx';
import { Findings } from './Findings.tsx';
import { Leaf } from './Leaf.tsx';

/** The form: by its measures, as a tape goes round it, and what lies under its skin. */
export function BodyLeaf({ shown }: { readonly shown: ShownStudy }): ReactElement {
  const { bodyFindings } = shown.settled;
  const part = useBody((body) => body.part);
  const label = bodyFindings.length === 1 ? 'One remark' : `${bodyFindings.length} remarks`;
  const back = { label, content: <Findings findings={bodyFindings} /> };
  return (
    <Leaf name="body" {...(bodyFindings.length > 0 ? { back } : {})}>
      <PartWords />
      {part === 'form' && <FormPart key={shown.laid} shown={shown} />}
    </Leaf>
  );
}

/** Which part of the leaf lies open. */
function PartWords(): ReactElement {
  const { body } = useTable();
  const part = useBody((state) => state.part);
  return (
    <fieldset className="part-words">
      <legend className="hidden">{FORM_WORDS.partsName}</legend>
      {BODY_PARTS_SHOWN.map((name) => (
        <label key={name} className={name === part ? 'chosen' : ''}>
          <input
            type="radio"
            className="hidden"
            name="body-part"
            checked={name === part}
            onChange={() => body.setState({ part: name })}
          />
          {FORM_WORDS.parts[name]}
        </label>
      ))}
    </fieldset>
  );
}
