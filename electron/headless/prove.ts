import { writeFile } from 'node:fs/promises';

import { inFile } from '../../core/fault/fault.ts';
import { readFleshCases, type FleshCase } from '../../core/io/flesh-cases.ts';
import type { Check } from '../../core/proof/check.ts';
import { fleshCaseChecks } from '../../core/proof/flesh-bands.ts';
import { PROOF_SUBJECTS, runProof, type ProofSubject } from '../../core/proof/run-proof.ts';
import { proofCsv, proofNumber, type ProofRow, type ProofTable } from '../../core/sheet/proof-table.ts';
import { PROOF_WORDS, sayProof } from '../../core/words/proof-words.ts';
import { exitCodes, type ExitCode } from './exit-codes.ts';
import { readText } from './read-input.ts';
import { runToEnd } from './run-to-end.ts';
import type { Terminal } from './terminal.ts';

/** What the command is asked for. */
export interface ProveOptions {
  readonly json?: boolean;
  /** Where to write the table as well. */
  readonly csv?: string;
  /** Subjects to keep to, by the start of their names. */
  readonly only?: readonly string[];
  /** A file of cases of pressed flesh to check instead. */
  readonly flesh?: string;
}

/** Runs the outside checks and prints what the source says, what comes out here, and how far apart they may be. */
export async function prove(options: ProveOptions, terminal: Terminal): Promise<ExitCode> {
  const wrong = wrongWish(options);
  if (wrong !== null) {
    terminal.remark(wrong);
    return exitCodes.badInput;
  }
  const subjects = await wanted(options);
  const results = await runToEnd(runProof(subjects), terminal.stop, ({ progress }) => {
    if (progress !== null)
      terminal.progress(`checking ${progress.subject} (${progress.done + 1} of ${progress.of})`);
  });
  const table = sayProof(results);
  terminal.result(options.json ? asJson(table) : asText(table));
  if (options.csv !== undefined) await writeFile(options.csv, proofCsv(table));
  return table.failed === 0 ? exitCodes.done : exitCodes.bug;
}

const begins = ({ subject }: ProofSubject, name: string): boolean =>
  subject.toLowerCase().startsWith(name.toLowerCase());

/** What is wrong with the options and what to do; null where nothing is. */
function wrongWish({ only, flesh }: ProveOptions): string | null {
  if (only === undefined) return null;
  if (flesh !== undefined)
    return '--flesh checks the cases of its file alone, so --only has nothing to choose from.\nLeave out one of the two.';
  const unknown = only.filter((name) => !PROOF_SUBJECTS.some((subject) => begins(subject, name)));
  if (unknown.length === 0) return null;
  const names = unknown.map((name) => `"${name}"`).join(' or ');
  return `--only: no subject begins with ${names}.\nSubjects: ${PROOF_SUBJECTS.map(({ subject }) => subject).join(', ')}.`;
}

async function wanted({ only, flesh }: ProveOptions): Promise<readonly ProofSubject[]> {
  if (flesh !== undefined) {
    const text = await readText(flesh);
    const cases = inFile(flesh, () => readFleshCases(text));
    return [{ subject: 'flesh cases', run: () => eachCase(cases) }];
  }
  if (only === undefined) return PROOF_SUBJECTS;
  return PROOF_SUBJECTS.filter((subject) => only.some((name) => begins(subject, name)));
}

function* eachCase(cases: readonly FleshCase[]): Generator<void, Check[]> {
  const checks: Check[] = [];
  for (const one of cases) {
    checks.push(...fleshCaseChecks([one]));
    yield;
  }
  return checks;
}

function asJson({ subjects, passed, failed }: ProofTable): string {
  const checks = subjects.flatMap(({ subject, rows }) => rows.map((row) => ({ subject, ...row })));
  return JSON.stringify({ checks, passed, failed }, null, 2);
}

function asText({ subjects, passed, failed }: ProofTable): string {
  const groups = subjects.map(({ title, rows, ...count }) =>
    [`${title}: ${PROOF_WORDS.tally(count)}`, ...rows.map(rowAsText)].join('\n\n'),
  );
  return [...groups, PROOF_WORDS.tally({ passed, failed })].join('\n\n\n');
}

function rowAsText({ pass, id, what, source, expected, got, unit, tolerance, used }: ProofRow): string {
  const named = unit === '1' ? '' : ` ${unit}`;
  const numbers = `expected ${proofNumber(expected)}${named}, got ${proofNumber(got)}, within ${proofNumber(tolerance, 3)}`;
  const share = Number.isFinite(used) ? `: ${String(Math.round(100 * used))} % of that used` : '';
  const heading = what === id ? id : `${what} (${id})`;
  return [`${pass ? 'pass' : 'FAIL'}  ${heading}`, `      ${source}`, `      ${numbers}${share}`].join('\n');
}
