import { useEffect, type ReactElement } from 'react';
import type { Finding } from '../../core/fault/finding.ts';
import { FORM_WORDS } from '../../core/words/form-words.ts';
import { BODY_PARTS_SHOWN } from '../store/body-store.ts';
import type { ShownStudy } from '../store/study-store.ts';
import { useBody, useIsBare, useTable } from '../table.ts';
import { FleshPart } from './body/FleshPart.tsx';
import { FormPart } from './body/FormPart.tsx';
import { TapePart } from './body/TapePart.tsx';
import { Findings } from './Findings.tsx';
import { Leaf } from './Leaf.tsx';

/** The form: by its measures, as a tape goes round it, and what lies under its skin. */
export function BodyLeaf({ shown }: { readonly shown: ShownStudy }): ReactElement {
  const { bodyFindings } = shown.settled;
  const part = useBody((body) => body.part);
  const tape = useBody((body) => body.tape);
  const findings =
    part === 'tape' && tape !== null ? unlike([...bodyFindings, ...tape.findings]) : bodyFindings;
  useWholeForm();
  const label = findings.length === 1 ? 'One remark' : `${findings.length} remarks`;
  const back = { label, content: <Findings findings={findings} /> };
  return (
    <Leaf name="body" {...(findings.length > 0 ? { back } : {})}>
      <PartWords />
      {part === 'form' && <FormPart key={shown.laid} shown={shown} />}
      {part === 'flesh' && <FleshPart />}
      {part === 'tape' && <TapePart shown={shown} />}
    </Leaf>
  );
}

/** The same remark once. */
const unlike = (findings: readonly Finding[]): readonly Finding[] => [
  ...new Map(findings.map((finding) => [JSON.stringify(finding), finding])).values(),
];

/** The whole form is in sight while it is measured; afterwards the garment is again. */
function useWholeForm(): void {
  const { actions, view } = useTable();
  const isBare = useIsBare();
  useEffect(() => {
    if (!isBare || view.getState().wish.framing === 'form') return;
    actions.toggleFraming();
    return () => {
      if (view.getState().wish.framing === 'form') actions.toggleFraming();
    };
  }, [isBare, actions, view]);
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
