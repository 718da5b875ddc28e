import type { Finding } from '../../core/fault/finding.ts';
import { sayFinding } from '../../core/words/say.ts';

/** Findings as JSON has them: for programs the code and its facts, for people the sentence. */
export const findingsAsJson = (findings: readonly Finding[]) =>
  findings.map((finding) => ({ ...finding, sentence: sayFinding(finding) }));

/** Findings as lines under a table; empty where there are none. */
export const findingLines = (findings: readonly Finding[]): string =>
  findings.map((finding) => `  ! ${sayFinding(finding)}`).join('\n');
