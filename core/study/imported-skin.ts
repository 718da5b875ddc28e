import { importBody } from '../body/import-body.ts';
import type { ImportChoices } from '../body/import-choices.ts';
import { Fault, inFileAsync } from '../fault/fault.ts';
import { readMeshScene } from '../io/read-mesh-scene.ts';
import type { StudyFile } from '../io/study-file.ts';
import type { MeshScene } from '../mesh/mesh-scene.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import type { FilesBeside } from './open-study.ts';

/** A mesh that a study brings in, with the answers it keeps. */
type ImportedBody = Extract<StudyFile['body'], { import: unknown }>;

/**
 * The skin of a mesh file made ready with the answers that a study keeps: the same answers give the same skin.
 *
 * @throws {Fault} `file/unknown-kind`, `mesh/...`, `body/...`, with the file it was met in.
 */
export async function importedSkin(body: ImportedBody, files: FilesBeside): Promise<TriangleMesh> {
  const bytes = await files.bytes(body.mesh);
  return inFileAsync(body.mesh, async () => {
    const scene = await readMeshScene(body.mesh, bytes);
    const work = importBody(scene, choicesOf(body.import, scene));
    let step = work.next();
    while (!step.done) step = work.next();
    return step.value.mesh;
  });
}

function choicesOf({ part, ...answers }: ImportedBody['import'], { parts }: MeshScene): ImportChoices {
  if (part === undefined) return { ...answers, part: 'largest' };
  const index = typeof part === 'number' ? part - 1 : parts.findIndex(({ name }) => name === part);
  if (parts[index] !== undefined) return { ...answers, part: index };
  throw new Fault('body/no-such-part', {
    wanted: String(part),
    known: parts.slice(0, 20).map(({ name }) => name),
  });
}
