import type { Body } from '../body/body.ts';
import type { Landmarks } from '../body/landmarks.ts';
import { BLOCKS, type BlockSheet } from '../block/blocks.ts';
import type { Garment } from '../garment/garment.ts';
import { sectionAt, trianglesBetween } from '../mesh/section.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import type { Triple } from '../mesh/triple.ts';
import { lineLength } from './garment-sheet.ts';

/** A level of a block's sheet on the body, before the cloth presses and as worn. m; null where it cannot be measured. */
export interface LevelRow {
  readonly name: string;
  readonly height: number | null;
  /** Girth of the skin there. */
  readonly body: number | null;
  /** Girth of the cloth there as worn, one per fabric. */
  readonly worn: readonly (number | null)[];
}

/** Levels at the ends of a stocking, as its free edges are called. */
const EDGE_OF: Readonly<Record<string, string>> = { B: 'ankle', D: 'top' };
/** The calf of a stocking, as the body's level is called. */
const LANDMARK_OF: Readonly<Record<string, string>> = { C: 'calf' };
/** One leg is by itself this far below the crotch, m. */
const CLEAR_OF_CROTCH = 0.02;

/**
 * Every level that the block can have, as {@link BLOCKS} orders them: at a free edge along the edge, between them round the
 * body and round the settled cloth at the body's own height of that name. Of one leg from the thigh down.
 *
 * @param worn - Settled positions per fabric, 3*V, m.
 */
export function levelRows(
  garment: Pick<Garment, 'lines' | 'levels'>,
  sheet: BlockSheet,
  { skin, landmarks }: Pick<Body, 'skin' | 'landmarks'>,
  worn: readonly Float64Array[],
): LevelRow[] {
  const { triangles } = garment.levels.at(-1)!.mesh;
  return BLOCKS[sheet.block].levels.map(({ name }): LevelRow => {
    const line = garment.lines?.find((one) => one.name === (EDGE_OF[name] ?? name));
    if (line) {
      const { at, laid } = line;
      return { name, height: at, body: laid, worn: worn.map((positions) => lineLength(positions, line)) };
    }
    const height = heightOf(landmarks, name);
    const girth = (mesh: TriangleMesh) => (height === null ? null : girthAt(mesh, height));
    return {
      name,
      height,
      body: girth(skin),
      worn: worn.map((positions) => girth({ positions, triangles })),
    };
  });
}

/** Of the body's own level of that name, on the trunk or on the left leg. */
function heightOf(landmarks: Landmarks, level: string): number | null {
  const name = LANDMARK_OF[level] ?? level;
  const places: Readonly<Record<string, { readonly point: Readonly<Triple> } | undefined>> = landmarks;
  const height = (places[`${name}Front`] ?? places[`${name}Left`])?.point[1];
  if (height === undefined) return null;
  const crotch = landmarks.crotch?.point[1];
  return level === 'thigh' && crotch !== undefined ? Math.min(height, crotch - CLEAR_OF_CROTCH) : height;
}

/** Round the trunk, or where the plane cuts no trunk round the left leg; null where neither closes. */
function girthAt(mesh: TriangleMesh, height: number): number | null {
  const loops = sectionAt(trianglesBetween(mesh, height, height), height).map(({ points, length }) => {
    let [low, high] = [Infinity, -Infinity];
    for (let i = 0; i < points.length; i += 2) {
      low = Math.min(low, points[i]!);
      high = Math.max(high, points[i]!);
    }
    return { low, high, length };
  });
  const trunk = loops.find(({ low, high }) => low < 0 && high > 0);
  // An arm hangs farther out than the leg and is smaller: the largest to the left is the leg.
  return (trunk ?? loops.find(({ low }) => low >= 0))?.length ?? null;
}
