import { sayFault } from '../../core/words/say.ts';
import { bugWords } from '../../core/words/stage-words.ts';
import type { FromWorker } from '../worker/messages.ts';
import type { Notice } from './study-store.ts';

export const noticeOfBug = (message: string, file: string | null = null): Notice => ({
  ...bugWords(message),
  file,
  tone: 'fault',
});

/**
 * What went wrong in a worker, in words.
 *
 * @param file - In which a bug was met.
 */
export const noticeOf = (
  message: Extract<FromWorker, { kind: 'fault' | 'bug' }>,
  file: string | null = null,
): Notice =>
  message.kind === 'fault'
    ? { ...sayFault(message.fault), file: message.fault.file, tone: 'fault' }
    : noticeOfBug(message.message, file);
