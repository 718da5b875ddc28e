import type { PlaceMm } from '../fault/body-faults.ts';
import { Fault } from '../fault/fault.ts';
import { extentOf } from '../mesh/extent.ts';
import { closeHoles, holesOf, type Hole } from '../mesh/mend-holes.ts';
import { turnFacesOut } from '../mesh/mend-orientation.ts';
import { FREE, splitFans, stitchesOf } from '../mesh/mend-stitches.ts';
import { METRES_PER_MESH_UNIT, type MeshScene } from '../mesh/mesh-scene.ts';
import { refineEdges } from '../mesh/refine-edges.ts';
import { selfIntersections } from '../mesh/self-intersections.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { triple, type Triple } from '../mesh/triple.ts';
import { metresFromMm, mmFromMetres } from '../units/units.ts';
import { placed, turnTo } from './import-axes.ts';
import type { ImportChoices } from './import-choices.ts';
import type {
  ImportedMesh,
  ImportPlacing,
  ImportProgress,
  ImportStep,
  ImportStepFacts,
  ImportStepKind,
} from './import-report.ts';
import { findSkin, type FoundSkin } from './import-skin.ts';
import { requirePossibleHeight } from './mesh-body.ts';

/** A refined skin is not let grow beyond this: finer does not change a fit. */
const MOST_TRIANGLES = 1_000_000;
/** Taller bodies are whole ones and stand on the floor; others keep their height, m. */
const WHOLE_HEIGHT = 1.2;
const isWhole = (height: number): boolean => height >= WHOLE_HEIGHT;
/** Where the lowest point of a standing body may be over its floor, m. */
const FLOOR = [-0.02, 0.15] as const;
/** A hole this wide is no cut but a missing piece, share of the height... */
const WIDE_HOLE = 1 / 3;
/** ...save within this share of the height from an end, where necks, feet and the foot of a bust are cut. */
const END_SHARE = 0.12;
/** Longer rims are refused too: filling grows with the square of it. */
const LONGEST_RIM = 3000;

/**
 * Makes a body's mesh of what a file holds: placed, seams joined, the skin chosen, faces turned outwards, holes closed,
 * coarse places refined, cuts through itself counted. What was done stands in the report; the scene is not changed.
 *
 * @param known - The largest surface, if `findSkin` has found it for the guess already.
 * @yields where it stands, often enough to stop it between.
 * @throws {Fault} `body/axes-not-square`, `body/wrong-size`, `body/too-wide`, `mesh/no-triangles`, `body/no-such-part`.
 */
export function* importBody(
  scene: MeshScene,
  choices: ImportChoices,
  known?: FoundSkin,
): Generator<ImportProgress, ImportedMesh> {
  const turn = turnTo(choices.up, choices.front);
  requirePart(scene, choices.part);
  yield { doing: 'placing', share: 0 };
  const steps: ImportStep[] = [readStep(scene)];
  const found =
    known !== undefined && choices.part === 'largest' ? known : yield* findSkin(scene, choices.part);
  if (found.mesh.triangles.length === 0) throw new Fault('mesh/no-triangles', { vertexCount: 0 });
  const scale = METRES_PER_MESH_UNIT[choices.unit];
  steps.push(...findingSteps(found, scale));
  const turned = placed(found.mesh, turn, scale);
  const height = heightOf(turned);
  requirePossibleHeight(height);
  requirePossibleWidth(turned);
  const shift = shiftOf(turned, height);
  const standing = shifted(turned, shift);
  steps.push(...placingSteps(scene, choices, { height, shift }));
  yield { doing: 'turning', share: 0 };
  const faced = facedOut(standing, found.crowdedCount, steps);
  yield { doing: 'closing', share: 0 };
  const filled = yield* holesClosed(faced, choices.closeHoles, height, steps);
  const refined = yield* refinedSkin(filled.mesh, choices.refineEdgeMm, steps);
  yield* cutsCounted(refined, steps);
  const placing: ImportPlacing = { scale, turn, shift };
  return { mesh: refined, report: { steps, placing, closed: filled.closed } };
}

function requirePart({ parts }: MeshScene, part: number | 'largest'): void {
  if (part === 'largest' || parts[part] !== undefined) return;
  throw new Fault('body/no-such-part', {
    wanted: String(part),
    known: parts.slice(0, 20).map(({ name }) => name),
  });
}

const step = <K extends ImportStepKind>(kind: K, facts: ImportStepFacts[K]): ImportStep =>
  // The union cannot be seen through a generic kind; the pair is right by the signature.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  ({ kind, facts }) as ImportStep;

function readStep({ format, parts, passedOver }: MeshScene): ImportStep {
  const count = (of: 'positions' | 'triangles'): number =>
    parts.reduce((sum, { mesh }) => sum + mesh[of].length / 3, 0);
  return step('read', {
    format,
    partCount: parts.length,
    vertexCount: count('positions'),
    triangleCount: count('triangles'),
    passedOver,
  });
}

/** What it took to find the skin. */
function findingSteps(found: FoundSkin, scale: number): ImportStep[] {
  const { equalCount, nearCount, flatCount, doubledCount } = found;
  return [
    ...(equalCount + nearCount > 0
      ? [step('welded', { equalCount, nearCount, toleranceMm: mmFromMetres(found.tolerance * scale) })]
      : []),
    ...(flatCount + doubledCount > 0 ? [step('faces-removed', { flatCount, doubledCount })] : []),
    step('skin-chosen', {
      names: found.names,
      triangleCount: found.mesh.triangles.length / 3,
      pieceCount: found.pieceCount,
      areaShare: found.areaShare,
    }),
    ...found.dropped.map((dropped) => step('part-dropped', dropped)),
  ];
}

function placingSteps(
  scene: MeshScene,
  { unit, up, front }: ImportChoices,
  { height, shift }: { height: number; shift: Triple },
): ImportStep[] {
  const { xMm, yMm, zMm } = placeMm(shift);
  return [
    step('scaled', { unit, stated: scene.unit, heightMm: mmFromMetres(height) }),
    ...(up === '+y' && front === '+z' ? [] : [step('turned', { up, front })]),
    ...(shift.some((way) => way !== 0) ? [step('moved', { xMm, yMm, zMm, floor: shift[1] !== 0 })] : []),
  ];
}

/** Whoever stands less than 3 m high does not reach farther than that to the sides. */
const WIDEST = 3;

function requirePossibleWidth(mesh: TriangleMesh): void {
  const { low, high } = extentOf(mesh);
  const width = Math.max(high[0] - low[0], high[2] - low[2]);
  if (width <= WIDEST) return;
  throw new Fault('body/too-wide', { widthMm: mmFromMetres(width), mostMm: mmFromMetres(WIDEST) });
}

function heightOf(mesh: TriangleMesh): number {
  const { low, high } = extentOf(mesh);
  return high[1] - low[1];
}

/**
 * Middle over the origin; feet onto the floor, unless the file's own origin is a floor already (forms are cut off at the
 * ankle). Ways below 0.05 mm are not gone.
 */
function shiftOf(mesh: TriangleMesh, height: number): Triple {
  const { low, high } = extentOf(mesh);
  const shift: Triple = [
    -(low[0] + high[0]) / 2,
    isWhole(height) && !(low[1] >= FLOOR[0] && low[1] <= FLOOR[1]) ? -low[1] : 0,
    -(low[2] + high[2]) / 2,
  ];
  return triple((k) => (Math.abs(shift[k]!) < 5e-5 ? 0 : shift[k]!));
}

function shifted({ positions, triangles }: TriangleMesh, shift: Triple): TriangleMesh {
  return { positions: positions.map((value, i) => value + shift[i % 3]!), triangles };
}

/** Faces outwards, sheets that only touch set apart. */
function facedOut(mesh: TriangleMesh, crowdedCount: number, steps: ImportStep[]): TriangleMesh {
  const { mesh: turned, stitches, turnedCount, cutCount } = turnFacesOut(mesh, stitchesOf(mesh));
  if (crowdedCount + cutCount > 0) {
    steps.push(step('sheets-parted', { edgeCount: crowdedCount, twistedCount: cutCount }));
  }
  if (turnedCount > 0) {
    const whole = turnedCount === mesh.triangles.length / 3;
    steps.push(step('faces-turned', { triangleCount: turnedCount, whole }));
  }
  return splitFans(turned, stitches);
}

/* oxlint-disable-next-line max-params -- the report is written as it goes */
function* holesClosed(
  mesh: TriangleMesh,
  wished: boolean,
  height: number,
  steps: ImportStep[],
): Generator<ImportProgress, { mesh: TriangleMesh; closed: boolean }> {
  const stitches = stitchesOf(mesh);
  if (!stitches.across.includes(FREE)) return { mesh, closed: true };
  const { mesh: open, holes } = holesOf(mesh, stitches);
  const { low, high } = extentOf(open);
  const isWide = (hole: Hole): boolean => {
    const across = Math.hypot(...hole.high.map((value, k) => value - hole.low[k]!));
    const margin = END_SHARE * height;
    const isAtEnd = hole.low[1] > high[1] - margin || hole.high[1] < low[1] + margin;
    return hole.vertices.length > LONGEST_RIM || (across > WIDE_HOLE * height && !isAtEnd);
  };
  const toClose = wished ? holes.filter((hole) => !isWide(hole)) : [];
  const work = closeHoles(open, toClose);
  let next = work.next();
  while (!next.done) {
    yield { doing: 'closing', share: next.value };
    next = work.next();
  }
  const { mesh: filled, addedCounts } = next.value;
  for (const hole of holes) {
    const at = toClose.indexOf(hole);
    const place = placeMm(hole.middle);
    steps.push(
      step('hole', {
        edgeCount: hole.vertices.length,
        perimeterMm: mmFromMetres(hole.perimeter),
        heightMm: place.yMm,
        place,
        done: at >= 0 ? 'closed' : wished ? 'too wide' : 'left',
        addedCount: addedCounts[at] ?? 0,
      }),
    );
  }
  return { mesh: filled, closed: !stitchesOf(filled).across.includes(FREE) };
}

function* refinedSkin(
  mesh: TriangleMesh,
  wishedMm: number | null,
  steps: ImportStep[],
): Generator<ImportProgress, TriangleMesh> {
  if (wishedMm === null) return mesh;
  const work = refineEdges(mesh, metresFromMm(wishedMm), MOST_TRIANGLES);
  let next = work.next();
  while (!next.done) {
    yield { doing: 'refining', share: next.value };
    next = work.next();
  }
  const { mesh: refined, longestBefore, longestAfter, cutShort } = next.value;
  const addedCount = (refined.triangles.length - mesh.triangles.length) / 3;
  if (addedCount > 0 || cutShort) {
    steps.push(
      step('refined', {
        wishedMm,
        longestBeforeMm: mmFromMetres(longestBefore),
        longestAfterMm: mmFromMetres(longestAfter),
        triangleCount: refined.triangles.length / 3,
        addedCount,
        cutShort,
      }),
    );
  }
  return refined;
}

function* cutsCounted(mesh: TriangleMesh, steps: ImportStep[]): Generator<ImportProgress, void> {
  const work = selfIntersections(mesh);
  let next = work.next();
  while (!next.done) {
    yield { doing: 'looking for cuts', share: next.value };
    next = work.next();
  }
  const { pairCount, at, complete } = next.value;
  steps.push(step('self-intersections', { pairCount, at: at === null ? null : placeMm(at), complete }));
}

const placeMm = ([x, y, z]: Triple): PlaceMm => ({
  xMm: mmFromMetres(x),
  yMm: mmFromMetres(y),
  zMm: mmFromMetres(z),
});
