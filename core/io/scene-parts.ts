import type { ScenePart } from '../mesh/mesh-scene.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';

/** A file may name this many pieces; whatever follows goes into the last. Nobody chooses among more. */
const MOST_PARTS = 1000;

/** Pieces by name while a file is read. */
export interface PartNames {
  /** The number of the piece of this name, the same for the same name. */
  readonly numberOf: (name: string) => number;
  readonly names: readonly string[];
}

/** Gives out numbers for the names of pieces, 0, 1, 2 in order of appearance. */
export function partNames(): PartNames {
  const numbers = new Map<string, number>();
  const names: string[] = [];
  return {
    names,
    numberOf: (name) => {
      const known = numbers.get(name);
      if (known !== undefined) return known;
      if (names.length === MOST_PARTS) return MOST_PARTS - 1;
      names.push(names.length === MOST_PARTS - 1 ? 'all further pieces' : name);
      numbers.set(name, names.length - 1);
      return names.length - 1;
    },
  };
}

/**
 * The mesh of each piece, with its own vertices in the order in which its triangles name them; pieces without triangles
 * are left out.
 *
 * @param partOfTriangle - T.
 */
export function splitIntoParts(
  { positions, triangles }: TriangleMesh,
  partOfTriangle: ArrayLike<number>,
  names: readonly string[],
): ScenePart[] {
  const corners: number[][] = names.map(() => []);
  for (let i = 0; i < triangles.length; i++) corners[partOfTriangle[Math.floor(i / 3)]!]!.push(triangles[i]!);
  const newIndex = new Int32Array(positions.length / 3).fill(-1);
  return corners.flatMap((part, p) => {
    if (part.length === 0) return [];
    const used: number[] = [];
    const moved = Uint32Array.from(part, (v) => {
      if (newIndex[v]! < 0) newIndex[v] = used.push(v) - 1;
      return newIndex[v]!;
    });
    const own = new Float64Array(3 * used.length);
    used.forEach((v, i) => {
      for (let k = 0; k < 3; k++) own[3 * i + k] = positions[3 * v + k]!;
      newIndex[v] = -1;
    });
    const name = names[p]!.trim().slice(0, 80);
    return [{ name: name === '' ? `part ${p + 1}` : name, mesh: { positions: own, triangles: moved } }];
  });
}
