import { guessImport } from '../../core/body/guess-import.ts';
import { importBody } from '../../core/body/import-body.ts';
import type { ImportChoices } from '../../core/body/import-choices.ts';
import { findSkin, type FoundSkin } from '../../core/body/import-skin.ts';
import type { ImportProgress } from '../../core/body/import-report.ts';
import { Fault, inFileAsync } from '../../core/fault/fault.ts';
import { requireWithin } from '../../core/io/mesh-limits.ts';
import { extentOf } from '../../core/mesh/extent.ts';
import { mergeMeshes } from '../../core/mesh/merge-meshes.ts';
import type { MeshScene } from '../../core/mesh/mesh-scene.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import { triple } from '../../core/mesh/triple.ts';
import type { DrawnSurface, FromImport, MadeBody, OpenedScene, ToImport } from './import-messages.ts';
import { MOST_MEASURED, tapeLevels } from './import-tape.ts';
import { troubleOf } from './trouble.ts';
import { vertexNormals } from './vertex-normals.ts';

/** What the desk needs from outside. */
export interface DeskParts {
  readonly post: (message: FromImport) => void;
  /** Lets messages that wait be heard. */
  readonly breathe: () => Promise<void>;
  readonly now: () => number;
  readonly read: (name: string, bytes: Uint8Array) => Promise<MeshScene>;
}

/** Progress is told no oftener than this, ms. */
const TELL_EVERY = 60;

/** Reads one mesh file, keeps what it holds, and makes a body of it as often as the answers change. The newest wish wins. */
export function createImportDesk(parts: DeskParts): (message: ToImport) => Promise<void> {
  const { post } = parts;
  let scene: MeshScene | null = null;
  /** Of the largest surface, which takes longest to find. */
  let skin: FoundSkin | null = null;
  let newest = 0;

  /** Goes through the steps; null where a newer wish has come. */
  const walk = async <Result>(
    turn: number,
    work: Generator<ImportProgress, Result>,
  ): Promise<Result | null> => {
    let toldAt = -Infinity;
    let step = work.next();
    while (!step.done) {
      if (parts.now() - toldAt >= TELL_EVERY) {
        toldAt = parts.now();
        post({ kind: 'stand', turn, stand: step.value });
      }
      await parts.breathe();
      if (turn !== newest) return null;
      step = work.next();
    }
    return step.value;
  };

  const make = async (turn: number, choices: ImportChoices): Promise<void> => {
    if (scene === null || skin === null) return;
    const made = await walk(turn, importBody(scene, choices, skin));
    if (made === null) return;
    post({ kind: 'made', turn, made: madeBody(choices, made) });
    await parts.breathe();
    if (turn !== newest) return;
    const { mesh, report } = made;
    const isMeasured = report.closed && mesh.triangles.length <= 3 * MOST_MEASURED;
    post({ kind: 'measured', turn, levels: isMeasured ? tapeLevels(mesh) : null });
  };

  const open = async ({ turn, name, file, choices }: Opening): Promise<void> => {
    post({ kind: 'stand', turn, stand: { doing: 'reading', share: 0 } });
    await parts.breathe();
    const read = await inFileAsync(name, async () => parts.read(name, await bytesOf(file, name)));
    scene = read;
    const found = await walk(turn, findSkin(read, 'largest'));
    if (found === null) return;
    skin = found;
    const guess = await walk(turn, guessImport(read, found));
    if (guess === null) return;
    post({ kind: 'opened', turn, opened: openedScene(read, guess) });
    await make(turn, choices ?? guess.choices);
  };

  return async (message) => {
    const { turn } = message;
    newest = turn;
    try {
      await (message.kind === 'open' ? open(message) : make(turn, message.choices));
    } catch (error) {
      post({ turn, ...troubleOf(error) });
    }
  };
}

type Opening = Extract<ToImport, { kind: 'open' }>;

async function bytesOf(file: Blob, name: string): Promise<Uint8Array> {
  // Before it fills the memory.
  requireWithin('bytes', file.size);
  try {
    return new Uint8Array(await file.arrayBuffer());
  } catch {
    // Moved or taken away since it was dropped.
    throw new Fault('file/missing', { path: name });
  }
}

function openedScene(scene: MeshScene, guess: OpenedScene['guess']): OpenedScene {
  const { mesh } = mergeMeshes(scene.parts.map((part) => part.mesh));
  const { low, high } = extentOf(mesh);
  const middle = triple((k) => (low[k]! + high[k]!) / 2);
  const told = { ...mesh, positions: mesh.positions.map((value, i) => value - middle[i % 3]!) };
  return {
    format: scene.format,
    parts: scene.parts.map(({ name, mesh }) => ({ name, triangleCount: mesh.triangles.length / 3 })),
    surface: drawnSurface(told),
    middle,
    size: triple((k) => high[k]! - low[k]!),
    guess,
  };
}

const madeBody = (
  choices: ImportChoices,
  { mesh, report }: { readonly mesh: TriangleMesh; readonly report: MadeBody['report'] },
): MadeBody => ({ choices, surface: drawnSurface(mesh), ...extentOf(mesh), report });

const drawnSurface = (mesh: TriangleMesh): DrawnSurface => ({
  positions: Float32Array.from(mesh.positions),
  normals: Float32Array.from(vertexNormals(mesh)),
  triangles: mesh.triangles,
});
