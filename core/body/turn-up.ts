import type { TriangleMesh } from '../mesh/triangle-mesh.ts';

export type UpAxis = 'x' | 'y' | 'z';

/**
 * Turns a mesh so that the axis pointing up becomes y. A rotation, so faces keep their side.
 *
 * z up: (x, y, z) -> (x, z, -y), which takes a body facing -y to one facing +z. x up: (x, y, z) -> (-y, x, z).
 */
export function turnUp(mesh: TriangleMesh, up: UpAxis): TriangleMesh {
  return turned(mesh, TO_Y_UP[up]);
}

/** Turns a mesh with y up back to the axes it came from: undoes `turnUp` exactly. */
export function turnBack(mesh: TriangleMesh, up: UpAxis): TriangleMesh {
  return turned(mesh, FROM_Y_UP[up]);
}

/** The new x, y and z, each as the old axis it comes from and its sign. */
type Turn = readonly (readonly [axis: 0 | 1 | 2, sign: 1 | -1])[];

const STAY: Turn = [
  [0, 1],
  [1, 1],
  [2, 1],
];
const TO_Y_UP: Readonly<Record<UpAxis, Turn>> = {
  x: [
    [1, -1],
    [0, 1],
    [2, 1],
  ],
  y: STAY,
  z: [
    [0, 1],
    [2, 1],
    [1, -1],
  ],
};
const FROM_Y_UP: Readonly<Record<UpAxis, Turn>> = {
  x: [
    [1, 1],
    [0, -1],
    [2, 1],
  ],
  y: STAY,
  z: [
    [0, 1],
    [2, -1],
    [1, 1],
  ],
};

function turned({ positions, triangles }: TriangleMesh, turn: Turn): TriangleMesh {
  const into = new Float64Array(positions.length);
  for (let i = 0; i < positions.length; i += 3) {
    turn.forEach(([axis, sign], k) => {
      into[i + k] = sign * positions[i + axis]!;
    });
  }
  return { positions: into, triangles };
}
