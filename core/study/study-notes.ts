import type { TissueCorrections } from '../body/tissue-map.ts';
import type { StudyFile } from '../io/study-file.ts';
import { triple, type Triple } from '../mesh/triple.ts';
import { metresFromMm, pascalsFromKPa } from '../units/units.ts';
import type { TapeNotes } from './study.ts';

const metres = (placeMm: Readonly<Triple>): Triple => triple((k) => metresFromMm(placeMm[k]!));

/** Tapes laid by hand, from a study file's mm. */
export function tapeOf({ placedMm = {}, lines = [] }: NonNullable<StudyFile['tape']>): TapeNotes {
  return {
    placed: Object.fromEntries(Object.entries(placedMm).map(([name, place]) => [name, metres(place)])),
    lines: lines.map(({ centerMm, normal, ...line }) => ({ ...line, center: metres(centerMm), normal })),
  };
}

/** What was corrected of the tissue by hand, from a study file's mm and kPa. */
export function tissueOf({
  regions = [],
  strokes = [],
}: NonNullable<StudyFile['tissue']>): TissueCorrections {
  return {
    regions: regions.map(({ region, ...values }) => ({ region, ...valuesOf(values) })),
    strokes: strokes.map(({ centerMm, radiusMm, falloff, ...values }) => ({
      center: metres(centerMm),
      radius: metresFromMm(radiusMm),
      falloff,
      ...valuesOf(values),
    })),
  };
}

interface FileValues {
  readonly depthMm?: number | undefined;
  readonly modulusKPa?: number | undefined;
}

const valuesOf = ({ depthMm, modulusKPa }: FileValues): { depth?: number; modulus?: number } => ({
  ...(depthMm !== undefined && { depth: metresFromMm(depthMm) }),
  ...(modulusKPa !== undefined && { modulus: pascalsFromKPa(modulusKPa) }),
});
