/** What the command line writes where, and how long work is stopped. Terminal codes: ECMA-48. */
import { describe, expect, it } from 'vitest';

import { runToEnd } from '../../electron/headless/run-to-end.ts';
import { makeTerminal } from '../../electron/headless/terminal.ts';
import { textTable } from '../../electron/headless/text-table.ts';

function streams(isTTY: boolean) {
  let out = '';
  let err = '';
  const stdout = { write: (text: string) => (out += text) };
  const stderr = { isTTY, columns: 20, write: (text: string) => (err += text) };
  const terminal = makeTerminal({ stdout, stderr }, new AbortController().signal);
  return { terminal, out: () => out, err: () => err };
}

describe('the terminal', () => {
  it('keeps results on stdout and all else on stderr', () => {
    const { terminal, out, err } = streams(false);
    terminal.progress('working');
    terminal.remark('by the way');
    terminal.result('{}');
    expect([out(), err()]).toEqual(['{}\n', 'by the way\n']);
  });

  it('rewrites one progress line for a person, cut to the width, and wipes it before other words', () => {
    const { terminal, err } = streams(true);
    terminal.progress('a line that is longer than the terminal is wide');
    terminal.progress('short');
    terminal.remark('done');
    expect(err()).toBe('a line that is long\r\u001b[Kshort\r\u001b[Kdone\n');
  });
});

describe('textTable', () => {
  it('sets words left and numbers right', () => {
    expect(
      textTable([
        ['girth', 'mm'],
        ['waist', '760.0'],
        ['underbust', '9'],
      ]),
    ).toBe('girth         mm\nwaist      760.0\nunderbust      9');
  });
});

function* count(to: number): Generator<number, string> {
  for (let i = 1; i <= to; i++) yield i;
  return 'counted';
}

describe('runToEnd', () => {
  it('passes every step on and returns the result', async () => {
    const heard: (number | null)[] = [];
    const result = await runToEnd(count(3), new AbortController().signal, ({ progress }) =>
      heard.push(progress),
    );
    expect([result, heard]).toEqual(['counted', [1, 2, 3, null]]);
  });

  it('lets a stop in between steps of long work, and runs the work’s own ending', async () => {
    let tidied = false;
    function* endless(): Generator<undefined, never> {
      try {
        for (;;) yield;
      } finally {
        tidied = true;
      }
    }
    const controller = new AbortController();
    setTimeout(() => controller.abort(new Error('enough')), 20);
    await expect(runToEnd(endless(), controller.signal)).rejects.toThrow('enough');
    expect(tidied).toBe(true);
  });
});
