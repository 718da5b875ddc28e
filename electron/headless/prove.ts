import { passes, type Check } from '../../core/proof/check.ts';
import { runProof } from '../../core/proof/run-proof.ts';
import { exitCodes, type ExitCode } from './exit-codes.ts';
import { runToEnd } from './run-to-end.ts';
import type { Terminal } from './terminal.ts';
import { textTable } from './text-table.ts';

/** Runs every outside check and prints what the source says, what comes out here, and how far apart they may be. */
export async function prove(asJson: boolean, terminal: Terminal): Promise<ExitCode> {
  const checks = await runToEnd(runProof(), terminal.stop, ({ progress }) => {
    if (progress !== null)
      terminal.progress(`checking ${progress.subject} (${progress.done + 1} of ${progress.of})`);
  });
  const judged = checks.map((check) => ({ ...check, pass: passes(check) }));
  const failed = judged.filter(({ pass }) => !pass).length;
  const passed = judged.length - failed;
  terminal.result(
    asJson
      ? JSON.stringify({ checks: judged, passed, failed }, null, 2)
      : judged.map(checkAsText).join('\n\n'),
  );
  if (!asJson) terminal.result(`\n${passed} passed, ${failed} failed`);
  return failed === 0 ? exitCodes.done : exitCodes.bug;
}

const number = (value: number): string => String(Number(value.toPrecision(6)));

function checkAsText(check: Check & { readonly pass: boolean }): string {
  const numbers = [
    ['expected', number(check.expected), check.unit],
    ['got', number(check.got), check.unit],
    ['within', number(check.tolerance), check.unit],
  ];
  return `${check.pass ? 'pass' : 'FAIL'}  ${check.id}\n${indented(check.source)}\n${indented(textTable(numbers, 3))}`;
}

const indented = (text: string): string =>
  text
    .split('\n')
    .map((line) => `      ${line}`)
    .join('\n');
