import { z } from 'zod';
import { BLOCKS, type BlockName } from '../block/blocks.ts';
import { Fault } from '../fault/fault.ts';
import { checkShape, readJson } from './read-json.ts';
import { tapeNotes, tissueNotes } from './study-notes.ts';

/** The version of the study file that this program writes and reads. */
export const STUDY_VERSION = 1;

const positiveMm = z.number().positive().max(10_000);
/** Limits are those of the fit body, which says them. */
const shapeNumber = z.number();
const levelMm = z.number().min(-10_000).max(10_000);

const fitBody = z
  .strictObject({
    size: z.string().min(1).optional(),
    sizeChart: z.string().min(1).optional(),
    figure: z.enum(['female', 'male']).optional(),
    statureMm: positiveMm.optional(),
    bustMm: positiveMm.optional(),
    underbustMm: positiveMm.optional(),
    waistMm: positiveMm.optional(),
    hipMm: positiveMm.optional(),
    neckMm: positiveMm.optional(),
    topHipMm: positiveMm.optional(),
    thighMm: positiveMm.optional(),
    midThighMm: positiveMm.optional(),
    kneeMm: positiveMm.optional(),
    calfMm: positiveMm.optional(),
    ankleMm: positiveMm.optional(),
    upperArmMm: positiveMm.optional(),
    elbowMm: positiveMm.optional(),
    wristMm: positiveMm.optional(),
    legSpreadDeg: shapeNumber.optional(),
    armAbductionDeg: shapeNumber.optional(),
    thighGapMm: shapeNumber.optional(),
    lumbarFurrowMm: shapeNumber.optional(),
    seatCleftMm: shapeNumber.optional(),
    bustSupport: shapeNumber.optional(),
    relief: shapeNumber.optional(),
  })
  .superRefine((body, context) => {
    if (body.size !== undefined) return;
    for (const key of ['statureMm', 'bustMm', 'underbustMm', 'waistMm', 'hipMm'] as const) {
      if (body[key] !== undefined) continue;
      context.addIssue({
        code: 'custom',
        path: [key],
        message: 'a number, unless a "size" of a size chart is named',
      });
    }
    if (body.sizeChart === undefined) return;
    context.addIssue({ code: 'custom', path: ['size'], message: 'the name of a size in that chart' });
  });

const tissue = z.union([
  z.enum(['rigid', 'transferred']),
  z.strictObject({ depthMm: z.number().positive().max(500), modulusKPa: z.number().positive().max(1e6) }),
]);

const meshBody = z.strictObject({
  mesh: z.string().min(1),
  unit: z.enum(['mm', 'cm', 'm']),
  up: z.enum(['x', 'y', 'z']),
  tissue,
});

const axis = z.enum(['+x', '-x', '+y', '-y', '+z', '-z']);

/** The answers with which a mesh was brought in; left out, the largest surface, its holes closed, as coarse as it is. */
const meshImport = z.strictObject({
  unit: z.enum(['mm', 'cm', 'm', 'inch']),
  up: axis,
  front: axis,
  part: z.union([z.string().min(1), z.number().int().min(1)]).optional(),
  closeHoles: z.boolean().default(true),
  refineEdgeMm: z.number().min(1).max(1000).nullable().default(null),
});

const importedBody = z.strictObject({ mesh: z.string().min(1), import: meshImport, tissue });

const band = z.strictObject({
  at: z.union([z.enum(['upper', 'lower']), levelMm]),
  widthMm: positiveMm,
  relaxedMm: positiveMm,
  curve: z.array(z.tuple([z.number().min(0).max(1000), z.number().min(0).max(10_000)])).min(1),
});

const lining = z.strictObject({
  sheet: z.string().min(1).optional(),
  fromMm: levelMm.optional(),
  toMm: levelMm.optional(),
  grainDeg: z.number().min(-180).max(180).optional(),
});

const tube = z.strictObject({
  region: z.enum(['trunk', 'leftLeg', 'rightLeg', 'whole']),
  fromMm: levelMm,
  toMm: levelMm,
  girths: z.array(z.strictObject({ atMm: levelMm, relaxedMm: positiveMm })).min(1),
  relaxedLengthMm: positiveMm,
  warp: z.enum(['along', 'around']),
  bands: z.array(band).optional(),
  linings: z.array(lining).max(4).optional(),
});

const blockNames = Object.keys(BLOCKS).filter((name): name is BlockName => name in BLOCKS);

/** A garment cut from panels; which levels and lengths there are depends on the block. */
const block = z
  .strictObject({
    block: z.enum(blockNames),
    construction: z.enum(['cut', 'moulded']).default('cut'),
    girthsMm: z.record(z.string(), positiveMm),
    lengthsMm: z.record(z.string(), positiveMm),
    laidMm: z.record(z.string(), levelMm).optional(),
  })
  .superRefine(({ block: name, girthsMm, lengthsMm, laidMm = {} }, context) => {
    const { levels, lengths, laid } = BLOCKS[name];
    const parts = [
      { key: 'girthsMm', given: girthsMm, names: levels.map((level) => level.name) },
      { key: 'lengthsMm', given: lengthsMm, names: lengths.map((length) => length.name) },
      { key: 'laidMm', given: laidMm, names: [...laid] },
    ] as const;
    for (const { key, given, names } of parts) {
      for (const measure of Object.keys(given)) {
        if (names.some((name) => name === measure)) continue;
        context.addIssue({ code: 'custom', path: [key, measure], message: `one of ${names.join(', ')}` });
      }
    }
  });

const friction = z.union([z.number().min(0).max(2), z.enum(['dry', 'damp'])]);

/** Poisson's ratios that the layer of flesh is right for: those of `core/equilibrium/flesh-kernel.ts`. */
const flesh = z.union([
  z.literal('foundation'),
  z.strictObject({
    layer: z.strictObject({
      poisson: z.number().min(0.45).max(0.495).optional(),
      skin: z.enum(['slides', 'held']).optional(),
    }),
  }),
]);

const fabricEntry = z.strictObject({
  id: z.string().regex(/^[\w-]+$/, 'letters, digits, - and _ only: it names files'),
  sheet: z.string().min(1),
});

const studyFile = z.strictObject({
  snugfield: z.literal(STUDY_VERSION),
  name: z.string().min(1),
  note: z.string().optional(),
  body: z.union([z.strictObject({ fitBody }), meshBody, importedBody]),
  fabrics: z.array(fabricEntry).min(1),
  garment: z.union([z.strictObject({ tube }), block]),
  friction: friction.default(0),
  flesh: flesh.default('foundation'),
  tape: tapeNotes.optional(),
  tissue: tissueNotes.optional(),
  bending: z.boolean().default(false),
  branch: z.enum(['load', 'return']).default('load'),
  edgeMm: z.number().min(1).max(50).default(8),
});

/** A study as its file holds it: in the file's own units, other files named by path. */
export type StudyFile = z.infer<typeof studyFile>;

/**
 * Reads a study file.
 *
 * @param text - JSON, as documented in README.md.
 * @throws {Fault} `file/not-json`, `file/unknown-version`, `file/wrong-shape`.
 */
export function readStudyFile(text: string): StudyFile {
  const value = readJson(text);
  const version =
    typeof value === 'object' && value !== null && 'snugfield' in value ? value.snugfield : undefined;
  if (version !== STUDY_VERSION) {
    throw new Fault('file/unknown-version', {
      path: 'snugfield',
      known: STUDY_VERSION,
      value: JSON.stringify(version) ?? 'nothing',
    });
  }
  const file = checkShape(studyFile, value);
  file.fabrics.forEach(({ id }, index) => {
    if (file.fabrics.findIndex((other) => other.id === id) === index) return;
    throw new Fault('file/wrong-shape', {
      path: `fabrics[${index}].id`,
      expected: 'an id that no other fabric has',
      value: JSON.stringify(id),
    });
  });
  return file;
}
