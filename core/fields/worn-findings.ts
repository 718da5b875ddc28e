import type { Finding } from '../fault/finding.ts';
import { PACKED_STRETCH } from '../fabric/packed-folds.ts';
import { triangleAreas } from '../mesh/triangle-areas.ts';
import { mmFromMetres } from '../units/units.ts';
import type { Field } from './field.ts';
import { GRIP_SPENT } from './grip-used.ts';
import { pinchedFindings } from './pinched-cloth.ts';
import { wornMesh, type Worn } from './worn-fields.ts';

/** Shares of the cloth below this are not worth a sentence. */
const WORTH_SAYING = 0.005;

/** A frictionless garment that slid less than this stayed where it was laid; a hem that moved less did not ride up; m. */
const WORTH_SAYING_SHIFT = { frictionless: 0.002, hem: 0.01 };

/** What the reader must know of one wearing: not at rest, beyond the readings, slack, in a heap, off the skin, pinched, slid. */
export function wornFindings(worn: Worn, fields: readonly Field[]): Finding[] {
  const { garment, equilibrium, pull } = worn;
  const findings: Finding[] = [];
  const { residual, tolerance } = equilibrium;
  if (!equilibrium.atRest) findings.push({ code: 'worn/not-at-rest', facts: { residual, tolerance } });
  const areas = triangleAreas(wornMesh(garment, equilibrium));
  const total = areas.reduce((sum, area) => sum + area, 0);
  const shareOf = (flagged: (t: number) => boolean) =>
    areas.reduce((sum, area, t) => (flagged(t) ? sum + area : sum), 0) / total;
  const beyond = shareOf((t) => pull.beyondReadings[t] === 1);
  if (beyond > 0) findings.push({ code: 'worn/beyond-readings', facts: { sharePercent: 100 * beyond } });
  const slack = shareOf((t) => pull.wrinkled[t] === 1);
  if (slack > WORTH_SAYING) findings.push({ code: 'worn/slack', facts: { sharePercent: 100 * slack } });
  const packed = shareOf((t) => Math.min(pull.stretchAlong[t]!, pull.stretchAcross[t]!) < PACKED_STRETCH - 1);
  if (packed > WORTH_SAYING) findings.push({ code: 'worn/packed', facts: { sharePercent: 100 * packed } });
  const { triangles } = garment.levels.at(-1)!.mesh;
  const gap = equilibrium.distance.map((distance, v) => distance + equilibrium.offset[v]!);
  const off = shareOf((t) => [0, 1, 2].every((corner) => gap[triangles[3 * t + corner]!]! > 0));
  if (off > WORTH_SAYING) {
    const largestGapMm = mmFromMetres(gap.reduce((most, distance) => Math.max(most, distance), 0));
    findings.push({ code: 'worn/off-skin', facts: { sharePercent: 100 * off, largestGapMm } });
  }
  findings.push(...pinchedFindings(worn));
  return [...findings, ...(worn.friction === 0 ? slidFindings(worn) : hemFindings(worn, fields))];
}

/** Without friction nothing but its shape holds a garment: how far it slid along the body's height. */
function slidFindings({ garment, equilibrium: { positions } }: Worn): Finding[] {
  const laid = garment.levels.at(-1)!.mesh.positions;
  let most = 0;
  for (let i = 1; i < laid.length; i += 3) most = Math.max(most, Math.abs(positions[i]! - laid[i]!));
  if (most <= WORTH_SAYING_SHIFT.frictionless) return [];
  return [{ code: 'worn/frictionless', facts: { shiftMm: mmFromMetres(most) } }];
}

/** Hems that have ridden up or slid down on the whole, and how much of each has used up its grip. */
function hemFindings({ garment, equilibrium, friction }: Worn, fields: readonly Field[]): Finding[] {
  const { rings, columnCount, levels } = garment;
  const laid = levels.at(-1)!.mesh.positions;
  const grip = fields.find(({ id }) => id === 'gripUsed');
  return (['lower', 'upper'] as const).flatMap((hem): Finding[] => {
    if (rings.length === 0) return [];
    const first = hem === 'lower' ? 0 : (rings.length - 1) * columnCount;
    let up = 0;
    let spent = 0;
    for (let v = first; v < first + columnCount; v++) {
      up += (equilibrium.positions[3 * v + 1]! - laid[3 * v + 1]!) / columnCount;
      if (grip && grip.values[v]! >= GRIP_SPENT) spent++;
    }
    if (Math.abs(up) < WORTH_SAYING_SHIFT.hem) return [];
    return [
      {
        code: 'worn/hem-moves',
        facts: {
          hem,
          way: up > 0 ? 'up' : 'down',
          shiftMm: mmFromMetres(Math.abs(up)),
          friction,
          spentPercent: (100 * spent) / columnCount,
        },
      },
    ];
  });
}
