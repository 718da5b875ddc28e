import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { mmFromMetres } from '../units/units.ts';

/**
 * A mesh as OBJ text, in millimetres to a tenth of a micrometre.
 *
 * @param mesh - In m, in whatever axes the reader wants it.
 * @param remarks - Lines written as comments at the head.
 */
export function writeObj({ positions, triangles }: TriangleMesh, remarks: readonly string[] = []): string {
  const lines = [...remarks.flatMap((remark) => remark.split(/[\r\n]+/)), 'unit: millimetre'].map(
    (remark) => `# ${remark.replace(/\\+$/, '')}`,
  );
  const mm = (i: number): string => String(Number(mmFromMetres(positions[i]!).toFixed(4)) + 0);
  for (let i = 0; i < positions.length; i += 3) lines.push(`v ${mm(i)} ${mm(i + 1)} ${mm(i + 2)}`);
  for (let i = 0; i < triangles.length; i += 3) {
    lines.push(`f ${triangles[i]! + 1} ${triangles[i + 1]! + 1} ${triangles[i + 2]! + 1}`);
  }
  return `${lines.join('\n')}\n`;
}
