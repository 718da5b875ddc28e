import type { Body, Box } from '../body/body.ts';
import type { DistanceField } from '../body/distance-field.ts';
import type { Finding } from '../fault/finding.ts';
import { Fault } from '../fault/fault.ts';
import { trianglesBetween } from '../mesh/section.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { monotoneCubic, valueAt } from '../units/monotone-cubic.ts';
import { mmFromMetres } from '../units/units.ts';
import { checkTubeSheet } from './check-tube-sheet.ts';
import type { ClothLevel, Garment, GarmentRing } from './garment.ts';
import { layRing, regionSection, type LaidRing, type RingBody } from './lay-rings.ts';
import { checkLaidBands, tubeElastic, type TubeRows } from './tube-bands.ts';
import { tubeGrids, tubeParents, tubeTriangles, vertexCountOf, type TubeGrid } from './tube-grid.ts';
import { tubeLining } from './tube-linings.ts';
import { tubeRestShape, type TubeRestScale } from './tube-rest-shape.ts';
import type { TubeSheet } from './tube-sheet.ts';

/** Above this a study would not fit into memory on an ordinary machine. */
const MOST_VERTICES = 400_000;

/** Sections looked at to find how far the tube reaches sideways. */
const BOX_SECTIONS = 12;

/** A relaxed length this far from the body's own is worth a word. */
const LENGTH_RATIO = { least: 0.6, most: 1.3 };

/** A tube laid on a body, and the smooth skin it was laid on. */
export interface LaidTube {
  readonly garment: Garment;
  readonly skin: DistanceField;
  /** Of the finest mesh, lower hem first. */
  readonly laidRings: readonly LaidRing[];
}

/**
 * Knits a tube to the body's shape: each ring of the cloth is the body's ring scaled to the relaxed girth of the sheet,
 * lengths are scaled alike.
 *
 * ratio(y) = relaxed girth / body ring, interpolated between the sheet's levels (the ratio, not the girth);
 * rest length of a ring edge = ratio * laid length; of any other edge = hypot(ratio * part along the ring,
 * relaxed length / laid length * part across it).
 *
 * @param edge - Wanted edge length of the finest mesh, m.
 * @param laidBefore - Rings of another tube with the same hems on the same body, laid for the same edge length.
 * @throws {Fault} `garment/...` where the sheet and the body do not go together.
 */
export function makeTube(
  sheet: TubeSheet,
  body: Body,
  edge: number,
  laidBefore?: LaidTube['laidRings'],
): LaidTube {
  checkTubeSheet(sheet, edge);
  const skin = trianglesBetween(body.skin, sheet.from, sheet.to);
  const field = body.contactField(boxOfTube(sheet, skin));
  const ringBody: RingBody = { skin, field };
  const around = regionSection(skin, sheet.region, (sheet.from + sheet.to) / 2).length;
  const grids = tubeGrids(around, sheet.to - sheet.from, edge);
  const finest = grids.at(-1)!;
  refuseTooFine(finest, edge);
  const rings = laidBefore ?? layRings(sheet, ringBody, finest);
  const { ratios, findings } = girthRatios(sheet, ringBody, rings);
  const length = rowSteps(rings, finest).reduce((sum, step) => sum + step, 0);
  if (sheet.relaxedLength < LENGTH_RATIO.least * length || sheet.relaxedLength > LENGTH_RATIO.most * length) {
    findings.push({
      code: 'garment/length-far-from-body',
      facts: { relaxedMm: mmFromMetres(sheet.relaxedLength), bodyMm: mmFromMetres(length) },
    });
  }
  const scale = { ratios, along: sheet.relaxedLength / length, warp: sheet.warp };
  const rows = tubeRows(rings, ratios, finest);
  findings.push(...checkLaidBands(sheet.bands ?? [], rows));
  const levels = grids.map((grid) => withLayers(clothLevel(grid, rings, scale), sheet, rows, grid));
  const garment: Garment = {
    levels,
    warp: sheet.warp,
    rings: rings.map((ring, row): GarmentRing => ({
      at: ring.at,
      laid: ring.length,
      relaxed: ring.length * ratios[row]!,
    })),
    columnCount: finest.columnCount,
    findings,
  };
  return { garment, skin: field, laidRings: rings };
}

function layRings(sheet: TubeSheet, body: RingBody, grid: TubeGrid): LaidRing[] {
  return Array.from({ length: grid.rowCount + 1 }, (_, row) => {
    const at = sheet.from + ((sheet.to - sheet.from) * row) / grid.rowCount;
    return layRing(body, sheet.region, at, grid.columnCount);
  });
}

/** Relaxed over laid girth per ring; constant beyond the sheet's first and last level. */
function girthRatios(
  sheet: TubeSheet,
  body: RingBody,
  rings: readonly LaidRing[],
): { ratios: Float64Array; findings: Finding[] } {
  const pointCount = rings[0]!.points.length / 3;
  const findings: Finding[] = [];
  const measured = sheet.girths.map(({ at, relaxed }, index) => {
    const laid = layRing(body, sheet.region, at, pointCount).length;
    const facts = { relaxedMm: mmFromMetres(relaxed), bodyMm: mmFromMetres(laid) };
    if (relaxed < laid / 4) {
      throw new Fault('garment/girth-too-small', {
        index,
        ...facts,
        stretchPercent: 100 * (laid / relaxed - 1),
      });
    }
    if (relaxed > laid) findings.push({ code: 'garment/loose', facts: { atMm: mmFromMetres(at), ...facts } });
    return { at, ratio: relaxed / laid };
  });
  const first = measured[0]!;
  const last = measured.at(-1)!;
  const curve =
    measured.length > 1
      ? monotoneCubic(
          measured.map(({ at }) => at),
          measured.map(({ ratio }) => ratio),
        )
      : null;
  const ratioAt = (at: number) => {
    if (!curve || at <= first.at) return first.ratio;
    return at >= last.at ? last.ratio : valueAt(curve, at);
  };
  return { ratios: Float64Array.from(rings, ({ at }) => ratioAt(at)), findings };
}

/** Mean way along the skin from each ring to the next, m. */
function rowSteps(rings: readonly LaidRing[], grid: TubeGrid): number[] {
  return Array.from({ length: grid.rowCount }, (_, row) => {
    const lower = rings[row]!.points;
    const upper = rings[row + 1]!.points;
    let total = 0;
    for (let i = 0; i < lower.length; i += 3) {
      total += Math.hypot(
        upper[i]! - lower[i]!,
        upper[i + 1]! - lower[i + 1]!,
        upper[i + 2]! - lower[i + 2]!,
      );
    }
    return total / grid.columnCount;
  });
}

function tubeRows(rings: readonly LaidRing[], ratios: Float64Array, grid: TubeGrid): TubeRows {
  const along = new Float64Array(rings.length);
  rowSteps(rings, grid).forEach((step, row) => (along[row + 1] = along[row]! + step));
  return {
    at: Float64Array.from(rings, ({ at }) => at),
    along,
    laid: Float64Array.from(rings, ({ length }) => length),
    relaxed: Float64Array.from(rings, ({ length }, row) => length * ratios[row]!),
  };
}

/** Bands and linings on one level of the tube. */
function withLayers(level: ClothLevel, sheet: TubeSheet, rows: TubeRows, grid: TubeGrid): ClothLevel {
  const { positions } = level.mesh;
  return {
    ...level,
    ...(sheet.linings && { linings: sheet.linings.map((lining) => tubeLining(lining, rows, grid, level)) }),
    ...(sheet.bands && {
      elastics: sheet.bands.map((band) => tubeElastic(band, rows, { ...grid, positions })),
    }),
  };
}

function clothLevel(grid: TubeGrid, rings: readonly LaidRing[], scale: TubeRestScale): ClothLevel {
  const stride = rings[0]!.points.length / 3 / grid.columnCount;
  const rowStride = (rings.length - 1) / grid.rowCount;
  const positions = new Float64Array(3 * vertexCountOf(grid));
  const edgeVertex = new Uint8Array(vertexCountOf(grid));
  for (let row = 0; row <= grid.rowCount; row++) {
    const { points } = rings[row * rowStride]!;
    for (let column = 0; column < grid.columnCount; column++) {
      const from = 3 * column * stride;
      positions.set(points.subarray(from, from + 3), 3 * (row * grid.columnCount + column));
    }
  }
  edgeVertex.fill(1, 0, grid.columnCount);
  edgeVertex.fill(1, grid.rowCount * grid.columnCount);
  const triangles = tubeTriangles(grid);
  const ratios = Float64Array.from({ length: grid.rowCount + 1 }, (_, row) => scale.ratios[row * rowStride]!);
  const { restInverse, restArea } = tubeRestShape(grid, positions, { ...scale, ratios });
  return { mesh: { positions, triangles }, restInverse, restArea, parents: tubeParents(grid), edgeVertex };
}

/** The box that holds every ring, from the sections at a few heights. */
function boxOfTube(sheet: TubeSheet, skin: TriangleMesh): Box {
  const low: [number, number, number] = [Infinity, sheet.from, Infinity];
  const high: [number, number, number] = [-Infinity, sheet.to, -Infinity];
  for (let step = 0; step <= BOX_SECTIONS; step++) {
    const at = sheet.from + ((sheet.to - sheet.from) * step) / BOX_SECTIONS;
    const { points } = regionSection(skin, sheet.region, at);
    for (let i = 0; i < points.length; i += 2) {
      low[0] = Math.min(low[0], points[i]!);
      high[0] = Math.max(high[0], points[i]!);
      low[2] = Math.min(low[2], points[i + 1]!);
      high[2] = Math.max(high[2], points[i + 1]!);
    }
  }
  return { low, high };
}

function refuseTooFine(grid: TubeGrid, edge: number): void {
  const vertexCount = vertexCountOf(grid);
  if (vertexCount <= MOST_VERTICES) return;
  throw new Fault('garment/too-fine', {
    edgeMm: mmFromMetres(edge),
    vertexCount,
    mostVertices: MOST_VERTICES,
  });
}
