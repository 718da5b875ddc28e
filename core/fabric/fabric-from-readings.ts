import type { Finding } from '../fault/finding.ts';
import { percentFromRatio } from '../units/units.ts';
import { weighStrips } from './areal-density.ts';
import { bandLaws } from './band-laws.ts';
import type { BenchReadings } from './bench-readings.ts';
import { bendStrips } from './bending.ts';
import { checkBiasWidth } from './bias-width.ts';
import { compareDirections } from './compare-directions.ts';
import { couplingBand } from './coupling-band.ts';
import type { BandEvidence, CouplingBand } from './coupling-band.ts';
import type { Branch, Direction, Fabric, LawPair } from './fabric.ts';
import { fitTensionLaw } from './fit-tension-law.ts';
import type { FittedLaw, NoLaw } from './fit-tension-law.ts';
import { gatherEvidence, heldEvidence } from './gather-evidence.ts';
import { checkGrips } from './grip-slip.ts';
import { mean } from './mean-of-repeats.ts';
import { nextReading } from './next-reading.ts';
import { repeatScatter } from './repeat-scatter.ts';
import { checkReturns, missingReturns } from './return-branch.ts';
import { forceCurve } from './strip-curves.ts';
import type { ForceCurve } from './strip-curves.ts';
import { heldMeans, stripMeans } from './strip-means.ts';
import type { MeanForce, StripMeans } from './strip-means.ts';
import { checkFootPressure } from './thickness-pressure.ts';
import { unusualForces } from './unit-slips.ts';
import { widthCurve } from './width-curve.ts';
import type { WidthCurve } from './width-curve.ts';

type PerDirection<T> = Readonly<Record<Direction, T>>;

/**
 * A fabric from its bench readings: areal density, bending rigidity, and the tension law on load and, where a return
 * was read in all three directions, on return; each with the laws at both ends of the coupling's band.
 *
 * @throws {Fault} any of the `bench/` faults: readings that no fabric could have given.
 */
export function fabricFromReadings(readings: BenchReadings): Fabric {
  const weighed = weighStrips(readings);
  const bendingRigidity = bendStrips(readings, weighed.arealDensity);
  const strips = stripMeans(readings.stretched);
  const curves = loadCurves(readings, strips);
  const fits = fitBranches(readings, strips, curves);
  const laws = { load: fits.load.law, return: fits.back?.law ?? null };
  const bands = banded(fits, curves);
  return {
    name: readings.name,
    lot: readings.lot,
    date: readings.date,
    invented: readings.invented,
    arealDensity: weighed.arealDensity,
    thickness: mean(readings.thickness.values),
    thicknessPressure: readings.thickness.pressure,
    bendingRigidity,
    laws,
    coupling: fits.load.coupling,
    ...bands,
    strips: gatherEvidence({
      stretched: readings.stretched,
      means: strips,
      laws,
      measured: { warp: curves.widths.warp.measured, weft: curves.widths.weft.measured },
    }),
    heldWidth: heldEvidence(readings.stretched, laws.load),
    greatestStretch: readings.greatestStretch,
    findings: [
      ...weighed.findings,
      ...checkFootPressure(readings.thickness),
      ...curves.findings,
      ...fits.findings,
      ...bands.findings,
    ],
  };
}

/** The load branch's curves and all that is in doubt before a law is fitted. */
interface LoadCurves {
  readonly forces: PerDirection<ForceCurve>;
  readonly widths: PerDirection<WidthCurve>;
  readonly findings: readonly Finding[];
}

function loadCurves(readings: BenchReadings, strips: PerDirection<StripMeans>): LoadCurves {
  const { stretched } = readings;
  const slips = eachDirection((direction) =>
    checkGrips({ direction, branch: 'load', specimens: stretched.strips[direction].load }),
  );
  const forces = eachDirection((direction) =>
    forceCurve({ direction, branch: 'load', readings: strips[direction].load, width: stretched.width }),
  );
  const widths = eachDirection((direction) =>
    widthCurve({
      direction,
      readings: strips[direction].width,
      width: stretched.width,
      measuredTo: forces[direction].measuredTo,
    }),
  );
  const firstCycle: Finding[] =
    stretched.cycle === 1 ? [{ code: 'bench/first-cycle', facts: { cycle: stretched.cycle } }] : [];
  return {
    forces,
    widths,
    findings: [
      ...firstCycle,
      ...unusualForces(strips, stretched.width),
      ...compareDirections(strips, readings.greatestStretch),
      ...repeatScatter(readings, strips),
      ...DIRECTIONS.flatMap((direction) => slips[direction]),
      ...DIRECTIONS.flatMap((direction) => forces[direction].findings),
      ...widths.warp.findings,
      ...widths.weft.findings,
    ],
  };
}

const DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];

function eachDirection<T>(make: (direction: Direction) => T): PerDirection<T> {
  return { warp: make('warp'), weft: make('weft'), bias: make('bias') };
}

interface Fits {
  readonly load: FittedLaw;
  readonly back: FittedLaw | null;
  /** c that the bias strip's width asks for where it differs, N/m. */
  readonly biasCoupling: number | null;
  readonly findings: readonly Finding[];
}

function fitBranches(
  readings: BenchReadings,
  strips: PerDirection<StripMeans>,
  { forces, widths, findings }: LoadCurves,
): Fits {
  const { stretched } = readings;
  const fit = (branch: Branch, curves: PerDirection<ForceCurve>, couplingFactor: number): FittedLaw | NoLaw =>
    fitTensionLaw({
      branch,
      // Widths are read on load; on return they count from the length to which the strip has set.
      warp: { ...curves.warp, narrowing: widths.warp.narrowing },
      weft: { ...curves.weft, narrowing: widths.weft.narrowing },
      bias: curves.bias,
      firstRead: Math.max(firstExtension(strips.warp.load), firstExtension(strips.weft.load)),
      biasReadings: (branch === 'load' ? strips.bias.load : strips.bias.return) ?? [],
      width: stretched.width,
      suspect: findings.find((finding) => finding.code === 'bench/force-jumps')?.facts ?? null,
      held: branch === 'load' ? heldMeans(stretched.heldWidth) : null,
      couplingFactor,
    });
  const load = fit('load', forces, 1);
  if (load.law === null) throw new Error('a load branch is fitted or refused');
  const bias = checkBiasWidth({
    readings: strips.bias.width ?? [],
    stripWidth: stretched.width,
    ...forces,
    widths,
    coupling: load.law.coupling,
  });
  const returns = checkReturns(strips);
  const missing = missingReturns(strips);
  const backCurves = returnCurves(strips, stretched.width);
  const heldFactor = load.coupling.from === 'held width' ? load.coupling.factor : 1;
  const back = backCurves === null ? null : fit('return', backCurves, heldFactor);
  const incomplete: Finding[] =
    missing === null ? [] : [{ code: 'bench/return-incomplete', facts: { missing } }];
  return {
    load,
    back: back?.law == null ? null : back,
    biasCoupling: bias.coupling,
    findings: [
      ...load.findings,
      ...bias.findings,
      ...returns,
      ...incomplete,
      ...(backCurves === null ? [] : growths(backCurves)),
      ...(back?.findings ?? []),
    ],
  };
}

const firstExtension = (load: readonly MeanForce[]): number =>
  load.find(({ extension }) => extension > 0)?.extension ?? 0;

/** The curves of the way back where all three strips were let back. */
function returnCurves(strips: PerDirection<StripMeans>, width: number): PerDirection<ForceCurve> | null {
  if (DIRECTIONS.some((direction) => strips[direction].return === null)) return null;
  return eachDirection((direction) =>
    forceCurve({ direction, branch: 'return', readings: strips[direction].return!, width }),
  );
}

function growths(curves: PerDirection<ForceCurve>): Finding[] {
  return DIRECTIONS.flatMap((direction): Finding[] => {
    const { set, findings } = curves[direction];
    if (set <= 0) return [...findings];
    const percent = percentFromRatio(Math.expm1(set));
    return [...findings, { code: 'bench/growth', facts: { direction, percent } }];
  });
}

/** The coupling's band, the laws at its ends, and the reading that would narrow it most. */
function banded(
  { load, back, biasCoupling }: Fits,
  { forces, widths }: LoadCurves,
): Pick<Fabric, 'band' | 'bandLaws' | 'nextReading' | 'findings'> {
  const measured = { warp: widths.warp.measured, weft: widths.weft.measured };
  const evidence: BandEvidence = {
    from: bandFrom(load, measured),
    disagreement: load.coupling.disagreement,
    lateStart: load.lateStart,
  };
  const wanted = couplingBand(load.law.coupling, evidence, biasCoupling);
  const ends = bandLaws({ branch: 'load', source: load.source, shown: load.law, band: wanted });
  const backEnds =
    back === null ? null : bandLaws({ branch: 'return', source: back.source, shown: back.law, band: wanted });
  const band: CouplingBand = {
    ...wanted,
    low: ends.laws.low.coupling,
    high: ends.laws.high.coupling,
  };
  const bandedLaws: { load: LawPair; return: LawPair | null } = {
    load: ends.laws,
    return: backEnds?.laws ?? null,
  };
  return {
    band,
    bandLaws: bandedLaws,
    nextReading: nextReading({
      warp: { ...forces.warp, narrowing: widths.warp.narrowing },
      weft: { ...forces.weft, narrowing: widths.weft.narrowing },
      band,
      evidence,
      measured,
    }),
    findings: [...ends.findings, ...(backEnds?.findings ?? [])],
  };
}

/** What the band rests on. A held strip tells c times its own narrowing: without that width it tells little. */
function bandFrom(
  { coupling }: FittedLaw,
  measured: { readonly warp: boolean; readonly weft: boolean },
): CouplingBand['from'] {
  const held = coupling.heldDirection ?? null;
  if (held !== null && measured[held]) return 'held width';
  return measured.warp && measured.weft ? 'reciprocity' : 'assumed width';
}
