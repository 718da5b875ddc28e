import type { BenchReadings, StripMasses } from '../fabric/bench-readings.ts';
import type { CouplingBand, NextReading } from '../fabric/coupling-band.ts';
import type { Direction, Fabric } from '../fabric/fabric.ts';
import type { CurveEvidence, StripEvidence } from '../fabric/strip-evidence.ts';
import type { Finding } from '../fault/finding.ts';
import { degreesFromRadians, kPaFromPascals, mmFromMetres } from '../units/units.ts';
import type { DerivedLabel, DerivedNumber } from './derived-number.ts';
import { derivedNumbers } from './derived-numbers.ts';
import { extensionText, greatestDirections } from './derived-tension.ts';
import { fixed } from './number-format.ts';
import { stripCharts, type StripChartSheet } from './strip-chart.ts';

const DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];

type PerDirection<T> = Readonly<Record<Direction, T>>;

/** How the bench came by its readings: sizes as printed, and how many of each. */
export interface CardMethods {
  readonly weighed: {
    /** `200` and `50`, mm. */
    readonly lengthMm: string;
    readonly widthMm: string;
    /** Weighings per direction, or of all three strips together. */
    readonly counts: PerDirection<number> | number;
  };
  readonly thickness: {
    readonly count: number;
    readonly pressureKPa: string;
    readonly standard: BenchReadings['thickness']['standard'];
  };
  readonly stretched: {
    readonly test: 'strip' | 'loop';
    readonly cycle: number | null;
    readonly gaugeMm: string;
    readonly widthMm: string;
    readonly circumferenceMm: string | null;
    readonly specimens: PerDirection<number>;
    /** Directions that were let back, and whose width was read. */
    readonly letBack: readonly Direction[];
    readonly widthRead: readonly Direction[];
    readonly heldWidth: 'warp' | 'weft' | null;
  };
  readonly bent: {
    readonly kind: 'cantilever' | 'heartLoop';
    /** `41.5`, degrees; null for a heart loop. */
    readonly angleDeg: string | null;
    /** Of the looped strip; null for a cantilever. */
    readonly stripMm: string | null;
    readonly counts: PerDirection<number>;
  };
}

/** One line of the card's table: one kind of number in the three directions. */
export interface CardRow {
  readonly label: DerivedLabel;
  readonly at: string | null;
  readonly cells: PerDirection<DerivedNumber | null>;
}

/** How far the fitted strips miss what was read in one direction. */
export interface ResidualRow {
  readonly direction: Direction;
  readonly load: CardMiss;
  readonly return: CardMiss | null;
  /** `0.4 %` of the start width; null where no width was read. */
  readonly width: string | null;
}

/** `0.4 %` of the largest tension read (root mean square), and the worst: `1.1 %` at `30 %`. */
export interface CardMiss {
  readonly rms: string;
  readonly worst: string;
  readonly worstAt: string;
}

/** How sure the coupling of warp and weft is. */
export interface CardCoupling {
  readonly band: CouplingBand;
  readonly next: NextReading | null;
}

/** Everything that a fabric card prints, before words are put to it. */
export interface FabricCard {
  readonly name: string;
  readonly lot: string;
  readonly date: string;
  readonly invented: boolean;
  readonly note: string | null;
  readonly methods: CardMethods;
  /** Every derived number, in the order of the bench. */
  readonly numbers: readonly DerivedNumber[];
  /** Those that belong to no direction. */
  readonly single: readonly DerivedNumber[];
  /** Those that do, one line per kind and place. */
  readonly rows: readonly CardRow[];
  /** The strips' curves; null where the fabric did not come from readings. */
  readonly chart: StripChartSheet | null;
  readonly residuals: readonly ResidualRow[];
  readonly coupling: CardCoupling | null;
  readonly greatest: { readonly said: Direction | null; readonly found: readonly Direction[] } | null;
  readonly findings: readonly Finding[];
}

/**
 * The card of one fabric.
 *
 * @param readings - From which `fabric` was made.
 */
export function fabricCard(fabric: Fabric, readings: BenchReadings): FabricCard {
  const numbers = derivedNumbers(readings, fabric);
  const { strips, band, nextReading = null } = fabric;
  return {
    name: fabric.name,
    lot: fabric.lot,
    date: fabric.date,
    invented: fabric.invented,
    note: readings.note,
    methods: cardMethods(readings),
    numbers,
    single: numbers.filter(({ direction }) => direction === null),
    rows: cardRows(numbers),
    chart: strips === undefined ? null : chartOf(fabric, strips),
    residuals:
      strips === undefined ? [] : DIRECTIONS.map((direction) => residualRow(direction, strips[direction])),
    coupling: band === undefined ? null : { band, next: nextReading },
    greatest:
      strips === undefined
        ? null
        : { said: readings.greatestStretch, found: greatestDirections(strips, readings.greatestStretch) },
    findings: fabric.findings,
  };
}

const chartOf = (
  { name, lot, invented, heldWidth: held = null }: Fabric,
  strips: PerDirection<StripEvidence>,
): StripChartSheet => stripCharts([{ letter: 'A', name, lot, invented, strips, held }], 'N/50 mm');

/** Numbers of one kind and place side by side, in the order in which they first come. */
function cardRows(numbers: readonly DerivedNumber[]): CardRow[] {
  const rows = new Map<string, DerivedNumber[]>();
  for (const number of numbers) {
    if (number.direction === null) continue;
    const key = `${number.label} ${number.at ?? ''}`;
    rows.set(key, [...(rows.get(key) ?? []), number]);
  }
  return [...rows.values()].map((row) => ({
    label: row[0]!.label,
    at: row[0]!.at,
    cells: perDirection((direction) => row.find((number) => number.direction === direction) ?? null),
  }));
}

function residualRow(direction: Direction, { load, return: back, width }: StripEvidence): ResidualRow {
  return {
    direction,
    load: missOf(load),
    return: back === null ? null : missOf(back),
    width: width.rms === null ? null : extensionText(width.rms, 2),
  };
}

const missOf = ({ rms, worst }: CurveEvidence): CardMiss => ({
  rms: extensionText(rms, 2),
  worst: extensionText(worst.miss, 2),
  worstAt: extensionText(worst.extension),
});

function perDirection<T>(make: (direction: Direction) => T): PerDirection<T> {
  return { warp: make('warp'), weft: make('weft'), bias: make('bias') };
}

/** Millimetres without needless decimals. */
const mmText = (metres: number): string => String(Number(mmFromMetres(metres).toFixed(2)));

function cardMethods({ weighed, thickness, stretched, bending }: BenchReadings): CardMethods {
  const { strips } = stretched;
  return {
    weighed: {
      lengthMm: mmText(weighed.length),
      widthMm: mmText(weighed.width),
      counts: weighings(weighed.masses),
    },
    thickness: {
      count: thickness.values.length,
      pressureKPa: fixed(kPaFromPascals(thickness.pressure), 2),
      standard: thickness.standard,
    },
    stretched: {
      test: stretched.test,
      cycle: stretched.cycle,
      gaugeMm: mmText(stretched.gauge),
      widthMm: mmText(stretched.width),
      circumferenceMm: stretched.circumference === null ? null : mmText(stretched.circumference),
      specimens: perDirection((direction) => strips[direction].load.length),
      letBack: DIRECTIONS.filter((direction) => strips[direction].return !== null),
      widthRead: DIRECTIONS.filter((direction) => strips[direction].width !== null),
      heldWidth: stretched.heldWidth?.direction ?? null,
    },
    bent:
      bending.kind === 'cantilever'
        ? {
            kind: bending.kind,
            angleDeg: fixed(degreesFromRadians(bending.angle), 1),
            stripMm: null,
            counts: perDirection((direction) => bending.overhang[direction].length),
          }
        : {
            kind: bending.kind,
            angleDeg: null,
            stripMm: mmText(bending.stripLength),
            counts: perDirection((direction) => bending.height[direction].length),
          },
  };
}

const weighings = (masses: StripMasses): CardMethods['weighed']['counts'] =>
  'together' in masses ? masses.together.length : perDirection((direction) => masses.apart[direction].length);
