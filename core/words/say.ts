import type { Fault, FaultCode, FaultFacts } from '../fault/fault.ts';
import type { FindingCode, FindingFacts } from '../fault/finding.ts';
import { benchFaultWords, benchFindingWords } from './bench-words.ts';
import { blockFaultWords, blockFindingWords } from './block-words.ts';
import { bodyFaultWords, bodyFindingWords } from './body-words.ts';
import { fileFaultWords } from './file-words.ts';
import { fitFaultWords, fitFindingWords } from './fit-words.ts';
import { garmentFaultWords, garmentFindingWords } from './garment-words.ts';
import { patternFaultWords, patternFindingWords } from './pattern-words.ts';
import { tableFaultWords, tableFindingWords } from './table-words.ts';
import { tapeFaultWords, tapeFindingWords } from './tape-words.ts';
import type { FaultSentence, FaultWords, FindingWords } from './word-tables.ts';
import { wornFindingWords } from './worn-words.ts';

const faultWords: FaultWords<FaultFacts> = {
  ...fileFaultWords,
  ...benchFaultWords,
  ...bodyFaultWords,
  ...fitFaultWords,
  ...garmentFaultWords,
  ...patternFaultWords,
  ...tableFaultWords,
  ...tapeFaultWords,
  ...blockFaultWords,
};

const findingWords: FindingWords<FindingFacts> = {
  ...benchFindingWords,
  ...blockFindingWords,
  ...bodyFindingWords,
  ...fitFindingWords,
  ...garmentFindingWords,
  ...patternFindingWords,
  ...wornFindingWords,
  ...tableFindingWords,
  ...tapeFindingWords,
};

/** A fault in plain words: what happened, with place and value, and what to do. */
export function sayFault<C extends FaultCode>(fault: Pick<Fault<C>, 'code' | 'facts'>): FaultSentence {
  return faultWords[fault.code](fault.facts);
}

/** A finding in one sentence. */
export function sayFinding<C extends FindingCode>(finding: {
  readonly code: C;
  readonly facts: FindingFacts[C];
}): string {
  return findingWords[finding.code](finding.facts);
}
