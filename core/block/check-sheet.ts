import type { Body } from '../body/body.ts';
import type { Finding } from '../fault/finding.ts';
import { mmFromMetres } from '../units/units.ts';
import type { BlockSheet } from './blocks.ts';
import type { DraftedBlock, DraftedMeasure } from './drafted-block.ts';

/** A measure of the sheet beside the body's. */
export interface SheetRow extends DraftedMeasure {
  /** How much smaller the garment is than the body: S = 1 - relaxed / body. Pattern cutters reckon with it. */
  readonly reduction: number;
  /** How far it is stretched when worn: 1 / (1 - S) - 1. Fabrics are measured by it. */
  readonly stretch: number;
}

/** What the waist of a garment with legs does at its centre. */
interface Raised extends DraftedBlock {
  readonly raise: Readonly<Record<'front' | 'back', number>>;
  readonly crotchWay: number;
}

/** A waist may stand this far above a trued one at its centre, or below it, m. Common practice: 20 to 30 mm at most. */
const MOST_RAISE = 0.03;
const MOST_DIP = 0.015;
/** The crotch may lie so far off the body's, m. Common practice. */
const MOST_DROP = 0.025;

/** Reduction and worn stretch of every measure, side by side. */
export const sheetRows = ({ measures }: DraftedBlock): SheetRow[] =>
  measures.map((measure) => {
    const reduction = 1 - measure.relaxed / measure.body;
    return { ...measure, reduction, stretch: 1 / (1 - reduction) - 1 };
  });

/**
 * What a pattern cutter would say of a sheet on this body: girths that do not hold, rises that do not go with the side seam,
 * an inseam that does not, a hem below the knee. Each finding names the number that would fit.
 */
export function checkSheet(body: Body, sheet: BlockSheet, block: DraftedBlock): Finding[] {
  return [
    ...looseGirths(sheet, block),
    ...(isRaised(block) ? [...risesOff(sheet, block), ...inseamOff(sheet, block)] : []),
    ...(sheet.block === 'short' ? hemBelowKnee(body, sheet) : []),
  ];
}

const isRaised = (block: DraftedBlock): block is Raised => 'raise' in block && 'crotchWay' in block;

function looseGirths({ girths }: BlockSheet, { measures }: DraftedBlock): Finding[] {
  return measures
    .filter(({ name, relaxed, body }) => girths[name] !== undefined && relaxed >= body)
    .map(({ name, relaxed, body }) => ({
      code: 'block/girth-loose',
      facts: { level: name, relaxedMm: mmFromMetres(relaxed), bodyMm: mmFromMetres(body) },
    }));
}

function risesOff({ lengths }: BlockSheet, { raise }: Raised): Finding[] {
  return (['front', 'back'] as const).flatMap((side): Finding[] => {
    const over = raise[side] > MOST_RAISE ? raise[side] - MOST_RAISE : Math.min(0, raise[side] + MOST_DIP);
    if (over === 0) return [];
    const rise = lengths[`${side}Rise`]!;
    const facts = {
      side,
      riseMm: mmFromMetres(rise),
      sideMm: mmFromMetres(lengths['side']!),
      offMm: mmFromMetres(Math.abs(raise[side])),
      fitsMm: mmFromMetres(rise - over),
    };
    return [{ code: over > 0 ? 'block/rise-long' : 'block/rise-short', facts }];
  });
}

function inseamOff({ lengths }: BlockSheet, { crotchWay }: Raised): Finding[] {
  const inseam = lengths['inseam']!;
  if (Math.abs(crotchWay - inseam) <= MOST_DROP) return [];
  const facts = {
    inseamMm: mmFromMetres(inseam),
    sideMm: mmFromMetres(lengths['side']!),
    offMm: mmFromMetres(Math.abs(crotchWay - inseam)),
    fitsMm: mmFromMetres(crotchWay),
  };
  return [{ code: inseam < crotchWay ? 'block/crotch-low' : 'block/crotch-high', facts }];
}

function hemBelowKnee({ landmarks }: Body, { lengths, laid }: BlockSheet): Finding[] {
  const crotch = landmarks.crotch?.point[1];
  const knee = landmarks.kneeLeft?.point[1];
  if (crotch === undefined || knee === undefined) return [];
  const hem = laid?.['hem'] ?? crotch - lengths['inseam']!;
  if (hem >= knee) return [];
  const facts = {
    hemMm: mmFromMetres(hem),
    kneeMm: mmFromMetres(knee),
    inseamMm: mmFromMetres(lengths['inseam']!),
    fitsMm: mmFromMetres(crotch - knee),
  };
  return [{ code: 'block/hem-below-knee', facts }];
}
