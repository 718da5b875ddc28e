import type { BenchReadings, ForceReading, StripReadings } from './bench-readings.ts';
import type { Direction, Fabric } from './fabric.ts';
import { forceAt, lossByEnergy, lossByForce } from './hysteresis.ts';
import { createTensionResponse, evaluateTension } from './evaluate-tension.ts';
import type {
  CurveEvidence,
  HeldWidthEvidence,
  Modulus,
  PowerLoss,
  StripEvidence,
  WidthEvidence,
} from './strip-evidence.ts';
import { heldMeans } from './strip-means.ts';
import type { MeanForce, StripMeans } from './strip-means.ts';
import type { TensionLaw } from './tension-law.ts';
import type { VirtualStrip } from './virtual-strip.ts';
import { pullStrips, STRIP_ANGLE } from './virtual-strip.ts';

/** Points of a fitted curve. */
const POINTS = 61;
/** Where the trade reads its "modulus". */
const MODULUS_AT = [0.2, 0.4, 0.6, 0.8] as const;
/** A reading counts as reached although it came back from its logarithm a hair off. */
const HAIR = 1e-9;

/** What evidence is gathered from. */
export interface EvidenceSource {
  readonly stretched: BenchReadings['stretched'];
  readonly means: Readonly<Record<Direction, StripMeans>>;
  readonly laws: Fabric['laws'];
  /** False where a usual width was assumed in place of readings. */
  readonly measured: Readonly<Record<'warp' | 'weft', boolean>>;
}

/** Readings, repeats and the fitted law's own strips side by side, for every direction. */
export function gatherEvidence(source: EvidenceSource): Readonly<Record<Direction, StripEvidence>> {
  return {
    warp: evidenceOf(source, 'warp'),
    weft: evidenceOf(source, 'weft'),
    bias: evidenceOf(source, 'bias'),
  };
}

function evidenceOf(
  { stretched, means, laws, measured }: EvidenceSource,
  direction: Direction,
): StripEvidence {
  const { width } = stretched;
  const strips = stretched.strips[direction];
  const mean = means[direction];
  const angle = STRIP_ANGLE[direction];
  const pulling =
    (law: TensionLaw): Pull<VirtualStrip> =>
    (stretches) =>
      pullStrips(law, angle, stretches);
  const pull = pulling(laws.load);
  const load = curveEvidence(pull, { mean: mean.load, specimens: strips.load, width });
  const back =
    laws.return === null || mean.return === null || strips.return === null
      ? null
      : curveEvidence(pulling(laws.return), { mean: mean.return, specimens: strips.return, width });
  const assumed = direction !== 'bias' && !measured[direction];
  return {
    load: load.evidence,
    return: back?.evidence ?? null,
    width: widthEvidence({ strips, mean, start: width, pull, grid: load.grid, assumed }),
    loss: mean.return === null ? null : powerLoss(mean.load, mean.return),
    modulus: modulus(laws, angle, mean.load.at(-1)?.extension ?? 0),
  };
}

/** The strip pulled while its width was held, beside the fitted law stretched one way only; null where there was none. */
export function heldEvidence(
  { heldWidth, width }: BenchReadings['stretched'],
  law: TensionLaw,
): HeldWidthEvidence | null {
  const means = heldMeans(heldWidth);
  if (heldWidth === null || means === null) return null;
  const { direction, load } = means;
  const pull = (stretches: readonly number[]): { readonly tension: number }[] =>
    stretches.map((stretch) => ({ tension: heldTension(law, direction, stretch) }));
  const readings = { mean: load, specimens: heldWidth.load, width };
  return { direction, load: curveEvidence(pull, readings).evidence };
}

/** Force per original width along a strip stretched by l while its width is held: F = diag(l, 1) or diag(1, l). N/m. */
function heldTension(law: TensionLaw, direction: 'warp' | 'weft', stretch: number): number {
  const response = createTensionResponse();
  const isWarp = direction === 'warp';
  evaluateTension(
    law,
    Float64Array.of(isWarp ? stretch : 1, 0, 0, 0, isWarp ? 1 : stretch, 0),
    false,
    response,
  );
  return response.stress[isWarp ? 0 : 4]!;
}

/** Pulls a strip at rising stretch ratios. */
type Pull<Strip> = (stretches: readonly number[]) => readonly Strip[];

interface CurveReadings {
  readonly mean: readonly MeanForce[];
  readonly specimens: readonly (readonly ForceReading[])[];
  /** Of the unstretched strip, m. */
  readonly width: number;
}

/** Where a fitted curve was pulled, and what came of it. */
interface PulledGrid<Strip> {
  readonly extensions: Float64Array;
  readonly strips: readonly Strip[];
}

function curveEvidence<Strip extends { readonly tension: number }>(
  pull: Pull<Strip>,
  { mean, specimens, width }: CurveReadings,
): { evidence: CurveEvidence; grid: PulledGrid<Strip> } {
  const grid = pullGrid(pull, mean.at(-1)?.extension ?? 0);
  const pulled = pull(mean.map(({ extension }) => 1 + extension));
  const readings = mean.map(({ extension, force, deviation }, i) => ({
    extension,
    tension: force / width,
    deviation: deviation === null ? null : deviation / width,
    fitted: pulled[i]!.tension,
  }));
  const most = Math.max(...readings.map(({ tension }) => tension));
  const misses = readings.map(({ extension, tension, fitted }) => ({
    extension,
    miss: (fitted - tension) / most,
  }));
  const worst = misses.reduce((far, at) => (Math.abs(at.miss) > Math.abs(far.miss) ? at : far));
  return {
    grid,
    evidence: {
      readings,
      specimens: specimens.map((list) =>
        list.map(({ extension, force }) => [extension, force / width] as const),
      ),
      fitted: {
        extensions: grid.extensions,
        tensions: Float64Array.from(grid.strips, ({ tension }) => tension),
      },
      rms: rootMeanSquare(misses.map(({ miss }) => miss)),
      worst,
    },
  };
}

const rootMeanSquare = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);

/** An even grid from no extension to the last reading. */
function pullGrid<Strip>(pull: Pull<Strip>, last: number): PulledGrid<Strip> {
  const extensions = Float64Array.from({ length: POINTS }, (_, i) => (i / (POINTS - 1)) * last);
  return { extensions, strips: pull(Array.from(extensions, (extension) => 1 + extension)) };
}

interface WidthSource {
  readonly strips: StripReadings;
  readonly mean: StripMeans;
  /** Of the unstretched strip, m. */
  readonly start: number;
  readonly pull: Pull<VirtualStrip>;
  readonly grid: PulledGrid<VirtualStrip>;
  readonly assumed: boolean;
}

function widthEvidence({ strips, mean, start, pull, grid, assumed }: WidthSource): WidthEvidence {
  const readings = mean.width ?? [];
  const whole = (list: readonly { readonly extension: number; readonly width: number }[]): number =>
    list.find(({ extension }) => extension === 0)?.width ?? start;
  const pulled = pull(readings.map(({ extension }) => 1 + extension));
  const ratios = readings.map(({ extension, width, deviation }, i) => ({
    extension,
    ratio: width / whole(readings),
    deviation: deviation === null ? null : deviation / whole(readings),
    fitted: pulled[i]!.width,
  }));
  return {
    readings: ratios,
    specimens: (strips.width ?? []).map((list) =>
      list.map(({ extension, width }) => [extension, width / whole(list)] as const),
    ),
    fitted: {
      extensions: grid.extensions,
      ratios: Float64Array.from(grid.strips, ({ width }) => width),
    },
    rms: ratios.length === 0 ? null : rootMeanSquare(ratios.map(({ ratio, fitted }) => fitted - ratio)),
    assumed,
  };
}

/** From the readings themselves, not from the fitted curve. */
function powerLoss(load: readonly MeanForce[], back: readonly MeanForce[]): PowerLoss | null {
  const peak = back.at(-1)?.extension ?? 0;
  const byEnergy = lossByEnergy(load, back);
  if (!Number.isFinite(byEnergy)) return null;
  const byForce = MODULUS_AT.filter(
    (extension) => extension < peak - HAIR && forceAt(load, extension) > 0,
  ).map((extension) => ({ extension, loss: lossByForce(load, back, extension) }));
  return { peak, byEnergy, byForce };
}

function modulus({ load, return: back }: Fabric['laws'], angle: number, last: number): Modulus[] {
  const stretches = MODULUS_AT.map((extension) => 1 + extension);
  const loaded = pullStrips(load, angle, stretches);
  const returned = back === null ? null : pullStrips(back, angle, stretches);
  return MODULUS_AT.map((extension, i) => ({
    extension,
    load: loaded[i]!.tension,
    return: returned?.[i]?.tension ?? null,
    beyondReadings: extension > last + HAIR,
  }));
}
