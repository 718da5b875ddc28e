import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';

/** What is seen of a try, and waiting for it. */
export interface Tries {
  /** The slip that says that cloth settles again. */
  readonly trying: () => Locator;
  /** What the stage says is tried. */
  readonly note: () => Locator;
  /** Until what was asked for lies on the stage. */
  readonly settled: (line: string | RegExp) => Promise<void>;
  /** Until the study lies there as its sheet says. */
  readonly untried: () => Promise<void>;
}

/** @param page - Asked each time: a test's page is opened later. @param timeout - ms. */
export function tries(page: () => Page, timeout = 60_000): Tries {
  const trying = () => page().locator('.trying');
  const note = () => page().locator('.tried-note span');
  const rested = () => expect.poll(() => trying().count(), { timeout }).toBe(0);
  return {
    trying,
    note,
    settled: async (line) => {
      await expect.poll(() => note().allTextContents(), { timeout }).toEqual([expect.stringMatching(line)]);
      await rested();
    },
    untried: async () => {
      await rested();
      await expect.poll(() => note().count(), { timeout }).toBe(0);
    },
  };
}
