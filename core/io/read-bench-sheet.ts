import { z } from 'zod';

import type { BenchReadings, ForceReading, StripReadings, WidthReading } from '../fabric/bench-readings.ts';
import { fabricFromReadings } from '../fabric/fabric-from-readings.ts';
import type { Direction, Fabric } from '../fabric/fabric.ts';
import { Fault } from '../fault/fault.ts';
import {
  kilogramsFromGrams,
  metresFromMm,
  pascalsFromKPa,
  radiansFromDegrees,
  ratioFromPercent,
} from '../units/units.ts';
import { checkShape, readJson } from './read-json.ts';

/** The version of the bench sheet that this program reads. */
export const BENCH_VERSION = 1;

const positive = (most: number) => z.number().positive().max(most);
const extensionPercent = z.number().min(0).max(900);
const forceReading = z.tuple([extensionPercent, z.number().min(0).max(10_000)]);
const widthReading = z.tuple([extensionPercent, positive(10_000)]);
const perDirection = <S extends z.ZodType>(schema: S) =>
  z.strictObject({ warp: schema, weft: schema, bias: schema });
const strip = z.strictObject({
  load: z.array(forceReading).min(1),
  return: z.array(forceReading).min(1).optional(),
  width: z.array(widthReading).optional(),
});
const massG = z.union([positive(100_000), z.array(positive(100_000)).min(1)]);

const benchSheet = z.strictObject({
  snugfieldBench: z.literal(BENCH_VERSION),
  name: z.string().min(1),
  lot: z.string(),
  date: z.iso.date('a date such as "2025-03-14"'),
  invented: z.boolean(),
  note: z.string().optional(),
  strip: z.strictObject({ lengthMm: positive(5000), widthMm: positive(5000), massG: perDirection(massG) }),
  thickness: z.strictObject({ mm: positive(50), pressureKPa: positive(1000) }),
  stretch: z.strictObject({
    gaugeMm: positive(5000),
    widthMm: positive(5000),
    warp: strip,
    weft: strip,
    bias: strip,
    heldWidth: z
      .strictObject({ direction: z.enum(['warp', 'weft']), load: z.array(forceReading).min(1) })
      .optional(),
  }),
  bending: z.strictObject({
    angleDeg: z.number().min(5).max(85),
    overhangMm: perDirection(positive(5000)),
  }),
});

type BenchSheet = z.output<typeof benchSheet>;

/**
 * Reads a bench sheet and makes the fabric of it.
 *
 * @param text - JSON, as documented in README.md; a byte order mark is passed over.
 * @throws {Fault} `file/not-json`, `file/unknown-version`, `file/wrong-shape` (unknown keys included), and the `bench/`
 * faults of {@link fabricFromReadings}.
 */
export function readBenchSheet(text: string): Fabric {
  return fabricFromReadings(parseBenchSheet(text));
}

/**
 * The readings of a bench sheet in SI, sorted by extension, before anything is made of them.
 *
 * @throws {Fault} the `file/` faults of {@link readBenchSheet}.
 */
export function parseBenchSheet(text: string): BenchReadings {
  const value = readJson(text);
  if (typeof value === 'object' && value !== null && 'snugfieldBench' in value) {
    const version: unknown = value.snugfieldBench;
    if (version !== BENCH_VERSION) {
      throw new Fault('file/unknown-version', {
        path: 'snugfieldBench',
        known: BENCH_VERSION,
        value: JSON.stringify(version),
      });
    }
  }
  return inSi(checkShape(benchSheet, value));
}

function inSi(sheet: BenchSheet): BenchReadings {
  const { strip: weighed, thickness, stretch, bending } = sheet;
  const { heldWidth } = stretch;
  return {
    name: sheet.name,
    lot: sheet.lot,
    date: sheet.date,
    invented: sheet.invented,
    weighed: {
      length: metresFromMm(weighed.lengthMm),
      width: metresFromMm(weighed.widthMm),
      masses: eachDirection((direction) => [weighed.massG[direction]].flat().map(kilogramsFromGrams)),
    },
    thickness: { value: metresFromMm(thickness.mm), pressure: pascalsFromKPa(thickness.pressureKPa) },
    stretched: {
      gauge: metresFromMm(stretch.gaugeMm),
      width: metresFromMm(stretch.widthMm),
      strips: eachDirection((direction) => stripInSi(stretch[direction])),
      heldWidth:
        heldWidth === undefined
          ? null
          : { direction: heldWidth.direction, load: heldWidth.load.map(forceInSi).sort(byExtension) },
    },
    bending: {
      angle: radiansFromDegrees(bending.angleDeg),
      overhang: eachDirection((direction) => metresFromMm(bending.overhangMm[direction])),
    },
  };
}

function eachDirection<T>(make: (direction: Direction) => T): Record<Direction, T> {
  return { warp: make('warp'), weft: make('weft'), bias: make('bias') };
}

function stripInSi(readings: BenchSheet['stretch']['warp']): StripReadings {
  return {
    load: readings.load.map(forceInSi).sort(byExtension),
    return: readings.return?.map(forceInSi).sort(byExtension) ?? null,
    width: readings.width?.map(widthInSi).sort(byExtension) ?? null,
  };
}

const forceInSi = ([percent, newtons]: readonly [number, number]): ForceReading => ({
  extension: ratioFromPercent(percent),
  force: newtons,
});

const widthInSi = ([percent, mm]: readonly [number, number]): WidthReading => ({
  extension: ratioFromPercent(percent),
  width: metresFromMm(mm),
});

const byExtension = (a: { extension: number }, b: { extension: number }): number => a.extension - b.extension;
