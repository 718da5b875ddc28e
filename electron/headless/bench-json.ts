import type { CouplingBand, NextReading, RelativeBand } from '../../core/fabric/coupling-band.ts';
import type { BenchReadings } from '../../core/fabric/bench-readings.ts';
import { bendingLengths } from '../../core/fabric/bending.ts';
import type { Direction, Fabric } from '../../core/fabric/fabric.ts';
import type { CurveEvidence, StripEvidence } from '../../core/fabric/strip-evidence.ts';
import { overallRigidityOf } from '../../core/sheet/derived-bending.ts';
import type { FabricCard } from '../../core/sheet/fabric-card.ts';
import {
  gramsFromKilograms,
  kPaFromPascals,
  mmFromMetres,
  percentFromRatio,
} from '../../core/units/units.ts';
import { derivedText, inputText, sourceText } from '../../core/words/card-words.ts';
import { findingsAsJson } from './say-findings.ts';

const directions: readonly Direction[] = ['warp', 'weft', 'bias'];

type Strips = Readonly<Record<Direction, StripEvidence>>;

/** A strip's force per original width at one extension; null where that branch was not read. */
interface TensionRow {
  readonly direction: Direction;
  readonly extensionPercent: number;
  readonly loadNPerM: number;
  readonly returnNPerM: number | null;
  /** True beyond the last reading of this direction. */
  readonly extrapolated: boolean;
}

/** What `bench --json` prints; every number carries its unit in its name. */
export function benchAsJson(fabric: Fabric, readings: BenchReadings, card: FabricCard) {
  const { load } = fabric.laws;
  const strips = evidenceOf(fabric);
  return {
    name: fabric.name,
    lot: fabric.lot,
    date: fabric.date,
    invented: fabric.invented,
    note: card.note,
    arealDensityGPerM2: gramsFromKilograms(fabric.arealDensity),
    thicknessMm: mmFromMetres(fabric.thickness),
    thicknessPressureKPa: kPaFromPascals(fabric.thicknessPressure),
    bulkDensityKgPerM3: fabric.arealDensity / fabric.thickness,
    bending: bendingAsJson(fabric, readings),
    overallRigidityMicroNm: overallRigidityOf(fabric) * 1e6,
    bendingRigidityMicroNm: perDirection((direction) => fabric.bendingRigidity[direction] * 1e6),
    measuredToPercent: {
      warp: percentFromRatio(load.measuredTo.warp - 1),
      weft: percentFromRatio(load.measuredTo.weft - 1),
    },
    law: {
      coupling: fabric.band === undefined ? null : couplingAsJson(fabric.band),
      residuals: perDirection((direction) => residualsAsJson(strips[direction])),
      nextReading: nextAsJson(fabric.nextReading ?? null),
    },
    tensionAtPercent: perDirection((direction) =>
      Object.fromEntries(
        strips[direction].modulus.map(({ extension, load }) => [percentKey(extension), load]),
      ),
    ),
    /** Which of the above lie beyond the last reading, %. */
    extrapolatedAtPercent: perDirection((direction) =>
      strips[direction].modulus
        .filter(({ beyondReadings }) => beyondReadings)
        .map(({ extension }) => Number(percentKey(extension))),
    ),
    tension: directions.flatMap((direction) => tensionRows(direction, strips[direction])),
    powerLoss: perDirection((direction) => lossAsJson(strips[direction])),
    greatestStretch: card.greatest,
    derived: card.numbers.map((number) => ({
      id: number.id,
      what: derivedText(number),
      value: number.value,
      extrapolated: number.beyondReadings,
      formula: number.formula,
      from: number.inputs.map((input) => ({
        symbol: input.symbol,
        what: inputText(input),
        value: input.value,
        readings: input.count,
        standardDeviation: input.deviation,
      })),
      after: number.sources.map(sourceText),
    })),
    findings: findingsAsJson(fabric.findings),
  };
}

/** What was read of the strips; a fabric from bench readings always has it. */
export function evidenceOf({ strips }: Fabric): Strips {
  if (strips === undefined) throw new Error('A fabric from bench readings carries its readings.');
  return strips;
}

const percentKey = (extension: number): string => String(Math.round(percentFromRatio(extension)));

function perDirection<T>(make: (direction: Direction) => T): Record<Direction, T> {
  return { warp: make('warp'), weft: make('weft'), bias: make('bias') };
}

function bendingAsJson(fabric: Fabric, readings: BenchReadings) {
  const lengths = bendingLengths(readings);
  return perDirection((direction) => ({
    lengthMm: mmFromMetres(lengths[direction]),
    rigidityMicroNm: fabric.bendingRigidity[direction] * 1e6,
  }));
}

/** N/m. */
const couplingAsJson = ({ low, shown, high, from }: CouplingBand) => ({
  low,
  shown,
  high,
  unit: 'N/m',
  from,
});

const missAsJson = ({ rms, worst }: CurveEvidence) => ({
  rmsPercent: percentFromRatio(rms),
  worstPercent: percentFromRatio(worst.miss),
  worstAtPercent: percentFromRatio(worst.extension),
});

/** Of the largest tension read, and of the width at the start. */
const residualsAsJson = ({ load, return: back, width }: StripEvidence) => ({
  load: missAsJson(load),
  return: back === null ? null : missAsJson(back),
  widthRmsPercent: width.rms === null ? null : percentFromRatio(width.rms),
  widthAssumed: width.assumed,
});

const bandAsJson = ({ low, high }: RelativeBand) => ({
  lowPercent: percentFromRatio(low),
  highPercent: percentFromRatio(high),
});

const nextAsJson = (next: NextReading | null) =>
  next === null
    ? null
    : {
        reading: next.reading,
        atPercent: percentFromRatio(next.extension),
        now: bandAsJson(next.now),
        after: bandAsJson(next.after),
      };

const lossAsJson = ({ loss }: StripEvidence) =>
  loss === null
    ? null
    : {
        peakPercent: percentFromRatio(loss.peak),
        byEnergyPercent: percentFromRatio(loss.byEnergy),
        byForcePercent: loss.byForce.map(({ extension, loss: share }) => ({
          atPercent: percentFromRatio(extension),
          lossPercent: percentFromRatio(share),
        })),
      };

const tensionRows = (direction: Direction, { modulus }: StripEvidence): TensionRow[] =>
  modulus.map(({ extension, load, return: back, beyondReadings }) => ({
    direction,
    extensionPercent: Number(percentKey(extension)),
    loadNPerM: load,
    returnNPerM: back,
    extrapolated: beyondReadings,
  }));
