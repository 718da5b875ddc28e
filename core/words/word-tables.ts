/** What happened and what to do about it. */
export interface FaultSentence {
  readonly what: string;
  readonly remedy: string;
}

/** One entry per fault of a family; a missing one does not compile. */
export type FaultWords<Facts> = { readonly [Code in keyof Facts]: (facts: Facts[Code]) => FaultSentence };

/** One sentence per finding of a family; a missing one does not compile. */
export type FindingWords<Facts> = { readonly [Code in keyof Facts]: (facts: Facts[Code]) => string };
