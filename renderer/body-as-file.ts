import type { FitMeasures } from '../core/body/fit-measures.ts';
import type { TissueCorrections } from '../core/body/tissue-map.ts';
import type { StudyChange, TapeNotes } from '../core/study/study.ts';

/** mm, to a tenth. */
export const millimetres = (metres: number): number => Math.round(metres * 1e4) / 10;

/** What was tried of the body, under the names of a study file; nothing of what was not. */
export const bodyAsFile = ({ measures, tape, tissue }: StudyChange): Record<string, unknown> => ({
  ...(measures && { body: { fitBody: fitBodyOf(measures) } }),
  ...(tape && { tape: tapeOf(tape) }),
  ...(tissue && { tissue: tissueOf(tissue) }),
});

/** Measures as a study file has them: every girth under its name with its unit. */
function fitBodyOf({ figure, ...measures }: FitMeasures): Record<string, unknown> {
  const lengths = Object.entries(measures).map(([name, metres]) => [`${name}Mm`, millimetres(metres)]);
  return { ...Object.fromEntries(lengths), ...(figure && { figure }) };
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
