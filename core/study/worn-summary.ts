import type { Finding } from '../fault/finding.ts';
import { wornMesh } from '../fields/worn-fields.ts';
import { vertexAreas } from '../mesh/vertex-areas.ts';
import { OUTPUT_COLUMNS } from './output-units.ts';
import type { StudyResult, WornResult } from './study.ts';

/** How a quantity is spread over the cloth, weighted by worn area. */
export interface Spread {
  readonly min: number;
  readonly mean: number;
  /** 95 % of the area lies at or below this. */
  readonly p95: number;
  readonly max: number;
}

/** One wearing in numbers, as `summary.json` holds it. */
export interface WornSummary {
  readonly id: string;
  readonly vertexCount: number;
  readonly residual: number;
  readonly atRest: boolean;
  readonly findings: readonly Finding[];
  /** Keyed by `OutputColumn.name`. The outermost row at each hem is left out; off the skin a pressure counts as 0. */
  readonly fields: Readonly<Record<string, Spread>>;
}

/** The numbers of one fabric's wearing. */
export function wornSummary(result: StudyResult, worn: WornResult): WornSummary {
  const mesh = wornMesh(result.garment, worn.equilibrium);
  const { edgeVertex } = result.garment.levels.at(-1)!;
  const areas = vertexAreas(mesh).map((area, v) => (edgeVertex[v] ? 0 : area));
  const fields: Record<string, Spread> = {};
  for (const { field, name, fromSi } of OUTPUT_COLUMNS) {
    const { values } = worn.fields.find(({ id }) => id === field)!;
    fields[name] = spreadOf(values.map(fromSi), areas);
  }
  return {
    id: worn.fabricId,
    vertexCount: mesh.positions.length / 3,
    residual: worn.equilibrium.residual,
    atRest: worn.equilibrium.atRest,
    findings: [...result.body.findings, ...result.garment.findings, ...worn.findings],
    fields,
  };
}

/**
 * Area-weighted spread of the values whose area is not 0.
 *
 * @param areas - Weight per value; at least one is positive.
 */
export function spreadOf(values: Float64Array, areas: Float64Array): Spread {
  const counted = Array.from(values.keys()).filter((v) => areas[v]! > 0);
  counted.sort((a, b) => values[a]! - values[b]!);
  const total = counted.reduce((sum, v) => sum + areas[v]!, 0);
  const mean = counted.reduce((sum, v) => sum + values[v]! * areas[v]!, 0) / total;
  let passed = 0;
  const p95 = counted.find((v) => (passed += areas[v]!) >= 0.95 * total) ?? counted.at(-1)!;
  return { min: values[counted[0]!]!, mean, p95: values[p95]!, max: values[counted.at(-1)!]! };
}
