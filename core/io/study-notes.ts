import { z } from 'zod';
import { BODY_REGIONS } from '../body/body-regions.ts';
import { LANDMARK_NAMES } from '../body/landmarks.ts';

/** As far as any point of a body may lie from its origin, mm. */
const placeMm = z.tuple([
  z.number().min(-10_000).max(10_000),
  z.number().min(-10_000).max(10_000),
  z.number().min(-10_000).max(10_000),
]);

const line = z.strictObject({
  name: z.string().min(1).max(60),
  kind: z.enum(['trunk', 'limb']),
  side: z.enum(['left', 'middle', 'right']),
  centerMm: placeMm,
  normal: z
    .tuple([z.number(), z.number(), z.number()])
    .refine((normal) => Math.abs(Math.hypot(...normal) - 1) < 1e-3, 'a direction of length 1'),
  surface: z.enum(['taut', 'along']),
});

/** How tapes are laid by hand, as a study file keeps it. */
export const tapeNotes = z.strictObject({
  placedMm: z.partialRecord(z.enum(LANDMARK_NAMES), placeMm).optional(),
  lines: z.array(line).max(100).optional(),
});

const depthMm = z.number().positive().max(500);
const modulusKPa = z.number().positive().max(1e5);

/** What was corrected of the tissue by hand, as a study file keeps it. */
export const tissueNotes = z.strictObject({
  moduli: z.enum(['even', 'byRegion']).optional(),
  regions: z
    .array(
      z.strictObject({
        region: z.enum(BODY_REGIONS),
        depthMm: depthMm.optional(),
        modulusKPa: modulusKPa.optional(),
      }),
    )
    .max(BODY_REGIONS.length)
    .optional(),
  strokes: z
    .array(
      z.strictObject({
        centerMm: placeMm,
        radiusMm: z.number().positive().max(500),
        depthMm: depthMm.optional(),
        modulusKPa: modulusKPa.optional(),
        falloff: z.number().min(0).max(1),
      }),
    )
    .max(2000)
    .optional(),
});
