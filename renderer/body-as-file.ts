import type { FitMeasures } from '../core/body/fit-measures.ts';
import { FIT_PARAMETERS } from '../core/body/fit-parameters.ts';
import type { FitShape } from '../core/body/fit-shape.ts';
import { valuesFromFit } from '../core/body/fit-values.ts';
import type { TissueCorrections } from '../core/body/tissue-map.ts';
import type { StudyChange, TapeNotes } from '../core/study/study.ts';
import type { StudySheet } from './store/study-store.ts';

/** mm, to a tenth. */
export const millimetres = (metres: number): number => Math.round(metres * 1e4) / 10;

/**
 * What was tried of the body, under the names of a study file; nothing of what was not.
 *
 * @param worn - The study as it is worn with that.
 */
export const bodyAsFile = (
  { measures, shape, tape, tissue }: StudyChange,
  worn: Pick<StudySheet, 'measures' | 'shape'>,
): Record<string, unknown> => ({
  ...((measures ?? shape) && worn.measures && { body: { fitBody: fitBodyOf(worn.measures, worn.shape) } }),
  ...(tape && { tape: tapeOf(tape) }),
  ...(tissue && { tissue: tissueOf(tissue) }),
});

/** A form as a study file has it: every number under its name with its unit. */
function fitBodyOf(measures: FitMeasures, shape: FitShape): Record<string, unknown> {
  const values = valuesFromFit(measures, shape);
  const numbers = FIT_PARAMETERS.flatMap(({ name, key }) => {
    const value = values[name];
    return value === undefined ? [] : [[key, Math.round(1000 * value) / 1000]];
  });
  return { ...Object.fromEntries(numbers), ...(measures.figure && { figure: measures.figure }) };
}

const placeMm = (place: readonly number[]): number[] => place.map(millimetres);

const tapeOf = ({ placed, lines }: TapeNotes) => ({
  placedMm: Object.fromEntries(Object.entries(placed).map(([name, place]) => [name, placeMm(place)])),
  lines: lines.map(({ center, ...line }) => ({ ...line, centerMm: placeMm(center) })),
});

const tissueOf = ({ moduli, regions, strokes }: TissueCorrections) => ({
  ...(moduli && { moduli }),
  regions: regions.map(({ region, ...values }) => ({ region, ...valuesOf(values) })),
  strokes: strokes.map(({ center, radius, falloff, ...values }) => ({
    centerMm: placeMm(center),
    radiusMm: millimetres(radius),
    ...valuesOf(values),
    falloff,
  })),
});

const valuesOf = ({ depth, modulus }: { readonly depth?: number; readonly modulus?: number }) => ({
  ...(depth !== undefined && { depthMm: millimetres(depth) }),
  ...(modulus !== undefined && { modulusKPa: Math.round(modulus) / 1000 }),
});
