import { z } from 'zod';
import { Fault } from '../fault/fault.ts';
import { checkShape, readJson } from './read-json.ts';

const positive = z.number().positive().max(1e6);

const inputs = z.object({
  kind: z.enum(['pressure', 'band']),
  R: positive,
  H: positive,
  E: positive,
  nu: z.number().min(0.4).max(0.499),
  b: positive,
  p: positive.optional(),
  k: positive.optional(),
  r0: positive.optional(),
  edge: z.enum(['sharp', 'soft']).default('sharp'),
  soft: positive.optional(),
});

const outcome = z.object({
  centre: z.number(),
  maxindent: z.number().positive(),
  bulge: z.number(),
  bulge_dist: z.number().optional(),
  p_mean_kPa: z.number().positive().optional(),
  r_centre: z.number().positive().optional(),
});

const fleshCase = z.object({
  id: z.string().min(1),
  inputs,
  linear: outcome.optional(),
  nlgeom: outcome.optional(),
});

const casesFile = z.object({ cases: z.array(fleshCase).min(1).max(1000) });

/**
 * A soft ring bonded to a rigid core, pressed by a band about its middle, and what another program found; mm, kPa, N/m.
 *
 * `kind` pressure: p follows the skin; band: p = k (r / r0 - 1) / r. R outer radius, H thickness, b width of the band; a
 * soft edge falls by a cosine over `soft`. Indents inward positive, bulge outward positive, bulge_dist from the band's edge.
 */
export type FleshCase = z.infer<typeof fleshCase>;
export type FleshOutcome = z.infer<typeof outcome>;

/**
 * Reads cases of pressed flesh, as in README.md: `{ "cases": [ { id, inputs, linear?, nlgeom? } ] }`. Members not known
 * here are passed over: such files carry profiles and meshes too.
 *
 * @throws {Fault} `file/not-json`; `file/wrong-shape` with the case's id beside the path.
 */
export function readFleshCases(text: string): FleshCase[] {
  const value = readJson(text);
  let file: z.infer<typeof casesFile>;
  try {
    file = checkShape(casesFile, value);
  } catch (error) {
    if (error instanceof Fault && isShapeFault(error)) throw named(error, value);
    throw error;
  }
  file.cases.forEach(requireWhole);
  return file.cases;
}

/** What a schema of single members cannot say. */
function requireWhole({ id, inputs, linear, nlgeom }: FleshCase, index: number): void {
  const { kind, R, H, p, k, r0, edge, soft } = inputs;
  const isBand = kind === 'band';
  const problems: readonly [boolean, string, string, unknown][] = [
    [H >= R, 'inputs.H', `less than R, ${R}`, H],
    [!isBand && p === undefined, 'inputs.p', 'a pressure in kPa', p],
    [isBand && k === undefined, 'inputs.k', 'the stiffness of the band in N/m', k],
    [isBand && r0 === undefined, 'inputs.r0', 'the relaxed radius of the band in mm', r0],
    [isBand && r0! >= R, 'inputs.r0', `less than R, ${R}: a looser band does not press`, r0],
    [edge === 'soft' && soft === undefined, 'inputs.soft', 'the length of the soft edge in mm', soft],
    [!linear && !nlgeom, 'nlgeom', 'what the other program found, here or as "linear"', nlgeom],
  ];
  for (const [isWrong, member, expected, value] of problems) {
    if (!isWrong) continue;
    throw new Fault('file/wrong-shape', {
      path: `cases[${index}].${member} (case ${id})`,
      expected,
      value: JSON.stringify(value) ?? 'nothing',
    });
  }
}

const isShapeFault = (fault: Fault): fault is Fault<'file/wrong-shape'> => fault.code === 'file/wrong-shape';

/** The same fault with the ids of the cases it is about. */
function named({ facts }: Fault<'file/wrong-shape'>, value: unknown): Fault {
  const withId = (path: string): string => {
    const index = /^cases\[(\d+)\]/.exec(path)?.[1];
    const id = index === undefined ? undefined : idAt(value, Number(index));
    return id === undefined ? path : `${path} (case ${id})`;
  };
  return new Fault('file/wrong-shape', {
    ...facts,
    path: withId(facts.path),
    ...(facts.others && { others: facts.others.map((other) => ({ ...other, path: withId(other.path) })) }),
  });
}

function idAt(value: unknown, index: number): string | undefined {
  const parsed = z.object({ cases: z.array(z.unknown()) }).safeParse(value);
  const one = z.object({ id: z.string() }).safeParse(parsed.data?.cases[index]);
  return one.data?.id;
}
