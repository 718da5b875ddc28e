import { turnBack } from '../../core/body/turn-up.ts';
import { wornMesh } from '../../core/fields/worn-fields.ts';
import { writeGlb } from '../../core/io/write-glb.ts';
import { bandColumns, fieldOf, shownColumns } from '../../core/study/output-units.ts';
import type { StudyResult, WornResult } from '../../core/study/study.ts';

/**
 * One fabric's wearing as a GLB: the cloth at rest in the body's own axes, in mm, with one attribute per column of the
 * table, named as there in capitals (`_SKINPRESSUREKPA`, `_SKINPRESSURELOWKPA`), and the flags `_OFFSKIN` and `_EDGE`.
 */
export function wornGlb(result: StudyResult, worn: WornResult): Uint8Array {
  const columns = [
    ...shownColumns(worn.fields),
    ...bandColumns(worn.fields),
    { name: 'offSkin', values: fieldOf(worn.fields, 'skinPressure').undefinedAt },
    { name: 'edge', values: result.garment.levels.at(-1)!.edgeVertex },
  ];
  const attributes = Object.fromEntries(
    columns.map(({ name, values }) => [`_${name.toUpperCase()}`, Float32Array.from(values)]),
  );
  const mesh = turnBack(wornMesh(result.garment, worn.equilibrium), result.body.sourceUp);
  const { residual, atRest } = worn.equilibrium;
  return writeGlb({ ...mesh, attributes, extras: { fabric: worn.fabricId, residual, atRest } });
}
