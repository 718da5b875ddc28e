import type {
  BenchReadings,
  BendingReadings,
  ForceReading,
  StripReadings,
} from '../fabric/bench-readings.ts';
import { fabricFromReadings } from '../fabric/fabric-from-readings.ts';
import type { Direction, Fabric } from '../fabric/fabric.ts';
import { Fault } from '../fault/fault.ts';
import { kilogramsFromGrams, metresFromMm, pascalsFromKPa, radiansFromDegrees } from '../units/units.ts';
import { extensionFrom, newtonsFrom, widthFrom } from './bench-sheet-units.ts';
import type { TestPiece } from './bench-sheet-units.ts';
import { BENCH_VERSION, benchSheet, isRepeated } from './bench-sheet.ts';
import type { BenchSheet, Pair, Pairs } from './bench-sheet.ts';
import { checkShape, readJson } from './read-json.ts';

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
  return readingsOf(checkBenchSheet(readJson(text)));
}

/**
 * A JSON value as a bench sheet.
 *
 * @throws {Fault} `file/unknown-version`, `file/wrong-shape`.
 */
export function checkBenchSheet(value: unknown): BenchSheet {
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
  return checkShape(benchSheet, value);
}

/** The readings of a checked sheet in SI. */
export function readingsOf(sheet: BenchSheet): BenchReadings {
  const { strip: weighed, thickness, stretch } = sheet;
  return {
    name: sheet.name,
    lot: sheet.lot,
    date: sheet.date,
    invented: sheet.invented,
    note: sheet.note ?? null,
    greatestStretch: sheet.greatestStretch ?? null,
    weighed: {
      length: metresFromMm(weighed.lengthMm),
      width: metresFromMm(weighed.widthMm),
      masses: massesOf(weighed),
    },
    thickness: {
      values: [thickness.mm].flat().map(metresFromMm),
      pressure: pascalsFromKPa(thickness.pressureKPa),
      standard: thickness.standard ?? null,
    },
    stretched: stretchedOf(stretch),
    bending: bendingOf(sheet.bending),
  };
}

function massesOf(weighed: BenchSheet['strip']): BenchReadings['weighed']['masses'] {
  const { massG, massTogetherG } = weighed;
  if (massG !== undefined)
    return { apart: eachDirection((direction) => [massG[direction]].flat().map(kilogramsFromGrams)) };
  return { together: [massTogetherG ?? []].flat().map(kilogramsFromGrams) };
}

function stretchedOf(stretch: BenchSheet['stretch']): BenchReadings['stretched'] {
  const piece: TestPiece = {
    test: stretch.test ?? 'strip',
    gauge: metresFromMm(stretch.gaugeMm),
    width: metresFromMm(stretch.widthMm),
    circumference: stretch.circumferenceMm === undefined ? null : metresFromMm(stretch.circumferenceMm),
  };
  const units = stretch.units ?? {};
  const extensionOf = (value: number): number => extensionFrom(value, units.extension ?? '%', piece);
  const forces = (pairs: Pairs): ForceReading[][] =>
    specimens(pairs, ([at, force]) => ({
      extension: extensionOf(at),
      force: newtonsFrom(force, units.force ?? 'N', piece),
    }));
  const strip = ({ load, return: back, width }: BenchSheet['stretch']['warp']): StripReadings => ({
    load: forces(load),
    return: back === undefined ? null : forces(back),
    width:
      width === undefined
        ? null
        : specimens(width, ([at, read]) => ({
            extension: extensionOf(at),
            width: widthFrom(read, units.width ?? 'mm', piece),
          })),
  });
  const { heldWidth } = stretch;
  return {
    ...piece,
    cycle: stretch.cycle ?? null,
    strips: eachDirection((direction) => strip(stretch[direction])),
    heldWidth:
      heldWidth === undefined ? null : { direction: heldWidth.direction, load: forces(heldWidth.load) },
  };
}

function bendingOf({ angleDeg, overhangMm, heartLoop }: BenchSheet['bending']): BendingReadings {
  if (heartLoop !== undefined) {
    return {
      kind: 'heartLoop',
      stripLength: metresFromMm(heartLoop.stripLengthMm),
      height: eachDirection((direction) => [heartLoop.loopHeightMm[direction]].flat().map(metresFromMm)),
    };
  }
  return {
    kind: 'cantilever',
    angle: radiansFromDegrees(angleDeg ?? 0),
    overhang: eachDirection((direction) => [overhangMm?.[direction] ?? []].flat().map(metresFromMm)),
  };
}

function eachDirection<T>(make: (direction: Direction) => T): Record<Direction, T> {
  return { warp: make('warp'), weft: make('weft'), bias: make('bias') };
}

/** One list per specimen, rising in extension. */
function specimens<T extends { readonly extension: number }>(pairs: Pairs, read: (pair: Pair) => T): T[][] {
  return (isRepeated(pairs) ? pairs : [pairs]).map((list) =>
    list.map(read).sort((a, b) => a.extension - b.extension),
  );
}
