import type { Finding } from '../fault/finding.ts';
import { wornMesh } from '../fields/worn-fields.ts';
import { vertexAreas } from '../mesh/vertex-areas.ts';
import { fieldOf, OUTPUT_COLUMNS } from './output-units.ts';
import type { StudyResult, WornResult } from './study.ts';

/** How a quantity is spread over the cloth, weighted by worn area. */
export interface Spread {
  readonly min: number;
  readonly mean: number;
  /** 95 % of the area lies at or below this. */
  readonly p95: number;
  readonly max: number;
}

/** The same numbers of a field's low or high values. */
export type SpreadEnd = Omit<Spread, 'min'>;

/** A spread and, where the field bears a band, the spreads of its two ends: each at least or at most the one shown. */
export interface BandedSpread extends Spread {
  readonly band?: { readonly low: SpreadEnd; readonly high: SpreadEnd };
}

/** One wearing in numbers, as `summary.json` holds it. */
export interface WornSummary {
  readonly id: string;
  readonly vertexCount: number;
  readonly residual: number;
  readonly atRest: boolean;
  readonly findings: readonly Finding[];
  /** Keyed by `OutputColumn.name`. The outermost row at each hem is left out; off the skin a pressure counts as 0. */
  readonly fields: Readonly<Record<string, BandedSpread>>;
}

/** The numbers of one fabric's wearing. */
export function wornSummary(result: StudyResult, worn: WornResult): WornSummary {
  const mesh = wornMesh(result.garment, worn.equilibrium);
  const { edgeVertex } = result.garment.levels.at(-1)!;
  const areas = vertexAreas(mesh).map((area, v) => (edgeVertex[v] ? 0 : area));
  const fields: Record<string, BandedSpread> = {};
  for (const { field, name, fromSi } of OUTPUT_COLUMNS) {
    const { values, band } = fieldOf(worn.fields, field);
    const spread = (si: Float64Array) => spreadOf(si.map(fromSi), areas);
    fields[name] = {
      ...spread(values),
      ...(band && { band: { low: endOf(spread(band.low)), high: endOf(spread(band.high)) } }),
    };
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

const endOf = ({ mean, p95, max }: Spread): SpreadEnd => ({ mean, p95, max });

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
