import type { ReactElement } from 'react';
import type { Finding } from '../../core/fault/finding.ts';
import { sayFinding } from '../../core/words/say.ts';

/** What the reader must know, one sentence each. */
export function Findings({ findings }: { readonly findings: readonly Finding[] }): ReactElement {
  const sentences = [...new Set(findings.map((finding) => sayFinding(finding)))];
  if (sentences.length === 0) return <p className="soft">Nothing to remark.</p>;
  return (
    <ul className="findings">
      {sentences.map((sentence) => (
        <li key={sentence}>{sentence}</li>
      ))}
    </ul>
  );
}
