import { turnBack } from '../body/turn-up.ts';
import { wornMesh } from '../fields/worn-fields.ts';
import { mmFromMetres } from '../units/units.ts';
import { OUTPUT_COLUMNS } from './output-units.ts';
import type { StudyResult, WornResult } from './study.ts';

/**
 * One fabric's wearing as comma-separated text, one line a vertex: x, y, z (mm, in the body's own axes), every field in its
 * named unit, and flags: `offSkin` (pressure and give mean nothing), `edge` (outermost row of a hem).
 */
export function wornTable(result: StudyResult, worn: WornResult): string {
  const { positions } = turnBack(wornMesh(result.garment, worn.equilibrium), result.body.sourceUp);
  const { edgeVertex } = result.garment.levels.at(-1)!;
  const fieldOf = new Map(worn.fields.map((field) => [field.id, field]));
  const offSkin = fieldOf.get('skinPressure')!.undefinedAt;
  const columns = OUTPUT_COLUMNS.map(({ field, fromSi }) => fieldOf.get(field)!.values.map(fromSi));
  const lines = [['x', 'y', 'z', ...OUTPUT_COLUMNS.map(({ name }) => name), 'offSkin', 'edge'].join(',')];
  for (let v = 0; v < edgeVertex.length; v++) {
    const point = [0, 1, 2].map((k) => mmFromMetres(positions[3 * v + k]!));
    const numbers = [...point, ...columns.map((values) => values[v]!)].map((number) => number.toPrecision(7));
    lines.push([...numbers.map(trimZeros), offSkin[v], edgeVertex[v]].join(','));
  }
  return `${lines.join('\n')}\n`;
}

/** 1.250000 -> 1.25, 0.000000 -> 0. */
const trimZeros = (text: string): string => String(Number(text));
