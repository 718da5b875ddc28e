import { facesToKeep, withoutFaces } from '../mesh/mend-faces.ts';
import { joinSeams } from '../mesh/mend-seams.ts';
import { piecesOf, stitchesOf } from '../mesh/mend-stitches.ts';
import { keptTriangles, mergeMeshes } from '../mesh/merge-meshes.ts';
import type { MeshScene } from '../mesh/mesh-scene.ts';
import { triangleAreas } from '../mesh/triangle-areas.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { triple, type Triple } from '../mesh/triple.ts';
import type { DropReason, ImportProgress } from './import-report.ts';

/** The surface taken for the skin, and what was done to find it. Unit and axes of the file. */
export interface FoundSkin {
  /** One piece; seams joined, no triangle twice. */
  readonly mesh: TriangleMesh;
  /** Of the parts it is made of. */
  readonly names: readonly string[];
  readonly areaShare: number;
  readonly nextShare: number;
  readonly pieceCount: number;
  readonly equalCount: number;
  readonly nearCount: number;
  readonly tolerance: number;
  readonly flatCount: number;
  readonly doubledCount: number;
  readonly crowdedCount: number;
  readonly dropped: readonly DroppedPart[];
}

/** Pieces of one name, left out for one reason. */
export interface DroppedPart {
  readonly name: string;
  readonly why: DropReason;
  readonly triangleCount: number;
  readonly pieceCount: number;
}

/** Names that body files give to what is not skin; common practice of those who make them. */
const NO_SKIN =
  /eye|lash|brow|teeth|tooth|tongue|\bgums?\b|hair|helper|joint|cornea|shoe|garment|cloth|ground|floor/i;
/** Names of the skin. */
const SKIN = /skin|body|human|figure|torso/i;
/** A surface called skin wins over one half as large again that is not. */
const NAME_WEIGHT = 1.5;

/** Of so many pieces, the largest, it is found out whether they lie inside. */
const MOST_LOOKED_INTO = 64;

/**
 * Joins the seams of what the file holds and takes the largest surface that hangs together for the skin. The largest one
 * can be handed to `guessImport` and `importBody`, which otherwise find it themselves.
 */
export function* findSkin(scene: MeshScene, part: number | 'largest'): Generator<ImportProgress, FoundSkin> {
  yield { doing: 'welding', share: 0 };
  const isChosen = (p: number): boolean => part === 'largest' || part === p;
  const numbers = scene.parts.map((_, p) => p).filter(isChosen);
  const merged = mergeMeshes(numbers.map((p) => scene.parts[p]!.mesh));
  const seams = joinSeams(merged.mesh);
  yield { doing: 'welding', share: 0.7 };
  const faces = facesToKeep(seams.mesh);
  const mesh = withoutFaces(seams.mesh, faces);
  const partOf = merged.sourceOf.filter((_, t) => faces.isKept[t] === 1).map((source) => numbers[source]!);
  const stitches = stitchesOf(mesh);
  yield { doing: 'choosing', share: 0 };
  const pieces = piecesIn(mesh, partOf, piecesOf(stitches));
  const names = scene.parts.map(({ name }) => name);
  const { chosen, order } = chooseSkin(pieces, names);
  yield { doing: 'choosing', share: 0.5 };
  const skin = keptTriangles(
    mesh,
    pieces.pieceOf.map((piece) => Number(piece === chosen)),
  );
  const area = pieces.area.reduce((sum, value) => sum + value, 0);
  const next = order.find((piece) => piece !== chosen && !NO_SKIN.test(names[pieces.firstPart[piece]!]!));
  const skinParts = new Set(partOf.filter((_, t) => pieces.pieceOf[t] === chosen));
  const others = scene.parts.flatMap(({ name, mesh: { triangles } }, p) =>
    isChosen(p)
      ? []
      : [{ name, why: 'not chosen' as const, triangleCount: triangles.length / 3, pieceCount: 1 }],
  );
  return {
    mesh: skin,
    names: [...skinParts].map((p) => names[p]!),
    areaShare: area > 0 ? pieces.area[chosen]! / area : 1,
    nextShare: next === undefined ? 0 : pieces.area[next]! / (pieces.area[chosen]! || 1),
    pieceCount: pieces.area.length,
    equalCount: seams.equalCount,
    nearCount: seams.nearCount,
    tolerance: seams.tolerance,
    flatCount: faces.flatCount,
    doubledCount: faces.doubledCount,
    crowdedCount: stitches.crowdedCount,
    dropped: [...droppedPieces(mesh, skin, { pieces, names, chosen, order }), ...others],
  };
}

interface Pieces {
  readonly pieceOf: Int32Array;
  /** Per piece. */
  readonly area: Float64Array;
  readonly triangleCount: Uint32Array;
  readonly firstTriangle: Int32Array;
  readonly firstPart: Uint32Array;
}

function piecesIn(
  mesh: TriangleMesh,
  partOf: Uint32Array,
  { pieceOf, pieceCount }: ReturnType<typeof piecesOf>,
): Pieces {
  const areas = triangleAreas(mesh);
  const pieces = {
    pieceOf,
    area: new Float64Array(pieceCount),
    triangleCount: new Uint32Array(pieceCount),
    firstTriangle: new Int32Array(pieceCount).fill(-1),
    firstPart: new Uint32Array(pieceCount),
  };
  pieceOf.forEach((piece, t) => {
    pieces.area[piece]! += areas[t]!;
    pieces.triangleCount[piece]!++;
    if (pieces.firstTriangle[piece]! >= 0) return;
    pieces.firstTriangle[piece] = t;
    pieces.firstPart[piece] = partOf[t]!;
  });
  return pieces;
}

/** The piece taken for the skin, and all pieces by area, the largest first. */
function chooseSkin(
  { area, firstPart }: Pieces,
  names: readonly string[],
): { chosen: number; order: number[] } {
  const order = Array.from(area, (_, piece) => piece).sort((a, b) => area[b]! - area[a]!);
  const weight = (piece: number): number =>
    area[piece]! * (SKIN.test(names[firstPart[piece]!]!) ? NAME_WEIGHT : 1);
  const candidates = order.filter((piece) => !NO_SKIN.test(names[firstPart[piece]!]!));
  const all = candidates.length > 0 ? candidates : order;
  return {
    order,
    chosen: all.reduce((best, piece) => (weight(piece) > weight(best) ? piece : best), all[0] ?? 0),
  };
}

function droppedPieces(
  mesh: TriangleMesh,
  skin: TriangleMesh,
  found: { pieces: Pieces; names: readonly string[]; chosen: number; order: readonly number[] },
): DroppedPart[] {
  const { pieces, names, chosen, order } = found;
  const dropped = new Map<string, { -readonly [K in keyof DroppedPart]: DroppedPart[K] }>();
  let lookedInto = 0;
  for (const piece of order) {
    if (piece === chosen) continue;
    const name = names[pieces.firstPart[piece]!]!;
    let why: DropReason = NO_SKIN.test(name) ? 'named' : 'smaller';
    if (why === 'smaller' && lookedInto < MOST_LOOKED_INTO) {
      lookedInto++;
      if (isInside(skin, pointOn(mesh, pieces.firstTriangle[piece]!))) why = 'inside';
    }
    const entry = dropped.get(`${why} ${name}`) ?? { name, why, triangleCount: 0, pieceCount: 0 };
    entry.triangleCount += pieces.triangleCount[piece]!;
    entry.pieceCount++;
    dropped.set(`${why} ${name}`, entry);
  }
  return [...dropped.values()];
}

/** A point on a triangle that no symmetry of a mesh puts over an edge of it. */
const pointOn = ({ positions, triangles }: TriangleMesh, t: number): Triple =>
  triple((k) => {
    const corner = (i: number): number => positions[3 * triangles[3 * t + i]! + k]!;
    return 0.3137 * corner(0) + 0.3329 * corner(1) + 0.3534 * corner(2);
  });

/** Whether the point lies inside the skin by the number of crossings along most of the three axes, holes or not. */
function isInside(skin: TriangleMesh, point: Triple): boolean {
  let axes = 0;
  for (let k = 0; k < 3; k++) axes += crossings(skin, point, k) % 2;
  return axes >= 2;
}

/** How often the way from a point along axis k crosses the skin. */
function crossings({ positions, triangles }: TriangleMesh, point: Triple, k: number): number {
  const [u, v] = [(k + 1) % 3, (k + 2) % 3];
  const [pu, pv, pk] = [point[u]!, point[v]!, point[k]!];
  let count = 0;
  for (let i = 0; i < triangles.length; i += 3) {
    let sides = 0;
    let height = 0;
    let area = 0;
    for (let c = 0; c < 3; c++) {
      const a = 3 * triangles[i + c]!;
      const b = 3 * triangles[i + ((c + 1) % 3)]!;
      const across =
        (positions[a + u]! - pu) * (positions[b + v]! - pv) -
        (positions[b + u]! - pu) * (positions[a + v]! - pv);
      sides += across > 0 ? 1 : -1;
      area += across;
      height += across * positions[3 * triangles[i + ((c + 2) % 3)]! + k]!;
    }
    if (Math.abs(sides) === 3 && height / area > pk) count++;
  }
  return count;
}
