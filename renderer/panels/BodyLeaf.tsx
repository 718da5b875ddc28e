import type { ReactElement } from 'react';
import { BODY_WORDS } from '../../core/words/stage-words.ts';
import { levelWords } from '../../core/words/judgement-words.ts';
import type { ShownStudy } from '../store/study-store.ts';
import { Findings } from './Findings.tsx';
import { Leaf } from './Leaf.tsx';

/** The form as a tape measures it. */
export function BodyLeaf({ shown }: { readonly shown: ShownStudy }): ReactElement {
  const { girths, bodyFindings } = shown.settled;
  const label = bodyFindings.length === 1 ? 'One remark' : `${bodyFindings.length} remarks`;
  const back = { label, content: <Findings findings={bodyFindings} /> };
  return (
    <Leaf name="body" {...(bodyFindings.length > 0 ? { back } : {})}>
      <p className="soft">{BODY_WORDS[shown.sheet.bodyKind]}</p>
      <table className="sheet figures">
        <thead>
          <tr>
            <th scope="col">Tape at</th>
            <th scope="col">height, cm</th>
            <th scope="col">girth, cm</th>
          </tr>
        </thead>
        <tbody>
          {girths.map(({ name, levelCm, girthCm }) => (
            <tr key={name}>
              <th scope="row">{levelWords(name)}</th>
              <td>{levelCm}</td>
              <td>{girthCm}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Leaf>
  );
}
