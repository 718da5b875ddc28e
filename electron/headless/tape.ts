import path from 'node:path';

import { guessImport } from '../../core/body/guess-import.ts';
import { importBody } from '../../core/body/import-body.ts';
import { findLandmarks } from '../../core/body/landmark-find.ts';
import { measureBody } from '../../core/body/measure-body.ts';
import type { BodyTape } from '../../core/body/body-tape.ts';
import { INVENTED_CHARTS } from '../../core/body/size-chart-invented.ts';
import { nearestSize, type SizeChart } from '../../core/body/size-chart.ts';
import { Fault, inFile } from '../../core/fault/fault.ts';
import type { Finding } from '../../core/fault/finding.ts';
import { readMeshScene } from '../../core/io/read-mesh-scene.ts';
import { readSizeChart } from '../../core/io/read-size-chart.ts';
import { readStudyFile } from '../../core/io/study-file.ts';
import { fixed } from '../../core/sheet/number-format.ts';
import { heightRows, tapeRows, type ChosenSize } from '../../core/sheet/tape-table.ts';
import { makeBody } from '../../core/study/make-body.ts';
import { tapeOf } from '../../core/study/study-notes.ts';
import type { BodyChoice, StandingBody, TapeNotes } from '../../core/study/study.ts';
import { mmFromMetres } from '../../core/units/units.ts';
import { DOUBTFUL_WORDS, sayImportGuess } from '../../core/words/import-words.ts';
import { levelWords } from '../../core/words/judgement-words.ts';
import { HOW_WORDS, INVENTED_CHART_WORDS, TAPE_SIDE_WORDS } from '../../core/words/tape-words.ts';
import { isMeshFile } from './body-import.ts';
import { exitCodes, type ExitCode } from './exit-codes.ts';
import { readBody, readBytes, readText } from './read-input.ts';
import { runToEnd } from './run-to-end.ts';
import { findingLines, findingsAsJson } from './say-findings.ts';
import type { Terminal } from './terminal.ts';
import { textTable } from './text-table.ts';

/** The options of the tape, as Commander hands them over. */
export interface TapeOptions {
  readonly chart?: string;
  readonly size?: string;
}

export interface TapeCommandWishes {
  readonly json: boolean;
  /** A file; null for the invented chart. */
  readonly chart: string | null;
  /** Of the chart; null for the nearest. */
  readonly size: string | null;
}

/** Prints what a tape reads on the body of a study or of a mesh file, a size chart beside it. */
export async function tape(file: string, wishes: TapeCommandWishes, terminal: Terminal): Promise<ExitCode> {
  const ownChart = wishes.chart === null ? null : await readChart(wishes.chart);
  const { choice, notes } = await readMeasured(file, terminal);
  terminal.progress('making the body');
  const body = makeBody(choice);
  terminal.progress('measuring');
  const measured = measureBody(body.skin, {
    known: body.regions === null ? nobodySeen(body) : knownOf(body),
    ...notes,
  });
  const findings = unlike([...body.findings, ...measured.findings]);
  const chosen = chooseSize(measured, ownChart, wishes);
  const card = tapeCard(body, { ...measured, findings }, chosen);
  terminal.result(wishes.json ? JSON.stringify(card, null, 2) : cardAsText(card, findings));
  return exitCodes.done;
}

const knownOf = ({ landmarks, floor, forward }: StandingBody) => ({ landmarks, floor, forward });

/** Nobody is seen: what the search says of it is told. */
const nobodySeen = ({ skin }: StandingBody) => findLandmarks(skin);

/** The same finding once. */
const unlike = (findings: readonly Finding[]): readonly Finding[] => [
  ...new Map(findings.map((finding) => [JSON.stringify(finding), finding])).values(),
];

async function readChart(file: string): Promise<SizeChart> {
  const text = await readText(file);
  return inFile(file, () => readSizeChart(text, path.basename(file)));
}

/** What is measured, and how tapes were laid on it by hand. */
interface Measured {
  readonly choice: BodyChoice;
  readonly notes: TapeNotes | null;
}

/** A study's body, or a mesh with unit, axes and skin as they are guessed. */
async function readMeasured(file: string, terminal: Terminal): Promise<Measured> {
  if (!isMeshFile(file)) {
    const { tape: notes } = readStudyFile(await readText(file));
    return { choice: await readBody(file), notes: notes === undefined ? null : tapeOf(notes) };
  }
  const scene = await readMeshScene(file, await readBytes(file));
  terminal.progress('reading the mesh');
  const guess = await runToEnd(guessImport(scene), terminal.stop);
  const said = sayImportGuess(guess);
  for (const question of ['unit', 'up', 'front', 'part'] as const) {
    if (guess[question].certainty === 'doubtful') terminal.remark(`${said[question]} ${DOUBTFUL_WORDS}`);
  }
  const { mesh } = await runToEnd(importBody(scene, guess.choices), terminal.stop);
  return { choice: { kind: 'mesh', skin: mesh, sourceUp: 'y', tissue: 'rigid' }, notes: null };
}

/**
 * The size that stands beside the body.
 *
 * @throws {Fault} `chart/no-such-size`.
 */
function chooseSize(
  measured: BodyTape,
  own: SizeChart | null,
  { chart, size }: TapeCommandWishes,
): ChosenSize | null {
  const isMale = measured.landmarks.chestFront !== undefined;
  const used = own ?? INVENTED_CHARTS[isMale ? 'men' : 'women'];
  if (size !== null && !used.sizes.includes(size)) {
    throw new Fault('chart/no-such-size', { size, known: used.sizes.join(', ') }, chart);
  }
  const found = size ?? nearestSize(measured, used);
  return found === null ? null : { chart: used, size: found };
}

type TapeCard = ReturnType<typeof tapeCard>;

function tapeCard(body: StandingBody, measured: BodyTape, chosen: ChosenSize | null) {
  return {
    chart:
      chosen === null
        ? null
        : {
            name: chosen.chart.name,
            size: chosen.size,
            source: chosen.chart.source,
            isInvented: chosen.chart.isInvented,
          },
    girths: tapeRows(measured, chosen),
    heights: heightRows(measured, chosen),
    /** Of a body that is no person. */
    plainGirths:
      body.regions === null
        ? body.girths.map(({ name, level, girth }) => ({
            name,
            heightMm: fixed(mmFromMetres(level - body.floor), 0),
            girthMm: fixed(mmFromMetres(girth), 1),
          }))
        : [],
    findings: findingsAsJson(measured.findings),
  };
}

function cardAsText(card: TapeCard, findings: readonly Finding[]): string {
  const title = card.chart === null ? [] : [`${card.chart.name}, size ${card.chart.size}`, ''];
  const girths = card.girths.map((row) => [
    levelWords(row.name),
    TAPE_SIDE_WORDS[row.side],
    HOW_WORDS[row.how],
    row.girthMm,
    row.chartMm,
    row.differenceMm,
    row.heightMm,
  ]);
  const heights = card.heights.map((row) => [
    levelWords(row.name),
    row.heightMm,
    row.chartMm,
    row.differenceMm,
  ]);
  const plain = card.plainGirths.map((row) => [levelWords(row.name), row.girthMm, row.heightMm]);
  const tables = [
    girths.length > 0
      ? textTable([['girth, mm', '', 'level', 'body', 'chart', 'body - chart', 'at height'], ...girths], 3)
      : '',
    heights.length > 0 ? textTable([['height, mm', 'body', 'chart', 'body - chart'], ...heights]) : '',
    plain.length > 0 ? textTable([['girth, mm', 'body', 'at height'], ...plain]) : '',
    findingLines(findings),
    card.chart?.isInvented === true ? INVENTED_CHART_WORDS : '',
  ];
  return [...title, tables.filter((table) => table !== '').join('\n\n')].join('\n');
}
