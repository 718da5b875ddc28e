import type { Finding } from '../fault/finding.ts';
import { triangleAreas } from '../mesh/triangle-areas.ts';
import { mmFromMetres } from '../units/units.ts';
import { wornMesh, type Worn } from './worn-fields.ts';

/** Shares of the cloth below this are not worth a sentence. */
const WORTH_SAYING = 0.005;

/** A frictionless garment that slid less than this stayed where it was laid, m. */
const WORTH_SAYING_SHIFT = 0.002;

/**
 * What the reader must know about one wearing: not at rest, beyond the readings, slack, off the skin, slid.
 *
 * @param friction - Coefficient the garment was settled with.
 */
export function wornFindings({ garment, equilibrium, pull }: Worn, friction: number): Finding[] {
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
  const { triangles } = garment.levels.at(-1)!.mesh;
  const off = shareOf((t) =>
    [0, 1, 2].every((corner) => equilibrium.distance[triangles[3 * t + corner]!]! > 0),
  );
  if (off > WORTH_SAYING) {
    const largestGapMm = mmFromMetres(
      equilibrium.distance.reduce((most, distance) => Math.max(most, distance), 0),
    );
    findings.push({ code: 'worn/off-skin', facts: { sharePercent: 100 * off, largestGapMm } });
  }
  const shift = largestShift(garment.levels.at(-1)!.mesh.positions, equilibrium.positions);
  if (friction === 0 && shift > WORTH_SAYING_SHIFT) {
    findings.push({ code: 'worn/frictionless', facts: { shiftMm: mmFromMetres(shift) } });
  }
  return findings;
}

/** How far any vertex has moved along the body's height, m. */
function largestShift(laid: Float64Array, settled: Float64Array): number {
  let most = 0;
  for (let i = 1; i < laid.length; i += 3) most = Math.max(most, Math.abs(settled[i]! - laid[i]!));
  return most;
}
