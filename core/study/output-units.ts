import type { FieldId } from '../fields/field.ts';
import { kPaFromPascals, mmFromMetres, mmHgFromPascals, percentFromRatio } from '../units/units.ts';

/** A column of the files written: a field in one unit, named with that unit. */
export interface OutputColumn {
  readonly field: FieldId;
  /** `skinPressureKPa` */
  readonly name: string;
  readonly fromSi: (value: number) => number;
}

const asIs = (value: number): number => value;

/** Every field in every unit that files give it in. Names are part of the file format: add, never rename. */
export const OUTPUT_COLUMNS: readonly OutputColumn[] = [
  { field: 'skinPressure', name: 'skinPressureKPa', fromSi: kPaFromPascals },
  { field: 'skinPressure', name: 'skinPressureMmHg', fromSi: mmHgFromPascals },
  { field: 'discPressure', name: 'discPressureKPa', fromSi: kPaFromPascals },
  { field: 'discPressure', name: 'discPressureMmHg', fromSi: mmHgFromPascals },
  { field: 'stretchAcross', name: 'stretchAcrossPercent', fromSi: percentFromRatio },
  { field: 'stretchAlong', name: 'stretchAlongPercent', fromSi: percentFromRatio },
  { field: 'tensionAcross', name: 'tensionAcrossNPerM', fromSi: asIs },
  { field: 'tensionAlong', name: 'tensionAlongNPerM', fromSi: asIs },
  { field: 'gap', name: 'gapMm', fromSi: mmFromMetres },
  { field: 'give', name: 'giveMm', fromSi: mmFromMetres },
];
