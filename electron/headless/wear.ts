import path from 'node:path';

import { OUTPUT_COLUMNS } from '../../core/study/output-units.ts';
import { SKIN_FRICTION } from '../../core/study/skin-friction.ts';
import type { Study, StudyResult, WornResult } from '../../core/study/study.ts';
import { wornSummary, type WornSummary } from '../../core/study/worn-summary.ts';
import { wornTable } from '../../core/study/worn-table.ts';
import { fixed } from '../../core/sheet/number-format.ts';
import { BAND_MEANING, FIELD_WORDS } from '../../core/words/field-words.ts';
import { DONNING, fleshWords, frictionWords } from '../../core/words/study-words.ts';
import { type FileContent, writeAllWhole } from '../write-whole.ts';
import { exitCodes, type ExitCode } from './exit-codes.ts';
import { readStudy } from './read-input.ts';
import { runTimed } from './run-timed.ts';
import { findingLines, findingsAsJson } from './say-findings.ts';
import type { Terminal } from './terminal.ts';
import { textTable } from './text-table.ts';
import { wornGlb } from './worn-glb.ts';

export interface WearWishes {
  readonly json: boolean;
  /** Folder for the results; null where only the print is wanted. */
  readonly out: string | null;
}

/** Puts every fabric of a study on its body, prints the fields in numbers, and writes them where a folder is named. */
export async function wear(
  studyFile: string,
  { json, out }: WearWishes,
  terminal: Terminal,
): Promise<ExitCode> {
  const study = await readStudy(studyFile);
  const { result, seconds } = await runTimed(study, terminal);
  const summaries = result.worn.map((worn) => wornSummary(result, worn));
  const cards = summaries.map((one) => wornCard(one, seconds.get(one.id) ?? 0));
  const summary = JSON.stringify({ ...assumptions(study), fabrics: cards }, null, 2);
  if (out !== null) {
    terminal.progress('writing');
    const files = result.worn.flatMap((worn) => filesOf(result, worn, out));
    // Last: whoever finds the summary finds the rest.
    const last = { path: path.join(out, 'summary.json'), content: `${summary}\n` };
    await writeAllWhole([...files, last], terminal.stop);
  }
  const texts = summaries.map((one) => wornAsText(one, result));
  const taken = [frictionWords(study), DONNING, fleshWords(study.flesh)].join('\n');
  terminal.result(json ? summary : [taken, ...texts].join('\n\n'));
  if (out !== null) terminal.remark(`Wrote ${2 * result.worn.length + 1} files to ${out}.`);
  return result.worn.every(({ equilibrium }) => equilibrium.atRest) ? exitCodes.done : exitCodes.notAtRest;
}

/** What was taken for friction and flesh, as `summary.json` and `--json` have it. */
function assumptions({ friction, frictionFrom = 'typed', flesh = { kind: 'foundation' } }: Study) {
  const source = frictionFrom === 'typed' ? {} : SKIN_FRICTION[frictionFrom];
  return {
    friction: { ...source, coefficient: friction, from: frictionFrom },
    flesh:
      flesh.kind === 'foundation' ? 'foundation' : { layer: { poisson: flesh.poisson, skin: flesh.skin } },
  };
}

/** One fabric in numbers, as `summary.json` and `--json` have it. */
function wornCard(summary: WornSummary, seconds: number) {
  return { ...summary, seconds: Number(seconds.toFixed(2)), findings: findingsAsJson(summary.findings) };
}

function filesOf(result: StudyResult, worn: WornResult, out: string): FileContent[] {
  const named = (ending: string) => path.join(out, `${worn.fabricId}${ending}`);
  return [
    { path: named('.glb'), content: wornGlb(result, worn) },
    { path: named('.csv'), content: wornTable(result, worn) },
  ];
}

/** The unit that a column's name ends with, and the decimals that are worth reading. */
const unitsByEnding = [
  ['KPa', 'kPa', 3],
  ['MmHg', 'mmHg', 1],
  ['Percent', '%', 1],
  ['NPerM', 'N/m', 1],
  ['Mm', 'mm', 2],
] as const;

const HEADING = ['', '', 'least', 'mean', '95 %', 'most', 'band of mean'];

function wornAsText(summary: WornSummary, result: StudyResult): string {
  const rows = OUTPUT_COLUMNS.map(({ field, name }) => {
    const spread = summary.fields[name]!;
    const [, unit, decimals] = unitsByEnding.find(([ending]) => name.endsWith(ending)) ?? ['', '', 3];
    const written = (value: number) => fixed(value, decimals);
    const numbers = [spread.min, spread.mean, spread.p95, spread.max].map(written);
    const band = spread.band ? [`${written(spread.band.low.mean)} to ${written(spread.band.high.mean)}`] : [];
    return [FIELD_WORDS[field].name, unit, ...numbers, ...band];
  });
  const isBanded = rows.some((row) => row.length > HEADING.length - 1);
  const heading = isBanded ? HEADING : HEADING.slice(0, -1);
  const rest = summary.atRest ? 'at rest' : 'NOT at rest';
  const findings = findingLines(summary.findings);
  return [
    `${summary.id}: ${rest}, ${summary.residual.toExponential(1)} out of balance, ${summary.vertexCount} vertices, warp ${result.garment.warp} the body`,
    textTable([heading, ...rows], 2),
    ...(isBanded ? [BAND_MEANING] : []),
    ...(findings === '' ? [] : [findings]),
  ].join('\n');
}
