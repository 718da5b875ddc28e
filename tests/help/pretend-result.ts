import type { RelativeBand } from '../../core/fabric/coupling-band.ts';
import type { Field, FieldId, FieldKind, FieldUnit } from '../../core/fields/field.ts';
import { compareWorn } from '../../core/judgement/compare.ts';
import { reviewOf } from '../../core/judgement/review.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import { vertexAreas } from '../../core/mesh/vertex-areas.ts';
import { vertexNormals } from '../../core/mesh/triangle-areas.ts';
import type { SettledStudy, StudySheet, WornCloth } from '../../renderer/worker/messages.ts';

/** A tube as a grid of quads, each cut in two: `rings` rows of `columns` vertices, lower hem first. m. */
export interface PretendTube {
  readonly mesh: TriangleMesh;
  readonly edgeVertex: Uint8Array;
  readonly vertexArea: Float64Array;
  readonly columns: number;
  readonly rings: number;
}

/** An upright elliptic tube; column 0 in front, columns running to the wearer's left. */
export function pretendTube({
  columns = 48,
  rings = 13,
  halfWidth = 0.16,
  halfDepth = 0.12,
  from = 0.9,
  to = 1.14,
} = {}): PretendTube {
  const positions = new Float64Array(3 * columns * rings);
  const edgeVertex = new Uint8Array(columns * rings);
  const triangles: number[] = [];
  for (let ring = 0; ring < rings; ring++) {
    for (let column = 0; column < columns; column++) {
      const v = ring * columns + column;
      const angle = (2 * Math.PI * column) / columns;
      positions.set(
        [halfWidth * Math.sin(angle), from + ((to - from) * ring) / (rings - 1), halfDepth * Math.cos(angle)],
        3 * v,
      );
      edgeVertex[v] = ring === 0 || ring === rings - 1 ? 1 : 0;
      if (ring === rings - 1) continue;
      const next = ring * columns + ((column + 1) % columns);
      triangles.push(v, next, v + columns, next, next + columns, v + columns);
    }
  }
  const mesh = { positions, triangles: Uint32Array.from(triangles) };
  return { mesh, edgeVertex, vertexArea: vertexAreas(mesh), columns, rings };
}

/** A field made of a number per vertex; NaN marks a vertex without a value; a band in shares of the values. */
export function pretendField(
  values: ArrayLike<number>,
  {
    id = 'skinPressure',
    unit = 'Pa',
    kind = 'sequential',
    band,
  }: Partial<Pick<Field, 'id' | 'unit' | 'kind'>> & { readonly band?: RelativeBand } = {},
): Field {
  const shown = Float64Array.from(values, (value) => (Number.isNaN(value) ? 0 : value));
  return {
    id,
    unit,
    kind,
    values: shown,
    undefinedAt: Uint8Array.from(values, (value) => (Number.isNaN(value) ? 1 : 0)),
    ...(band && {
      band: {
        low: shown.map((value) => value * (1 + band.low)),
        high: shown.map((value) => value * (1 + band.high)),
      },
    }),
  };
}

/** Girths of an invented form; only their levels matter. */
export const pretendGirths = [
  { name: 'underbust', level: 1.118, girth: 0.79 },
  { name: 'waist', level: 1.045, girth: 0.76 },
  { name: 'topHip', level: 0.96, girth: 0.9 },
];

const UNITS: Readonly<Record<FieldId, readonly [FieldUnit, FieldKind]>> = {
  skinPressure: ['Pa', 'sequential'],
  discPressure: ['Pa', 'sequential'],
  stretchAcross: ['ratio', 'sequential'],
  stretchAlong: ['ratio', 'symmetric'],
  tensionAcross: ['N/m', 'sequential'],
  tensionAlong: ['N/m', 'sequential'],
  gap: ['m', 'sequential'],
  give: ['m', 'sequential'],
  gripUsed: ['ratio', 'sequential'],
};

/** Sizes of the made-up fields, SI. */
const SIZES: Readonly<Record<FieldId, number>> = {
  skinPressure: 1500,
  discPressure: 1400,
  stretchAcross: 0.25,
  stretchAlong: -0.04,
  tensionAcross: 120,
  tensionAlong: 20,
  gap: 0.003,
  give: 0.002,
  gripUsed: 0.6,
};

export interface PretendStudy {
  readonly atRest?: boolean;
  /** The second fabric presses and pulls so many times as much as the first. */
  readonly softer?: number;
  /** Band of every pressure and tension, in shares of the value; none if left out. */
  readonly banded?: RelativeBand;
}

/** A study that never was: two fabrics on an elliptic torso. */
export function pretendSettled({ atRest = true, softer = 0.6, banded }: PretendStudy = {}): SettledStudy {
  const tube = pretendTube();
  const worn = ['first', 'second'].map((fabricId, index): WornCloth => {
    const factor = index === 0 ? 1 : softer;
    const ids = Object.keys(UNITS) as FieldId[];
    const fields = ids.map((id) => {
      const [unit, kind] = UNITS[id];
      const values = Array.from({ length: tube.edgeVertex.length }, (_, v) => {
        const turn = (2 * Math.PI * (v % tube.columns)) / tube.columns;
        // Off the skin at the back.
        const isOff = Math.cos(turn) < -0.9;
        if (id === 'gap') return isOff ? SIZES.gap : Number.NaN;
        return isOff ? Number.NaN : factor * SIZES[id] * (1 + 0.5 * Math.sin(turn) ** 2);
      });
      const isBanded = banded !== undefined && (unit === 'Pa' || unit === 'N/m');
      return pretendField(values, { id, unit, kind, ...(isBanded && { band: banded }) });
    });
    const cloth = {
      positions: tube.mesh.positions,
      triangles: tube.mesh.triangles,
      edgeVertex: tube.edgeVertex,
      vertexArea: tube.vertexArea,
    };
    return {
      fabricId,
      positions: cloth.positions,
      vertexArea: cloth.vertexArea,
      fields,
      bandFrom: banded ? 'reciprocity' : null,
      distance: fields.find(({ id }) => id === 'give')!.values.map((give) => -give),
      givenSkin: tube.mesh.positions,
      givenNormals: vertexNormals(tube.mesh),
      residual: atRest ? 5e-5 : 2e-2,
      atRest,
      findings: [],
      review: reviewOf(cloth, { girths: pretendGirths }, fields),
    };
  });
  return {
    skin: tube.mesh,
    known: {
      landmarks: {},
      floor: 0,
      forward: [0, 0, 1],
      regions: null,
      tissueDepth: new Float64Array(tube.edgeVertex.length).fill(0.02),
      foundation: new Float64Array(tube.edgeVertex.length).fill(2e6),
      tissueSource: new Uint8Array(tube.edgeVertex.length),
    },
    girths: [],
    bodyFindings: [],
    clothTriangles: tube.mesh.triangles,
    edgeVertex: tube.edgeVertex,
    garmentRows: [],
    cut: null,
    garmentFindings: [],
    worn,
    comparison: compareWorn(
      { ...worn[0]!, triangles: tube.mesh.triangles, edgeVertex: tube.edgeVertex },
      { girths: pretendGirths },
      worn[0]!.fields,
      worn[1]!.fields,
    ),
  };
}

/** What is known of that study before it is run. */
export const pretendSheet: StudySheet = {
  name: 'Pretend study',
  fabrics: ['first', 'second'].map((id) => ({
    id,
    name: id,
    lot: '1',
    date: '2025-01-01',
    invented: true,
    weight: '200 g/m²',
    thickness: '0.50 mm at 1.0 kPa',
    thicknessPressure: 1000,
    strips: [],
    around40: '4.0 N',
    bending: { warp: '5.0', weft: '5.0', bias: '5.0' },
    hasReturn: false,
    findings: [],
  })),
  friction: 0.3,
  frictionFrom: 'typed',
  flesh: { kind: 'foundation' },
  branch: 'load',
  edge: 0.008,
  garment: {
    region: 'trunk',
    from: 0.9,
    to: 1.14,
    girths: [{ at: 1, relaxed: 0.7 }],
    relaxedLength: 0.24,
    warp: 'along',
  },
  bodyKind: 'fitBody',
  measures: { stature: 1.68, bust: 0.92, underbust: 0.79, waist: 0.76, hip: 1.01, figure: 'female' },
  shape: {},
  tape: { placed: {}, lines: [] },
  tissue: { regions: [], strokes: [] },
};
