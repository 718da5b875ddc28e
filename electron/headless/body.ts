import { turnBack } from '../../core/body/turn-up.ts';
import { Fault } from '../../core/fault/fault.ts';
import { writeGlb } from '../../core/io/write-glb.ts';
import { writeObj } from '../../core/io/write-obj.ts';
import { fixed } from '../../core/sheet/number-format.ts';
import { makeBody } from '../../core/study/make-body.ts';
import type { StandingBody } from '../../core/study/study.ts';
import { mmFromMetres } from '../../core/units/units.ts';
import { writeAllWhole } from '../write-whole.ts';
import { exitCodes, type ExitCode } from './exit-codes.ts';
import { readBody } from './read-input.ts';
import { findingLines, findingsAsJson } from './say-findings.ts';
import type { Terminal } from './terminal.ts';
import { textTable } from './text-table.ts';

export interface BodyWishes {
  readonly json: boolean;
  /** `.obj` or `.glb`; null where no mesh is wanted. */
  readonly out: string | null;
}

/** Makes a study's body, prints what a tape reads on it, and writes its mesh where one is wanted. */
export async function body(
  studyFile: string,
  { json, out }: BodyWishes,
  terminal: Terminal,
): Promise<ExitCode> {
  const write = out === null ? null : meshWriter(out);
  const choice = await readBody(studyFile);
  terminal.progress('making the body');
  const made = makeBody(choice);
  if (out !== null && write !== null) {
    await writeAllWhole([{ path: out, content: write(made) }], terminal.stop);
  }
  const card = bodyCard(made);
  terminal.result(json ? JSON.stringify(card, null, 2) : cardAsText(card, made));
  if (out !== null) terminal.remark(`Wrote ${out}, in mm.`);
  return exitCodes.done;
}

/**
 * The writer for a file's ending, chosen before anything long begins.
 *
 * @throws {Fault} `file/unknown-kind`.
 */
function meshWriter(out: string): (made: StandingBody) => string | Uint8Array {
  const ending = /\.[^./\\]*$/.exec(out)?.[0].toLowerCase() ?? '';
  if (ending === '.obj') return ({ skin, sourceUp }) => writeObj(turnBack(skin, sourceUp));
  if (ending === '.glb') return ({ skin, sourceUp }) => writeGlb(turnBack(skin, sourceUp));
  throw new Fault('file/unknown-kind', { value: ending, known: '.obj, .glb' }, out);
}

type BodyCard = ReturnType<typeof bodyCard>;

function bodyCard(made: StandingBody) {
  const landmarks = Object.entries(made.landmarks);
  const points = new Float64Array(landmarks.flatMap(([, { point }]) => [...point]));
  const { positions } = turnBack({ positions: points, triangles: new Uint32Array() }, made.sourceUp);
  const pointMm = (i: number) => [0, 1, 2].map((k) => mmFromMetres(positions[3 * i + k]!));
  return {
    vertexCount: made.skin.positions.length / 3,
    triangleCount: made.skin.triangles.length / 3,
    girths: made.girths.map(({ name, level, girth }) => ({
      name,
      levelMm: mmFromMetres(level),
      girthMm: mmFromMetres(girth),
    })),
    landmarks: Object.fromEntries(landmarks.map(([name], i) => [name, pointMm(i)])),
    findings: findingsAsJson(made.findings),
  };
}

function cardAsText(card: BodyCard, made: StandingBody): string {
  const girths = card.girths.map(({ name, levelMm, girthMm }) => [
    name,
    fixed(girthMm, 1),
    fixed(levelMm, 0),
  ]);
  const landmarks = Object.entries(card.landmarks).map(([name, point]) => [
    name,
    ...point.map((mm) => fixed(mm, 1)),
  ]);
  const findings = findingLines(made.findings);
  return [
    `${card.vertexCount} vertices, ${card.triangleCount} triangles`,
    '',
    textTable([['girth', 'mm', 'at height, mm'], ...girths]),
    ...(landmarks.length > 0 ? ['', textTable([['landmark, mm', 'x', 'y', 'z'], ...landmarks])] : []),
    ...(findings === '' ? [] : ['', findings]),
  ].join('\n');
}
