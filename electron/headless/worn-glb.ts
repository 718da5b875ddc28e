import { turnBack } from '../../core/body/turn-up.ts';
import { wornMesh } from '../../core/fields/worn-fields.ts';
import { writeGlb } from '../../core/io/write-glb.ts';
import { OUTPUT_COLUMNS } from '../../core/study/output-units.ts';
import type { StudyResult, WornResult } from '../../core/study/study.ts';

/**
 * One fabric's wearing as a GLB: the cloth at rest in the body's own axes, in mm, with one attribute per column of the
 * table, named as there in capitals (`_SKINPRESSUREKPA`), and the flags `_OFFSKIN` and `_EDGE`.
 */
export function wornGlb(result: StudyResult, worn: WornResult): Uint8Array {
  const fieldOf = new Map(worn.fields.map((field) => [field.id, field]));
  const columns = OUTPUT_COLUMNS.map(
    ({ field, name, fromSi }) => [name, Float32Array.from(fieldOf.get(field)!.values, fromSi)] as const,
  );
  const flags = [
    ['offSkin', Float32Array.from(fieldOf.get('skinPressure')!.undefinedAt)],
    ['edge', Float32Array.from(result.garment.levels.at(-1)!.edgeVertex)],
  ] as const;
  const attributes = Object.fromEntries(
    [...columns, ...flags].map(([name, values]) => [`_${name.toUpperCase()}`, values]),
  );
  const mesh = turnBack(wornMesh(result.garment, worn.equilibrium), result.body.sourceUp);
  const { residual, atRest } = worn.equilibrium;
  return writeGlb({ ...mesh, attributes, extras: { fabric: worn.fabricId, residual, atRest } });
}
