import type { DistanceField } from '../body/distance-field.ts';
import type { ClothLevel } from '../garment/garment.ts';
import { vertexAreas } from '../mesh/vertex-areas.ts';
import { SAMPLE_SIZE } from './contact-force.ts';
import { elasticForce } from './elastic-force.ts';

/** What sewn elastic presses where it lies, whatever the mesh. */
export interface BandPressure {
  /** Share of each vertex's area that lies under elastic, at most 1; V. */
  readonly cover: Float64Array;
  /** What the elastic alone presses there, F / (w R), Pa; 0 where there is none; V. */
  readonly pressure: Float64Array;
  /**
   * What the elastic alone adds to a pressure that is read over the whole area of a vertex, Pa; V. Under the band the
   * skin feels that reading less this plus `pressure`; beside it the reading less this.
   */
  readonly spread: Float64Array;
}

/**
 * Pressure of sewn elastic under itself. A pressure read as force over the area of a vertex is too low where an elastic
 * is narrower than the rows of the mesh; this tells how far, and what the elastic presses on its own width.
 *
 * Per vertex: force of the elastic across the skin over the part of the elastic that the vertex holds, share * width *
 * half the length of its segments. Where several elastics overlap their areas and forces add up.
 *
 * @param positions - At rest; 3*V, m.
 */
export function bandPressure(level: ClothLevel, positions: Float64Array, body: DistanceField): BandPressure {
  const vertexCount = positions.length / 3;
  const band: BandPressure = {
    cover: new Float64Array(vertexCount),
    pressure: new Float64Array(vertexCount),
    spread: new Float64Array(vertexCount),
  };
  const { elastics = [] } = level;
  if (elastics.length === 0) return band;
  const under = new Float64Array(vertexCount);
  const pull = new Float64Array(positions.length);
  for (const elastic of elastics) {
    elasticForce(elastic).addGradient(positions, pull);
    const { segments, share, width } = elastic;
    for (let s = 0; s < share.length; s++) {
      const a = segments[2 * s]!;
      const b = segments[2 * s + 1]!;
      const half = (share[s]! * width * distanceBetween(positions, a, b)) / 2;
      under[a]! += half;
      under[b]! += half;
    }
  }
  const areas = vertexAreas({ positions, triangles: level.mesh.triangles });
  const sample = new Float64Array(SAMPLE_SIZE);
  for (let v = 0; v < vertexCount; v++) {
    if (under[v] === 0) continue;
    body.sample(positions[3 * v]!, positions[3 * v + 1]!, positions[3 * v + 2]!, sample);
    const slope = Math.hypot(sample[1]!, sample[2]!, sample[3]!);
    let inward = 0;
    for (let k = 0; k < 3; k++) inward += (pull[3 * v + k]! * sample[1 + k]!) / slope;
    band.cover[v] = Math.min(1, under[v]! / areas[v]!);
    band.pressure[v] = inward / under[v]!;
    band.spread[v] = inward / areas[v]!;
  }
  return band;
}

const distanceBetween = (positions: Float64Array, a: number, b: number): number =>
  Math.hypot(
    positions[3 * b]! - positions[3 * a]!,
    positions[3 * b + 1]! - positions[3 * a + 1]!,
    positions[3 * b + 2]! - positions[3 * a + 2]!,
  );
