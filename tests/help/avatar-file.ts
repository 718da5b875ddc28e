import { makeFitBody } from '../../core/body/fit-body.ts';
import type { FitMeasures } from '../../core/body/fit-measures.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import { sphere } from './shapes.ts';

/** The inch is exactly 25.4 mm: International yard and pound agreement, 1959. */
const INCH = 0.0254;

/**
 * An invented avatar as a studio may bring one: our own form in inches, z up and facing -y, in an OBJ with eyes, a shell
 * round it and a hole in the chest.
 */
export function avatarObj(measures: FitMeasures): string {
  const skin = withHole(makeFitBody(measures).skin);
  const parts = [
    { name: 'Body', mesh: skin },
    { name: 'Eyes', mesh: moved(sphere(0.012, 0.006), [0.03, 1.45, 0.05]) },
    { name: 'Helper_shell', mesh: moved(sphere(0.28, 0.05), [0, 1.1, 0]) },
  ];
  const lines: string[] = ['# An invented avatar'];
  let first = 1;
  for (const { name, mesh } of parts) {
    const { positions: p, triangles: t } = mesh;
    lines.push(`o ${name}`);
    for (let i = 0; i < p.length; i += 3) {
      lines.push(`v ${inches(p[i]!)} ${inches(-p[i + 2]!)} ${inches(p[i + 1]!)}`);
    }
    for (let i = 0; i < t.length; i += 3) {
      lines.push(`f ${t[i]! + first} ${t[i + 1]! + first} ${t[i + 2]! + first}`);
    }
    first += p.length / 3;
  }
  return `${lines.join('\n')}\n`;
}

const inches = (metres: number): string => (metres / INCH).toFixed(6);

/** Without the few triangles round the middle of the breast bone, far from any waist. */
function withHole({ positions, triangles }: TriangleMesh): TriangleMesh {
  const kept: number[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const corners = [...triangles.subarray(i, i + 3)];
    const isAway = corners.every((v) => {
      const [x, y, z] = positions.subarray(3 * v, 3 * v + 3);
      return z! < 0 || Math.hypot(x!, y! - 1.3) > 0.02;
    });
    if (isAway) kept.push(...corners);
  }
  return { positions, triangles: Uint32Array.from(kept) };
}

const moved = ({ positions, triangles }: TriangleMesh, by: readonly number[]): TriangleMesh => ({
  positions: positions.map((value, i) => value + by[i % 3]!),
  triangles,
});
