import { turnUp } from '../body/turn-up.ts';
import { Fault, inFile, inFileAsync } from '../fault/fault.ts';
import { readBenchSheet } from '../io/read-bench-sheet.ts';
import { readGlb } from '../io/read-glb.ts';
import { readObj } from '../io/read-obj.ts';
import { readStudyFile, type StudyFile } from '../io/study-file.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { metresFromMm, pascalsFromKPa } from '../units/units.ts';
import type { BodyChoice, Study } from './study.ts';

/** How a host hands over the files that lie beside a study. Both reject with a Fault `file/missing`. */
export interface FilesBeside {
  readonly text: (path: string) => Promise<string>;
  readonly bytes: (path: string) => Promise<Uint8Array>;
}

const METRES_PER = { mm: 1e-3, cm: 1e-2, m: 1 } as const;

/**
 * Reads a study and every file that it names.
 *
 * @param text - The study file.
 * @param name - What the user calls that file; named in faults.
 * @throws {Fault} from any of the readers, with the file it was met in.
 */
export function openStudy(text: string, name: string, files: FilesBeside): Promise<Study> {
  return inFileAsync(name, () => studyOf(readStudyFile(text), files));
}

async function studyOf(file: StudyFile, files: FilesBeside): Promise<Study> {
  const fabrics = [];
  for (const { id, sheet } of file.fabrics) {
    const readings = await files.text(sheet);
    fabrics.push({ id, fabric: inFile(sheet, () => readBenchSheet(readings)) });
  }
  const { tube } = file.garment;
  return {
    name: file.name,
    body: await bodyOf(file.body, files),
    fabrics,
    garment: {
      region: tube.region,
      from: metresFromMm(tube.fromMm),
      to: metresFromMm(tube.toMm),
      girths: tube.girths.map(({ atMm, relaxedMm }) => ({
        at: metresFromMm(atMm),
        relaxed: metresFromMm(relaxedMm),
      })),
      relaxedLength: metresFromMm(tube.relaxedLengthMm),
      warp: tube.warp,
    },
    friction: file.friction,
    branch: file.branch,
    edge: metresFromMm(file.edgeMm),
  };
}

/**
 * Reads only the body of a study; its fabrics need not be there.
 *
 * @throws {Fault} as {@link openStudy}.
 */
export function openBody(text: string, name: string, files: FilesBeside): Promise<BodyChoice> {
  return inFileAsync(name, () => bodyOf(readStudyFile(text).body, files));
}

async function bodyOf(body: StudyFile['body'], files: FilesBeside): Promise<BodyChoice> {
  if ('fitBody' in body) {
    const { statureMm, bustMm, underbustMm, waistMm, hipMm, figure = 'female' } = body.fitBody;
    return {
      kind: 'fitBody',
      measures: {
        stature: metresFromMm(statureMm),
        bust: metresFromMm(bustMm),
        underbust: metresFromMm(underbustMm),
        waist: metresFromMm(waistMm),
        hip: metresFromMm(hipMm),
        figure,
      },
    };
  }
  const { positions, triangles } = await readMesh(body.mesh, files);
  const scale = METRES_PER[body.unit];
  const skin = turnUp({ positions: positions.map((coordinate) => coordinate * scale), triangles }, body.up);
  const tissue =
    body.tissue === 'rigid'
      ? body.tissue
      : {
          depth: metresFromMm(body.tissue.depthMm),
          foundationModulus: pascalsFromKPa(body.tissue.modulusKPa),
        };
  return { kind: 'mesh', skin, sourceUp: body.up, tissue };
}

async function readMesh(path: string, files: FilesBeside): Promise<TriangleMesh> {
  const kind = path.slice(path.lastIndexOf('.')).toLowerCase();
  if (kind === '.obj') {
    const text = await files.text(path);
    return inFile(path, () => readObj(text));
  }
  if (kind === '.glb') {
    const bytes = await files.bytes(path);
    return inFileAsync(path, () => readGlb(bytes));
  }
  throw new Fault('file/unknown-kind', { value: kind, known: '.obj, .glb' }, path);
}
