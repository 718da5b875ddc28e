import { guessImport } from '../../core/body/guess-import.ts';
import { findSkin } from '../../core/body/import-skin.ts';
import { importBody } from '../../core/body/import-body.ts';
import type { ImportChoices, ImportGuess } from '../../core/body/import-choices.ts';
import type { ImportedMesh, ImportProgress } from '../../core/body/import-report.ts';
import { Fault, inFileAsync } from '../../core/fault/fault.ts';
import { MESH_ENDINGS, readMeshScene } from '../../core/io/read-mesh-scene.ts';
import { writeGlb } from '../../core/io/write-glb.ts';
import { writeObj } from '../../core/io/write-obj.ts';
import type { Axis, MeshScene, MeshUnit } from '../../core/mesh/mesh-scene.ts';
import {
  DOUBTFUL_WORDS,
  IMPORT_DOING_WORDS,
  sayImportGuess,
  sayImportStep,
} from '../../core/words/import-words.ts';
import { writeAllWhole } from '../write-whole.ts';
import { exitCodes, type ExitCode } from './exit-codes.ts';
import { readBytes } from './read-input.ts';
import { runToEnd } from './run-to-end.ts';
import type { Terminal } from './terminal.ts';

/** What a command line says of a mesh file; what it leaves out is guessed. */
export interface ImportWishes {
  readonly json: boolean;
  readonly out: string | null;
  readonly unit?: MeshUnit;
  readonly up?: Axis;
  readonly front?: Axis;
  /** The name of a part, or its number from 1. */
  readonly part?: string;
  readonly keepHoles?: boolean;
  readonly refineMm?: number;
  readonly keepCoarse?: boolean;
}

/** Whether a file is a mesh, by its ending. */
export const isMeshFile = (file: string): boolean =>
  MESH_ENDINGS.some((ending) => file.toLowerCase().endsWith(ending));

/** Makes a mesh file ready to be a body, prints what was guessed and done, and writes it where a file is named. */
export async function bodyImport(file: string, wishes: ImportWishes, terminal: Terminal): Promise<ExitCode> {
  const { out } = wishes;
  const write = out === null ? null : meshWriter(out);
  terminal.progress('reading');
  const bytes = await readBytes(file);
  const { guess, scene, imported, choices } = await inFileAsync(file, async () => {
    const scene = await readMeshScene(file, bytes);
    const told = (progress: ImportProgress | null): void => {
      if (progress === null) return;
      terminal.progress(`${IMPORT_DOING_WORDS[progress.doing]}, ${Math.round(100 * progress.share)} %`);
    };
    const hear = ({ progress }: { readonly progress: ImportProgress | null }) => told(progress);
    const skin = await runToEnd(findSkin(scene, 'largest'), terminal.stop, hear);
    const guess = await runToEnd(guessImport(scene, skin), terminal.stop, hear);
    const choices = chosen(guess, scene, wishes);
    return {
      guess,
      scene,
      choices,
      imported: await runToEnd(importBody(scene, choices, skin), terminal.stop, hear),
    };
  });
  if (out !== null && write !== null) {
    await writeAllWhole([{ path: out, content: write(imported) }], terminal.stop);
  }
  terminal.result(
    wishes.json
      ? JSON.stringify(asJson(scene, guess, choices, imported), null, 2)
      : asText(guess, wishes, imported),
  );
  if (out !== null) terminal.remark(`Wrote ${out}, in mm, y up; ${file} is as it was.`);
  return exitCodes.done;
}

/** @throws {Fault} `file/unknown-kind`. */
function meshWriter(out: string): (imported: ImportedMesh) => string | Uint8Array {
  const ending = /\.[^./\\]*$/.exec(out)?.[0].toLowerCase() ?? '';
  if (ending === '.obj')
    return ({ mesh, report }) =>
      writeObj(
        mesh,
        report.steps.map((step) => sayImportStep(step)),
      );
  if (ending === '.glb') return ({ mesh }) => writeGlb(mesh);
  throw new Fault('file/unknown-kind', { value: ending, known: '.obj, .glb' }, out);
}

/** The guess with what was said put in its place. */
function chosen({ choices, up }: ImportGuess, scene: MeshScene, wishes: ImportWishes): ImportChoices {
  const { unit, front, part, keepHoles, refineMm, keepCoarse } = wishes;
  const wishedUp = wishes.up ?? choices.up;
  // A front guessed beside another up may lie along the one asked for.
  const guessedFront = choices.front[1] === wishedUp[1] ? up.value : choices.front;
  return {
    unit: unit ?? choices.unit,
    up: wishedUp,
    front: front ?? guessedFront,
    part: part === undefined ? choices.part : partNumber(scene, part),
    closeHoles: keepHoles !== true,
    refineEdgeMm: keepCoarse === true ? null : (refineMm ?? choices.refineEdgeMm),
  };
}

/** @throws {Fault} `body/no-such-part`. */
function partNumber({ parts }: MeshScene, wanted: string): number {
  const named = parts.findIndex(({ name }) => name === wanted);
  if (named >= 0) return named;
  const number = /^\d+$/.test(wanted) ? Number(wanted) - 1 : -1;
  if (parts[number] !== undefined) return number;
  throw new Fault('body/no-such-part', { wanted, known: parts.slice(0, 20).map(({ name }) => name) });
}

/* oxlint-disable-next-line max-params -- all that was found out */
function asJson(scene: MeshScene, guess: ImportGuess, choices: ImportChoices, imported: ImportedMesh) {
  const { unit, up, front, part } = guess;
  const said = sayImportGuess(guess);
  return {
    parts: scene.parts.map(({ name, mesh }) => ({ name, triangleCount: mesh.triangles.length / 3 })),
    guesses: {
      unit: { ...unit, sentence: said.unit },
      up: { ...up, sentence: said.up },
      front: { ...front, sentence: said.front },
      part: { ...part, sentence: said.part },
    },
    choices,
    closed: imported.report.closed,
    vertexCount: imported.mesh.positions.length / 3,
    triangleCount: imported.mesh.triangles.length / 3,
    placing: imported.report.placing,
    steps: imported.report.steps.map((step) => ({ ...step, sentence: sayImportStep(step) })),
  };
}

function asText(guess: ImportGuess, wishes: ImportWishes, { mesh, report }: ImportedMesh): string {
  const said = sayImportGuess(guess);
  const guesses = (['unit', 'up', 'front', 'part'] as const).map((question) => {
    if (wishes[question] !== undefined) return `  ${question}: as given`;
    const doubt = guess[question].certainty === 'doubtful' ? ` ${DOUBTFUL_WORDS}` : '';
    return `  ${question}: ${said[question]}${doubt}`;
  });
  return [
    'Guessed',
    ...guesses,
    '',
    'Done',
    ...report.steps.map((step) => `  ${sayImportStep(step)}`),
    '',
    `${mesh.positions.length / 3} vertices, ${mesh.triangles.length / 3} triangles, ${
      report.closed ? 'closed: ready to be a body' : 'OPEN: no body yet, close the holes first'
    }`,
  ].join('\n');
}
