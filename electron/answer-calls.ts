import { type CallName, callNames } from './channels.ts';

/** Answers to the window's calls, which take what was sent unchecked. */
export type Answers = Readonly<Record<CallName, (...given: readonly unknown[]) => Promise<unknown>>>;

/** What of `electron.ipcMain` is needed. */
export interface Listening<Event> {
  readonly handle: (
    channel: string,
    listener: (event: Event, ...given: readonly unknown[]) => Promise<unknown>,
  ) => void;
}

/**
 * Listens for each call of the contract and for nothing else, and answers those that come from our own page.
 *
 * @param isOurs - Says whether a message comes from there.
 */
export function answerCalls<Event>(
  ipc: Listening<Event>,
  isOurs: (event: Event) => boolean,
  answers: Answers,
): void {
  for (const name of callNames) {
    const answer = answers[name];
    ipc.handle(name, async (event, ...given) => {
      if (!isOurs(event)) throw new Error('Only the window of Snugfield may ask this.');
      return answer(...given);
    });
  }
}
