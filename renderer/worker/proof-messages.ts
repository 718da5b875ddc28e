import type { ProofProgress, ProvenSubject } from '../../core/proof/run-proof.ts';

export type FromProofWorker =
  /** Every subject that will be checked, in order. */
  | { readonly kind: 'begun'; readonly subjects: readonly string[] }
  | { readonly kind: 'progress'; readonly progress: ProofProgress }
  | { readonly kind: 'proven'; readonly result: ProvenSubject }
  | { readonly kind: 'done' }
  | { readonly kind: 'bug'; readonly message: string };
