import { PROOF_SUBJECTS, proveSubject } from '../../core/proof/run-proof.ts';
import type { FromProofWorker } from './proof-messages.ts';

/** Runs every outside check as soon as it is started, and says each subject when it is through. It is stopped by ending it. */
// oxlint-disable-next-line typescript/no-unsafe-type-assertion -- the worker's global scope has no type here
const scope = globalThis as unknown as {
  readonly postMessage: (message: FromProofWorker, options: StructuredSerializeOptions) => void;
};
const post = (message: FromProofWorker): void => scope.postMessage(message, { transfer: [] });

function prove(): void {
  const of = PROOF_SUBJECTS.length;
  post({ kind: 'begun', subjects: PROOF_SUBJECTS.map(({ subject }) => subject) });
  for (const [done, subject] of PROOF_SUBJECTS.entries()) {
    post({ kind: 'progress', progress: { subject: subject.subject, done, of } });
    const search = proveSubject(subject);
    let step = search.next();
    while (!step.done) step = search.next();
    post({ kind: 'proven', result: { subject: subject.subject, checks: step.value } });
  }
  post({ kind: 'done' });
}

try {
  prove();
} catch (error) {
  post({ kind: 'bug', message: error instanceof Error ? error.message : String(error) });
}
