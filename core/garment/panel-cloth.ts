import type { DistanceField } from '../body/distance-field.ts';
import { triple } from '../mesh/triple.ts';
import { freeEdges, type Pattern } from '../pattern/pattern.ts';
import { centreVertices, chainOf, type SewnLevel } from '../pattern/sew-pattern.ts';
import { sewnMesh, type SewnMesh } from '../pattern/sewn-mesh.ts';
import type { ClothLevel } from './garment.ts';
import { outwardLooks, panelSums, type LaidPattern } from './place-pattern.ts';
import { setRestShape } from './rest-shape.ts';

/** Cloth cut from panels, and where the pattern's parts are to be found in it. */
export interface PanelCloth {
  /** Coarsest first. */
  readonly levels: readonly ClothLevel[];
  /** Index of each finest triangle's panel in the pattern; the mirrored half after the drawn one. */
  readonly panelOf: Uint8Array;
  /** Of each level: the number of each drawn vertex, and of its mirror image (itself on the centre or where nothing is mirrored). */
  readonly numbers: readonly { readonly drawn: Uint32Array; readonly mirrored: Uint32Array }[];
}

/**
 * Cloth of a laid pattern: the drawn half and its mirror image, each triangle unstretched as it lies in its flat panel.
 *
 * Vertices are numbered from low to high as laid, which keeps neighbours close in memory.
 */
export function panelCloth(
  pattern: Pattern,
  sewn: readonly SewnLevel[],
  laid: LaidPattern,
  field: DistanceField,
): PanelCloth {
  const meshes = sewn.map(sewnMesh);
  const coarsest = meshes[0]!;
  const looks = panelSums(coarsest, outwardLooks(coarsest, laid.positions[0]!, field));
  const levels: ClothLevel[] = [];
  const numbers: { drawn: Uint32Array; mirrored: Uint32Array }[] = [];
  let panelOf: Uint8Array = new Uint8Array(0);
  sewn.forEach((level, l) => {
    const mesh = meshes[l]!;
    const own = numbered(pattern, level, laid.positions[l]!);
    const made = levelOf(pattern, { level, mesh, looks, positions: laid.positions[l]!, ...own });
    levels.push({ ...made.level, parents: parentsOf(level, own, numbers[l - 1]) });
    numbers.push({ drawn: own.drawn, mirrored: own.mirrored });
    panelOf = made.panelOf;
  });
  return { levels, panelOf, numbers };
}

interface Numbered {
  readonly drawn: Uint32Array;
  readonly mirrored: Uint32Array;
  readonly vertexCount: number;
  readonly onCentre: Uint8Array;
}

/** Numbers drawn vertices and mirror images from low to high. */
function numbered(pattern: Pattern, level: SewnLevel, positions: Float64Array): Numbered {
  const { vertexCount } = level;
  const isMirrored = pattern.centre.length > 0;
  const onCentre = centreVertices(pattern, level);
  const byHeight = Uint32Array.from({ length: vertexCount }, (_, v) => v).toSorted(
    (a, b) => positions[3 * a + 1]! - positions[3 * b + 1]! || a - b,
  );
  const drawn = new Uint32Array(vertexCount);
  const mirrored = new Uint32Array(vertexCount);
  let next = 0;
  for (const v of byHeight) {
    drawn[v] = next++;
    mirrored[v] = isMirrored && !onCentre[v] ? next++ : drawn[v];
  }
  return { drawn, mirrored, vertexCount: next, onCentre };
}

interface LevelParts extends Numbered {
  readonly level: SewnLevel;
  readonly mesh: SewnMesh;
  /** Which way each panel looks as drawn: below 0 inwards. */
  readonly looks: Float64Array;
  readonly positions: Float64Array;
}

function levelOf(
  pattern: Pattern,
  { level, mesh, looks, positions, drawn, mirrored, vertexCount, onCentre }: LevelParts,
): { level: Omit<ClothLevel, 'parents'>; panelOf: Uint8Array } {
  const halves = pattern.centre.length > 0 ? 2 : 1;
  const half = mesh.panel.length;
  const laid = new Float64Array(3 * vertexCount);
  drawn.forEach((own, v) => {
    const [x, y, z] = triple((k) => positions[3 * v + k]!);
    const [right, left] = onCentre[v] ? [0, 0] : [-x, x];
    if (mirrored[v] !== own) laid.set([right, y, z], 3 * mirrored[v]!);
    laid.set([left, y, z], 3 * own);
  });
  const triangles = new Uint32Array(3 * halves * half);
  const shape = {
    restInverse: new Float64Array(4 * halves * half),
    restArea: new Float64Array(halves * half),
  };
  for (let t = 0; t < half; t++) {
    const p = mesh.panel[t]!;
    const order = looks[p]! < 0 ? ([0, 2, 1] as const) : ([0, 1, 2] as const);
    for (let side = 0; side < halves; side++) {
      const number = side === 0 ? drawn : mirrored;
      // A mirror image is wound the other way.
      const corners = side === 0 ? order : ([order[0], order[2], order[1]] as const);
      const into = side * half + t;
      corners.forEach((corner, k) => (triangles[3 * into + k] = number[mesh.triangles[3 * t + corner]!]!));
      const [a, b] = flatEdges(pattern, mesh, t, corners);
      const weft = side === 0 ? 1 : -1;
      setRestShape({ ax: a.warp, ay: weft * a.weft, bx: b.warp, by: weft * b.weft }, into, shape);
    }
  }
  const edgeVertex = new Uint8Array(vertexCount);
  for (const edge of freeEdges(pattern)) {
    for (const v of chainOf(pattern, level, edge)) {
      edgeVertex[drawn[v]!] = 1;
      edgeVertex[mirrored[v]!] = 1;
    }
  }
  const panelOf = new Uint8Array(halves * half);
  for (let side = 0; side < halves; side++) panelOf.set(mesh.panel, side * half);
  const panel = panelOf.map((p) => pattern.panels[p]!.fabric ?? 0);
  return {
    level: {
      mesh: { positions: laid, triangles },
      ...shape,
      edgeVertex,
      ...(panel.some((fabric) => fabric !== 0) && { panel }),
    },
    panelOf,
  };
}

/** Both edges from a triangle's first corner, along the panel's warp and weft, m. */
function flatEdges(
  { panels }: Pattern,
  { corners, panel }: SewnMesh,
  t: number,
  [first, second, third]: readonly [number, number, number],
) {
  const grain = panels[panel[t]!]!.grain ?? 0;
  const [sin, cos] = [Math.sin(grain), Math.cos(grain)];
  const edge = (to: number) => {
    const x = corners[6 * t + 2 * to]! - corners[6 * t + 2 * first]!;
    const y = corners[6 * t + 2 * to + 1]! - corners[6 * t + 2 * first + 1]!;
    return { warp: x * sin + y * cos, weft: x * cos - y * sin };
  };
  return [edge(second), edge(third)] as const;
}

function parentsOf(
  { parents }: SewnLevel,
  { drawn, mirrored, vertexCount }: Numbered,
  coarser: { readonly drawn: Uint32Array; readonly mirrored: Uint32Array } | undefined,
): Uint32Array {
  if (!coarser) return new Uint32Array(0);
  const into = new Uint32Array(2 * vertexCount);
  for (let v = 0; v < drawn.length; v++) {
    for (let k = 0; k < 2; k++) {
      into[2 * mirrored[v]! + k] = coarser.mirrored[parents[2 * v + k]!]!;
      into[2 * drawn[v]! + k] = coarser.drawn[parents[2 * v + k]!]!;
    }
  }
  return into;
}
