import { turnUp } from '../body/turn-up.ts';
import type { Fabric } from '../fabric/fabric.ts';
import { Fault, inFile, inFileAsync } from '../fault/fault.ts';
import type { BlockSheet } from '../block/blocks.ts';
import type { GarmentSheet } from '../block/garment-sheet.ts';
import type { TubeSheet } from '../garment/tube-sheet.ts';
import { readBenchSheet } from '../io/read-bench-sheet.ts';
import { readGlb } from '../io/read-glb.ts';
import { readObj } from '../io/read-obj.ts';
import { readStudyFile, type StudyFile } from '../io/study-file.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { metresFromMm, pascalsFromKPa, radiansFromDegrees, ratioFromPercent } from '../units/units.ts';
import { fitChoice } from './fit-choice.ts';
import { SKIN_FRICTION } from './skin-friction.ts';
import type { BodyChoice, FleshChoice, Study } from './study.ts';
import { importedSkin } from './imported-skin.ts';
import { tapeOf, tissueOf } from './study-notes.ts';

/** How a host hands over the files that lie beside a study. Both reject with a Fault `file/missing`. */
export interface FilesBeside {
  readonly text: (path: string) => Promise<string>;
  readonly bytes: (path: string) => Promise<Uint8Array>;
}

/** Of the bracket of soft tissue the end that bulges most. */
const USUAL_POISSON = 0.49;

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
  const fabricOf = async (sheet: string): Promise<Fabric> => {
    const readings = await files.text(sheet);
    return inFile(sheet, () => readBenchSheet(readings));
  };
  const fabrics = [];
  for (const { id, sheet } of file.fabrics) fabrics.push({ id, fabric: await fabricOf(sheet) });
  const liningFabrics = [];
  const tube = 'tube' in file.garment ? file.garment.tube : null;
  for (const { sheet } of tube?.linings ?? []) if (sheet) liningFabrics.push(await fabricOf(sheet));
  return {
    name: file.name,
    body: await bodyOf(file.body, files),
    fabrics,
    garment: garmentOf(file.garment),
    ...(liningFabrics.length > 0 && { liningFabrics }),
    ...frictionOf(file.friction),
    ...(file.flesh !== 'foundation' && { flesh: layerOf(file.flesh.layer) }),
    ...(file.tape && { tape: tapeOf(file.tape) }),
    ...(file.tissue && { tissue: tissueOf(file.tissue) }),
    ...(file.bending && { bending: true }),
    branch: file.branch,
    edge: metresFromMm(file.edgeMm),
  };
}

function garmentOf(garment: StudyFile['garment']): GarmentSheet {
  return 'tube' in garment ? tubeOf(garment.tube) : blockOf(garment);
}

const metres = (measures: Readonly<Record<string, number>>): Record<string, number> =>
  Object.fromEntries(Object.entries(measures).map(([name, mm]) => [name, metresFromMm(mm)]));

type BlockEntry = Exclude<StudyFile['garment'], { tube: unknown }>;

function blockOf({ block, construction, girthsMm, lengthsMm, laidMm }: BlockEntry): BlockSheet {
  return {
    block,
    construction,
    girths: metres(girthsMm),
    lengths: metres(lengthsMm),
    ...(laidMm && { laid: metres(laidMm) }),
  };
}

type TubeEntry = Extract<StudyFile['garment'], { tube: unknown }>['tube'];

function tubeOf(tube: TubeEntry): TubeSheet {
  let liningCount = 0;
  return {
    region: tube.region,
    from: metresFromMm(tube.fromMm),
    to: metresFromMm(tube.toMm),
    girths: tube.girths.map(({ atMm, relaxedMm }) => ({
      at: metresFromMm(atMm),
      relaxed: metresFromMm(relaxedMm),
    })),
    relaxedLength: metresFromMm(tube.relaxedLengthMm),
    warp: tube.warp,
    ...(tube.bands && {
      bands: tube.bands.map(({ at, widthMm, relaxedMm, curve }) => ({
        at: typeof at === 'number' ? metresFromMm(at) : at,
        width: metresFromMm(widthMm),
        relaxed: metresFromMm(relaxedMm),
        curve: curve.map(([percent, newtons]) => [ratioFromPercent(percent), newtons] as const),
      })),
    }),
    ...(tube.linings && {
      linings: tube.linings.map(({ sheet, fromMm, toMm, grainDeg }) => ({
        fabric: sheet === undefined ? 0 : ++liningCount,
        ...(fromMm !== undefined && { from: metresFromMm(fromMm) }),
        ...(toMm !== undefined && { to: metresFromMm(toMm) }),
        ...(grainDeg !== undefined && { grain: radiansFromDegrees(grainDeg) }),
      })),
    }),
  };
}

const frictionOf = (friction: StudyFile['friction']): Pick<Study, 'friction' | 'frictionFrom'> =>
  typeof friction === 'number'
    ? { friction, frictionFrom: 'typed' }
    : { friction: SKIN_FRICTION[friction].coefficient, frictionFrom: friction };

const layerOf = ({
  poisson,
  skin,
}: {
  poisson?: number | undefined;
  skin?: 'slides' | 'held' | undefined;
}): FleshChoice => ({
  kind: 'layer',
  poisson: poisson ?? USUAL_POISSON,
  skin: skin ?? 'slides',
});

/**
 * Reads only the body of a study; its fabrics need not be there.
 *
 * @throws {Fault} as {@link openStudy}.
 */
export function openBody(text: string, name: string, files: FilesBeside): Promise<BodyChoice> {
  return inFileAsync(name, () => bodyOf(readStudyFile(text).body, files));
}

async function bodyOf(body: StudyFile['body'], files: FilesBeside): Promise<BodyChoice> {
  if ('fitBody' in body) return fitChoice(body.fitBody, files);
  const tissue =
    typeof body.tissue === 'string'
      ? body.tissue
      : {
          depth: metresFromMm(body.tissue.depthMm),
          foundationModulus: pascalsFromKPa(body.tissue.modulusKPa),
        };
  // What is brought in is placed anew: results lie in the body's own axes.
  if ('import' in body) return { kind: 'mesh', skin: await importedSkin(body, files), sourceUp: 'y', tissue };
  const { positions, triangles } = await readMesh(body.mesh, files);
  const scale = METRES_PER[body.unit];
  const skin = turnUp({ positions: positions.map((coordinate) => coordinate * scale), triangles }, body.up);
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
