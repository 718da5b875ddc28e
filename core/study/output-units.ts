import type { Field, FieldId } from '../fields/field.ts';
import { kPaFromPascals, mmFromMetres, mmHgFromPascals, percentFromRatio } from '../units/units.ts';

/** The ends of a field's band as columns of their own: `skinPressureLowKPa`, `skinPressureHighKPa`. */
export interface BandColumns {
  readonly low: string;
  readonly high: string;
}

/** A column of the files written: a field in one unit, named with that unit. */
export interface OutputColumn {
  readonly field: FieldId;
  /** `skinPressureKPa` */
  readonly name: string;
  /** Null where the field never bears a band. */
  readonly band: BandColumns | null;
  readonly fromSi: (value: number) => number;
}

const asIs = (value: number): number => value;

const banded = (field: FieldId, unit: string, fromSi: OutputColumn['fromSi']): OutputColumn => ({
  field,
  name: `${field}${unit}`,
  band: { low: `${field}Low${unit}`, high: `${field}High${unit}` },
  fromSi,
});

const bandless = (field: FieldId, unit: string, fromSi: OutputColumn['fromSi']): OutputColumn => ({
  field,
  name: `${field}${unit}`,
  band: null,
  fromSi,
});

/**
 * Every field in every unit that files give it in. Names are part of the file format: add, never rename.
 *
 * Pressures and tensions bear the band of the fabric's coupling where it has one. Stretch, gap and give bear none: they
 * are of the shape as it settled with the coupling shown.
 */
export const OUTPUT_COLUMNS: readonly OutputColumn[] = [
  banded('skinPressure', 'KPa', kPaFromPascals),
  banded('skinPressure', 'MmHg', mmHgFromPascals),
  banded('discPressure', 'KPa', kPaFromPascals),
  banded('discPressure', 'MmHg', mmHgFromPascals),
  bandless('stretchAcross', 'Percent', percentFromRatio),
  bandless('stretchAlong', 'Percent', percentFromRatio),
  banded('tensionAcross', 'NPerM', asIs),
  banded('tensionAlong', 'NPerM', asIs),
  bandless('gap', 'Mm', mmFromMetres),
  bandless('give', 'Mm', mmFromMetres),
  bandless('gripUsed', 'Percent', percentFromRatio),
];

/** A column of numbers under its name. */
export interface NamedColumn {
  readonly name: string;
  /** V. */
  readonly values: Float64Array;
}

/** The columns of every field in order. */
export const shownColumns = (fields: readonly Field[]): readonly NamedColumn[] =>
  OUTPUT_COLUMNS.map(({ field, name, fromSi }) => ({
    name,
    values: fieldOf(fields, field).values.map(fromSi),
  }));

/** The columns of every band that the fields bear; none where the fabric's coupling has no band. */
export const bandColumns = (fields: readonly Field[]): readonly NamedColumn[] =>
  OUTPUT_COLUMNS.flatMap(({ field, band: names, fromSi }) => {
    const { band } = fieldOf(fields, field);
    if (!band || !names) return [];
    return [
      { name: names.low, values: band.low.map(fromSi) },
      { name: names.high, values: band.high.map(fromSi) },
    ];
  });

/** The field of a wearing; every one has all of them. */
export const fieldOf = (fields: readonly Field[], id: FieldId): Field =>
  fields.find((field) => field.id === id)!;
