import { z } from 'zod';

/** The version of the bench sheet that this program reads and writes. */
export const BENCH_VERSION = 1;

/** Units in which the pairs of a bench sheet may stand. */
export const EXTENSION_UNITS = ['%', 'mm', 'ratio'] as const;
export const FORCE_UNITS = ['N', 'cN', 'gf', 'kgf', 'N/m', 'N/5 cm', 'gf/cm'] as const;
export const WIDTH_UNITS = ['mm', '%', 'ratio'] as const;
export type ExtensionUnit = (typeof EXTENSION_UNITS)[number];
export type ForceUnit = (typeof FORCE_UNITS)[number];
export type WidthUnit = (typeof WIDTH_UNITS)[number];

/** One extension and what was read there. */
export type Pair = [extension: number, reading: number];
/** The pairs of one specimen, or one list of pairs per specimen. */
export type Pairs = Pair[] | Pair[][];

const positive = (most: number) => z.number().positive().max(most);
const oneOrMore = (most: number) => z.union([positive(most), z.array(positive(most)).min(1)]);
const extension = z.number().min(0).max(100_000);
/** A little below 0 is a load cell's noise; more is refused by the bench's guards. */
const forcePair = z.tuple([extension, z.number().min(-1e6).max(1e6)]);
const widthPair = z.tuple([extension, positive(10_000)]);
const perDirection = <S extends z.ZodType>(schema: S) =>
  z.strictObject({ warp: schema, weft: schema, bias: schema });

/** Several specimens: a list of lists of pairs. */
export const isRepeated = (pairs: Pairs): pairs is Pair[][] => Array.isArray(pairs[0]?.[0]);

/** One list of pairs or several; a problem is told for the kind that the value looks like. */
function pairsOf(pair: z.ZodType<Pair>, least: number) {
  const one = z.array(pair).min(least);
  const several = z.array(one).min(1);
  return z.custom<Pairs>().superRefine((value: unknown, context) => {
    const nested = Array.isArray(value) && isRepeated(value as Pairs);
    const result = (nested ? several : one).safeParse(value);
    for (const issue of result.error?.issues ?? []) context.addIssue({ ...issue });
  });
}

const forcePairs = pairsOf(forcePair, 1);
const widthPairs = pairsOf(widthPair, 0);
const strip = z.strictObject({
  load: forcePairs,
  return: forcePairs.optional(),
  width: widthPairs.optional(),
});

/** Says that exactly one of two keys must be there. */
function oneOf<A extends string, B extends string>(first: A, second: B) {
  return (value: Partial<Record<A | B, unknown>>, context: z.core.$RefinementCtx) => {
    if ((value[first] === undefined) !== (value[second] === undefined)) return;
    const both = value[first] !== undefined;
    context.addIssue({
      code: 'custom',
      path: [both ? second : first],
      message: both ? `left out where ${first} is given` : `given (or ${second} instead)`,
    });
  };
}

const weighed = z
  .strictObject({
    lengthMm: positive(5000),
    widthMm: positive(5000),
    /** One strip per direction or several, each weighed apart. */
    massG: perDirection(oneOrMore(100_000)).optional(),
    /** One strip of each direction on the pan together. */
    massTogetherG: oneOrMore(100_000).optional(),
  })
  .superRefine(oneOf('massG', 'massTogetherG'));

const stretch = z
  .strictObject({
    test: z.enum(['strip', 'loop']).optional(),
    cycle: z.int().min(1).max(1000).optional(),
    gaugeMm: positive(5000),
    widthMm: positive(5000),
    circumferenceMm: positive(10_000).optional(),
    units: z
      .strictObject({
        extension: z.enum(EXTENSION_UNITS).optional(),
        force: z.enum(FORCE_UNITS).optional(),
        width: z.enum(WIDTH_UNITS).optional(),
      })
      .optional(),
    warp: strip,
    weft: strip,
    bias: strip,
    heldWidth: z.strictObject({ direction: z.enum(['warp', 'weft']), load: forcePairs }).optional(),
  })
  .superRefine(({ test, units, circumferenceMm }, context) => {
    if (test !== 'loop' || units?.extension !== 'mm' || circumferenceMm !== undefined) return;
    context.addIssue({
      code: 'custom',
      path: ['circumferenceMm'],
      message: 'given: the travel of a loop in mm says nothing without its circumference',
    });
  });

const bending = z
  .strictObject({
    angleDeg: z.number().min(5).max(85).optional(),
    overhangMm: perDirection(oneOrMore(5000)).optional(),
    heartLoop: z
      .strictObject({ stripLengthMm: positive(5000), loopHeightMm: perDirection(oneOrMore(5000)) })
      .optional(),
  })
  .superRefine(oneOf('overhangMm', 'heartLoop'))
  .superRefine(({ angleDeg, overhangMm, heartLoop }, context) => {
    if (overhangMm !== undefined && angleDeg === undefined) {
      context.addIssue({ code: 'custom', path: ['angleDeg'], message: 'given: the slope of the tester' });
    }
    if (heartLoop !== undefined && angleDeg !== undefined) {
      context.addIssue({ code: 'custom', path: ['angleDeg'], message: 'left out where heartLoop is given' });
    }
  });

/** The shape of a bench sheet, version 1; unknown keys are refused. */
export const benchSheet = z.strictObject({
  snugfieldBench: z.literal(BENCH_VERSION),
  name: z.string().min(1),
  lot: z.string(),
  date: z.iso.date('a date such as "2025-03-14"'),
  invented: z.boolean(),
  note: z.string().optional(),
  greatestStretch: z.enum(['warp', 'weft', 'bias']).optional(),
  strip: weighed,
  thickness: z.strictObject({
    mm: oneOrMore(50),
    pressureKPa: positive(1000),
    standard: z.enum(['ISO 5084', 'ASTM D1777']).optional(),
  }),
  stretch,
  bending,
});

/** A bench sheet as JSON holds it. */
export type BenchSheet = z.input<typeof benchSheet>;

/** A bench sheet as text: keys one a line, each pair of readings on a line of its own. Ends with a line break. */
export function benchSheetText(sheet: BenchSheet): string {
  const text = JSON.stringify(sheet, null, 2);
  return `${text.replace(/\[\s+(-?[\d.eE+-]+(?:,\s+-?[\d.eE+-]+)*)\s+\]/g, (_, inner: string) => `[${inner.replace(/\s+/g, ' ')}]`)}\n`;
}
