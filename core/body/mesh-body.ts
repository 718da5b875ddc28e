import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { extentOf } from '../mesh/extent.ts';
import { meanEdgeLength, meshEdges, type MeshEdges } from '../mesh/mesh-edges.ts';
import { sectionAt } from '../mesh/section.ts';
import {
  freeEdgeCount,
  pieceCount,
  pinchedVertexCount,
  requireClosed,
  requireUsable,
} from '../mesh/soundness.ts';
import { enclosedVolume, triangleAreas } from '../mesh/triangle-areas.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { seamTolerance, weld } from '../mesh/weld.ts';
import { kPaFromPascals, mmFromMetres } from '../units/units.ts';
import type { TapeReading } from './body-tape.ts';
import { NEAR_RIGID, type Body, type Girth } from './body.ts';
import { creaseFindings } from './crease-finding.ts';
import { defaultSpacing, gridFromMesh } from './grid-from-mesh.ts';
import { liftedSurface } from './lifted-surface.ts';
import { grownBox } from './node-lattice.ts';
import { findLandmarks } from './landmark-find.ts';
import { measureBody } from './measure-body.ts';
import { regionsOf } from './region-map.ts';
import { tapeGirth } from './tape-girth.ts';
import { sourceFilled, type TissueSource } from './tissue-map.ts';
import { tissueOfMesh } from './tissue-of-mesh.ts';
import type { UpAxis } from './turn-up.ts';

/** A body as it comes from a file. */
export interface MeshBodyChoice {
  /** In m, y up. */
  readonly skin: TriangleMesh;
  readonly sourceUp: UpAxis;
  /**
   * Depth in m and effective foundation modulus in Pa: the flesh gives by pressure * depth / modulus. `transferred`:
   * as the fit body of the same measures has it, by landmarks; a mesh on which no person is seen is then taken as
   * rigid.
   */
  readonly tissue: 'rigid' | 'transferred' | { readonly depth: number; readonly foundationModulus: number };
}

/** How far beyond the box asked for the contact field stays valid, m. */
const FIELD_MARGIN = 0.06;

/** From a wrist to a very tall person; outside of it the unit is wrong, m. */
const HEIGHTS = [0.05, 3] as const;

/** Longer edges than this and the grid cannot take all facets away, m. */
const COARSE_EDGE = 0.012;

/**
 * A body made of a mesh: checked, turned outward, measured, with a smooth contact field.
 *
 * A mesh with free edges has its doubled vertices joined first. A standing person has its landmarks found and is
 * measured as a tape would; of anything else the girths are those of the main loop at the largest and smallest place
 * and at quarters of the height.
 *
 * @throws {Fault} `mesh/...` where the surface is unsound, `body/wrong-size`, `body/bad-tissue`.
 */
export function makeMeshBody(choice: MeshBodyChoice): Body {
  const { skin, edges, findings } = soundSkin(choice.skin);
  const { low, high } = extentOf(skin);
  requirePossibleHeight(high[1] - low[1]);
  requirePossibleTissue(choice.tissue);
  const surface = liftedSurface(skin);
  const person = personOf(skin);
  const flesh = fleshOf(choice.tissue, { ...person, skin });
  return {
    skin,
    sourceUp: choice.sourceUp,
    ...flesh.of,
    ...person,
    girths: person.regions === null ? mainGirths(skin, low[1], high[1]) : person.girths,
    findings: [
      ...findings,
      ...doubts(skin, edges),
      ...creaseFindings(surface, defaultSpacing(skin, { low, high })),
      ...person.findings,
      flesh.finding,
    ],
    contactField: (box) => {
      const field = grownBox(box, FIELD_MARGIN);
      return gridFromMesh(surface, field, defaultSpacing(skin, field));
    },
  };
}

/** What a mesh shows of a standing person; of anything else neither landmarks nor regions, without a word. */
function personOf(
  skin: TriangleMesh,
): Pick<Body, 'landmarks' | 'floor' | 'forward' | 'regions' | 'girths' | 'findings'> {
  const found = findLandmarks(skin);
  const regions = regionsOf(skin, found);
  if (regions === null) return { ...found, regions, girths: [], findings: [] };
  const { readings, findings } = measureBody(skin, { known: found });
  return { ...found, regions, girths: girthsOf(readings), findings };
}

/** Girths of trunk and legs, of both legs the mean; arms' girths lie across the arms and are no level of the body. */
function girthsOf(readings: readonly TapeReading[]): Girth[] {
  const level = readings.filter(({ line }) => line.normal[1] === 1);
  return [...new Set(level.map(({ line }) => line.name))].map((name) => {
    const own = level.filter(({ line }) => line.name === name);
    const mean = (value: (reading: TapeReading) => number): number =>
      own.reduce((sum, reading) => sum + value(reading), 0) / own.length;
    return { name, level: mean(({ line }) => line.center[1]), girth: mean(({ girth }) => girth) };
  });
}

/** The skin closed and facing outwards, or a fault. */
function soundSkin(read: TriangleMesh): { skin: TriangleMesh; edges: MeshEdges; findings: Finding[] } {
  requireUsable(read);
  const findings: Finding[] = [];
  let skin = read;
  let edges = meshEdges(skin);
  if (freeEdgeCount(edges) > 0) {
    const { mesh, joinedCount } = weld(read, seamTolerance(read.positions));
    if (joinedCount > 0) {
      skin = mesh;
      edges = meshEdges(skin);
      findings.push({ code: 'body/joined-vertices', facts: { vertexCount: joinedCount } });
    }
  }
  requireUsable(skin);
  requireClosed(skin, edges);
  if (enclosedVolume(skin) < 0) {
    skin = { positions: skin.positions, triangles: turnedOver(skin.triangles) };
    edges = meshEdges(skin);
    findings.push({ code: 'body/turned-outward', facts: { triangleCount: skin.triangles.length / 3 } });
  }
  return { skin, edges, findings };
}

function turnedOver(triangles: Uint32Array): Uint32Array {
  const turned = triangles.slice();
  for (let i = 0; i < turned.length; i += 3) {
    turned[i + 1] = triangles[i + 2]!;
    turned[i + 2] = triangles[i + 1]!;
  }
  return turned;
}

/** What the mesh leaves in doubt. */
function doubts(skin: TriangleMesh, edges: MeshEdges): Finding[] {
  const findings: Finding[] = [];
  const pieces = pieceCount(skin, edges);
  if (pieces > 1) findings.push({ code: 'body/several-pieces', facts: { pieceCount: pieces } });
  const pinched = pinchedVertexCount(skin, edges);
  if (pinched > 0) findings.push({ code: 'body/pinched', facts: { vertexCount: pinched } });
  const flat = triangleAreas(skin).reduce((count, area) => count + Number(area < 1e-14), 0);
  if (flat > 0) findings.push({ code: 'body/no-area', facts: { triangleCount: flat } });
  const edge = meanEdgeLength(skin, edges);
  if (edge > COARSE_EDGE) {
    const edgeMm = mmFromMetres(edge);
    findings.push({ code: 'body/coarse-skin', facts: { edgeMm, finestMm: Math.max(15, 2 * edgeMm) } });
  }
  return findings;
}

/** Depth and stiffness of every vertex, and what is to be said of them. */
function fleshOf(
  tissue: MeshBodyChoice['tissue'],
  person: Pick<Body, 'skin' | 'landmarks' | 'floor' | 'forward' | 'regions' | 'girths'>,
): { of: Pick<Body, 'tissueDepth' | 'foundation' | 'tissueSource'>; finding: Finding } {
  const vertexCount = person.skin.positions.length / 3;
  const even = (depth: number, stiffness: number, source: TissueSource) => ({
    tissueDepth: new Float64Array(vertexCount).fill(depth),
    foundation: new Float64Array(vertexCount).fill(stiffness),
    tissueSource: sourceFilled(source, vertexCount),
  });
  const { regions } = person;
  if (tissue === 'transferred' && regions !== null) {
    const { depth, modulus, isToMeasure } = tissueOfMesh({ ...person, regions });
    const of = {
      tissueDepth: depth,
      foundation: depth.map((value) => modulus / value),
      tissueSource: sourceFilled('transferred', vertexCount),
    };
    const facts = { modulusKPa: kPaFromPascals(modulus), isToMeasure };
    return { of, finding: { code: 'body/tissue-transferred', facts } };
  }
  if (tissue === 'rigid' || tissue === 'transferred') {
    // NEAR_RIGID is in Pa/m; 1 kPa per mm = 1e6 Pa/m.
    const facts = { stiffnessKPaPerMm: NEAR_RIGID / 1e6 };
    return { of: even(0, NEAR_RIGID, 'rigid'), finding: { code: 'body/taken-as-rigid', facts } };
  }
  const { depth, foundationModulus } = tissue;
  const facts = { depthMm: mmFromMetres(depth), modulusKPa: kPaFromPascals(foundationModulus) };
  return {
    of: even(depth, foundationModulus / depth, 'even'),
    finding: { code: 'body/tissue-even', facts },
  };
}

/**
 * Makes sure that a body is neither a crumb nor a house, as it is when the unit is wrong.
 *
 * @throws {Fault} `body/wrong-size`.
 */
export function requirePossibleHeight(height: number): void {
  const [lowest, highest] = HEIGHTS;
  if (height >= lowest && height <= highest) return;
  throw new Fault('body/wrong-size', {
    heightMm: mmFromMetres(height),
    lowestMm: mmFromMetres(lowest),
    highestMm: mmFromMetres(highest),
  });
}

function requirePossibleTissue(tissue: MeshBodyChoice['tissue']): void {
  if (tissue === 'rigid' || tissue === 'transferred') return;
  const depthMm = mmFromMetres(tissue.depth);
  const modulusKPa = kPaFromPascals(tissue.foundationModulus);
  const isDepth = depthMm >= 1 && depthMm <= 200;
  const isModulus = modulusKPa >= 0.5 && modulusKPa <= 1000;
  if (!isDepth || !isModulus) throw new Fault('body/bad-tissue', { depthMm, modulusKPa });
}

/** Heights at which the main loop is measured when looking for its largest and smallest girth. */
const LEVEL_COUNT = 40;

/**
 * Girths of the largest loop: largest and smallest (between a tenth and nine tenths of the height), and at the
 * quarters; lowest first.
 */
function mainGirths(skin: TriangleMesh, low: number, high: number): Girth[] {
  const girthAt = (name: string, share: number): Girth | null => {
    const level = low + share * (high - low);
    const main = sectionAt(skin, level)[0];
    return main === undefined ? null : { name, level, girth: tapeGirth(main) };
  };
  const shares = Array.from({ length: LEVEL_COUNT + 1 }, (_, i) => 0.1 + (0.8 * i) / LEVEL_COUNT);
  const sampled = shares.map((share) => girthAt('', share)).filter((girth) => girth !== null);
  const byGirth = sampled.toSorted((one, other) => one.girth - other.girth);
  const smallest = byGirth[0];
  const largest = byGirth.at(-1);
  return [
    girthAt('lowerQuarter', 0.25),
    girthAt('middle', 0.5),
    girthAt('upperQuarter', 0.75),
    smallest === undefined ? null : { ...smallest, name: 'smallestGirth' },
    largest === undefined ? null : { ...largest, name: 'largestGirth' },
  ]
    .filter((girth) => girth !== null)
    .sort((one, other) => one.level - other.level);
}
