import type { Finding } from '../fault/finding.ts';
import { PACKED_STRETCH } from '../fabric/relaxed-energy.ts';
import type { Garment } from '../garment/garment.ts';
import { triangleAreas } from '../mesh/triangle-areas.ts';
import { mmFromMetres } from '../units/units.ts';
import { wornMesh, type Worn } from './worn-fields.ts';

/** Shares of the cloth below this are not worth a sentence. */
const WORTH_SAYING = 0.005;

/** A frictionless garment that slid less than this stayed where it was laid; a hem that moved less did not ride up; m. */
const WORTH_SAYING_SHIFT = { frictionless: 0.002, hem: 0.01 };

/** What the reader must know about one wearing: not at rest, beyond the readings, slack, in a heap, off the skin, slid. */
export function wornFindings({ garment, equilibrium, pull, friction }: Worn): Finding[] {
  const findings: Finding[] = [];
  const { residual, tolerance } = equilibrium;
  if (!equilibrium.atRest) findings.push({ code: 'worn/not-at-rest', facts: { residual, tolerance } });
  const areas = triangleAreas(wornMesh(garment, equilibrium));
  const total = areas.reduce((sum, area) => sum + area, 0);
  const shareOf = (flagged: (t: number) => boolean) =>
    areas.reduce((sum, area, t) => (flagged(t) ? sum + area : sum), 0) / total;
  const beyond = shareOf((t) => pull.beyondReadings[t] === 1);
  if (beyond > 0) findings.push({ code: 'worn/beyond-readings', facts: { sharePercent: 100 * beyond } });
  const slack = shareOf((t) => pull.slackAlong[t] === 1 || pull.slackAcross[t] === 1);
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
  const laid = garment.levels.at(-1)!.mesh.positions;
  const shift = largestShift(laid, equilibrium.positions);
  if (friction === 0 && shift > WORTH_SAYING_SHIFT.frictionless) {
    findings.push({ code: 'worn/frictionless', facts: { shiftMm: mmFromMetres(shift) } });
  }
  for (const hem of ['lower', 'upper'] as const) {
    const up = hemShift(garment, hem, laid, equilibrium.positions);
    if (Math.abs(up) < WORTH_SAYING_SHIFT.hem) continue;
    findings.push({
      code: 'worn/hem-moves',
      facts: { hem, way: up > 0 ? 'up' : 'down', shiftMm: mmFromMetres(Math.abs(up)), friction },
    });
  }
  return findings;
}

/** How far a hem has moved up the body on the whole, m. */
function hemShift(
  { rings, columnCount }: Garment,
  hem: 'lower' | 'upper',
  laid: Float64Array,
  settled: Float64Array,
): number {
  if (rings.length === 0) return 0;
  const first = hem === 'lower' ? 0 : (rings.length - 1) * columnCount;
  let sum = 0;
  for (let v = first; v < first + columnCount; v++) sum += settled[3 * v + 1]! - laid[3 * v + 1]!;
  return sum / columnCount;
}

/** How far any vertex has moved along the body's height, m. */
function largestShift(laid: Float64Array, settled: Float64Array): number {
  let most = 0;
  for (let i = 1; i < laid.length; i += 3) most = Math.max(most, Math.abs(settled[i]! - laid[i]!));
  return most;
}
