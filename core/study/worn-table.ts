import { turnBack } from '../body/turn-up.ts';
import { wornMesh } from '../fields/worn-fields.ts';
import { mmFromMetres } from '../units/units.ts';
import { bandColumns, fieldOf, shownColumns } from './output-units.ts';
import type { StudyResult, WornResult } from './study.ts';

/**
 * One fabric's wearing as comma-separated text, one line a vertex: x, y, z (mm, in the body's own axes), every field in its
 * named unit, flags: `offSkin` (pressure means nothing; on a foundation nor does give), `edge` (outermost row of a hem), and last the ends of
 * every band that the fabric bears (`skinPressureLowKPa`, `skinPressureHighKPa`).
 */
export function wornTable(result: StudyResult, worn: WornResult): string {
  const { positions } = turnBack(wornMesh(result.garment, worn.equilibrium), result.body.sourceUp);
  const { edgeVertex } = result.garment.levels.at(-1)!;
  const offSkin = fieldOf(worn.fields, 'skinPressure').undefinedAt;
  const shown = shownColumns(worn.fields);
  const bands = bandColumns(worn.fields);
  const names = [...shown.map(({ name }) => name), 'offSkin', 'edge', ...bands.map(({ name }) => name)];
  const lines = [['x', 'y', 'z', ...names].join(',')];
  for (let v = 0; v < edgeVertex.length; v++) {
    const point = [0, 1, 2].map((k) => short(mmFromMetres(positions[3 * v + k]!)));
    const [values, ends] = [shown, bands].map((columns) => columns.map((column) => short(column.values[v]!)));
    lines.push([...point, ...values!, offSkin[v], edgeVertex[v], ...ends!].join(','));
  }
  return `${lines.join('\n')}\n`;
}

/** Seven digits without idle zeros: 1.250000 -> 1.25, 0.000000 -> 0. */
const short = (number: number): string => String(Number(number.toPrecision(7)));
