import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { percentFromRatio } from '../units/units.ts';
import { weighStrips } from './areal-density.ts';
import type { BenchReadings, ForceReading } from './bench-readings.ts';
import { bendStrips } from './bending.ts';
import { checkBiasWidth } from './bias-width.ts';
import type { Branch, Direction, Fabric } from './fabric.ts';
import { fitTensionLaw } from './fit-tension-law.ts';
import type { FittedLaw } from './fit-tension-law.ts';
import { forceAt } from './hysteresis.ts';
import { forceCurve } from './strip-curves.ts';
import type { ForceCurve } from './strip-curves.ts';
import { heldMeans, stripMeans } from './strip-means.ts';
import type { StripMeans } from './strip-means.ts';
import { mean } from './mean-of-repeats.ts';
import { widthCurve } from './width-curve.ts';
import type { WidthCurve } from './width-curve.ts';

const DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];
/** A return force may stand this share above the load force: two pulls of one cloth differ by as much. */
const RETURN_ABOVE = 0.05;
/** Force per 50 mm at 40 % that stretch fabrics mostly give, N (common practice). */
const USUAL_FORCE = [0.5, 15] as const;

type PerDirection<T> = Readonly<Record<Direction, T>>;

/**
 * A fabric from its bench readings: areal density, bending rigidity, and the tension law on load and, where a return
 * was read in all three directions, on return.
 *
 * @throws {Fault} any of the `bench/` faults: readings that no fabric could have given.
 */
export function fabricFromReadings(readings: BenchReadings): Fabric {
  const weighed = weighStrips(readings);
  const strips = stripMeans(readings.stretched);
  const load = perDirection((direction) => curveOf(readings, direction, 'load', strips[direction].load));
  const widths = perDirection((direction) =>
    widthCurve({
      direction,
      readings: strips[direction].width,
      width: readings.stretched.width,
      measuredTo: load[direction].measuredTo,
    }),
  );
  const loaded = fitBranch(readings, 'load', { strips, curves: load, widths, couplingFactor: 1 });
  const back = fitReturn(readings, strips, widths, loaded);
  const widthFindings = [...widths.warp.findings, ...widths.weft.findings];
  return {
    name: readings.name,
    lot: readings.lot,
    date: readings.date,
    invented: readings.invented,
    arealDensity: weighed.arealDensity,
    thickness: mean(readings.thickness.values),
    thicknessPressure: readings.thickness.pressure,
    bendingRigidity: bendStrips(readings, weighed.arealDensity),
    laws: { load: loaded.law, return: back.fitted?.law ?? null },
    coupling: loaded.coupling,
    findings: [
      ...weighed.findings,
      ...unusualForces(readings, strips),
      ...DIRECTIONS.flatMap((direction) => load[direction].findings),
      ...widthFindings,
      ...loaded.findings,
      ...checkBiasWidth({
        readings: strips.bias.width ?? [],
        stripWidth: readings.stretched.width,
        warp: load.warp,
        weft: load.weft,
        bias: load.bias,
        widths,
        coupling: loaded.law.coupling,
      }),
      ...back.findings,
    ],
  };
}

function perDirection<T>(make: (direction: Direction) => T): PerDirection<T> {
  return { warp: make('warp'), weft: make('weft'), bias: make('bias') };
}

function curveOf(
  readings: BenchReadings,
  direction: Direction,
  branch: Branch,
  forces: readonly ForceReading[],
): ForceCurve {
  return forceCurve({ direction, branch, readings: forces, width: readings.stretched.width });
}

interface BranchCurves {
  readonly strips: PerDirection<StripMeans>;
  readonly curves: PerDirection<ForceCurve>;
  readonly widths: PerDirection<WidthCurve>;
  readonly couplingFactor: number;
}

/** Widths are read on load; on return they count from the length to which the strip has set. */
function fitBranch(readings: BenchReadings, branch: Branch, input: BranchCurves): FittedLaw {
  const { strips, curves, widths, couplingFactor } = input;
  const { width, heldWidth } = readings.stretched;
  return fitTensionLaw({
    branch,
    warp: { ...curves.warp, narrowing: widths.warp.narrowing },
    weft: { ...curves.weft, narrowing: widths.weft.narrowing },
    bias: curves.bias,
    biasReadings: (branch === 'load' ? strips.bias.load : strips.bias.return) ?? [],
    width,
    held: branch === 'load' ? heldMeans(heldWidth) : null,
    couplingFactor,
  });
}

/** The law on the way back, where all three strips were let back; else a finding that names what is missing. */
function fitReturn(
  readings: BenchReadings,
  strips: PerDirection<StripMeans>,
  widths: PerDirection<WidthCurve>,
  loaded: FittedLaw,
): { fitted: FittedLaw | null; findings: Finding[] } {
  const missing = DIRECTIONS.filter((direction) => strips[direction].return === null);
  if (missing.length === DIRECTIONS.length) return { fitted: null, findings: [] };
  if (missing.length > 0) {
    return {
      fitted: null,
      findings: [{ code: 'bench/return-incomplete', facts: { missing: missing.join(' and ') } }],
    };
  }
  for (const direction of DIRECTIONS)
    checkReturn(direction, strips[direction].load, strips[direction].return!);
  const curves = perDirection((direction) =>
    curveOf(readings, direction, 'return', strips[direction].return!),
  );
  const fitted = fitBranch(readings, 'return', {
    strips,
    curves,
    widths,
    couplingFactor: loaded.coupling.from === 'held width' ? loaded.coupling.factor : 1,
  });
  const growth = DIRECTIONS.flatMap((direction): Finding[] =>
    curves[direction].set > 0
      ? [
          {
            code: 'bench/growth',
            facts: { direction, percent: percentFromRatio(Math.expm1(curves[direction].set)) },
          },
        ]
      : [],
  );
  return {
    fitted,
    findings: [
      ...DIRECTIONS.flatMap((direction) => curves[direction].findings),
      ...growth,
      ...fitted.findings,
    ],
  };
}

/** A strip gives back no more than it took, and not from beyond where it was pulled. */
function checkReturn(
  direction: Direction,
  load: readonly ForceReading[],
  back: readonly ForceReading[],
): void {
  const last = load.at(-1)?.extension ?? 0;
  for (const { extension, force } of back) {
    if (extension > last + 1e-9) {
      throw new Fault('bench/return-beyond-load', {
        direction,
        extensionPercent: percentFromRatio(extension),
        loadPercent: percentFromRatio(last),
      });
    }
    const taken = forceAt(load, extension);
    if (extension > 0 && force > (1 + RETURN_ABOVE) * taken) {
      throw new Fault('bench/return-above-load', {
        direction,
        extensionPercent: percentFromRatio(extension),
        returnN: force,
        loadN: taken,
      });
    }
  }
}

/** Forces far from what stretch fabrics give: mostly a wrong unit. */
function unusualForces(readings: BenchReadings, strips: PerDirection<StripMeans>): Finding[] {
  const { width } = readings.stretched;
  return (['warp', 'weft'] as const).flatMap((direction): Finding[] => {
    const at = Math.min(0.4, strips[direction].load.at(-1)?.extension ?? 0);
    const forceN = (forceAt(strips[direction].load, at) * 0.05) / width;
    if (forceN >= USUAL_FORCE[0] * (at / 0.4) && forceN <= USUAL_FORCE[1]) return [];
    return [{ code: 'bench/force-unusual', facts: { direction, forceN, atPercent: percentFromRatio(at) } }];
  });
}
