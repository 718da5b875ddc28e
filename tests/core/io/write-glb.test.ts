import { validateBytes } from 'gltf-validator';
import { describe, expect, it } from 'vitest';
import { readGlb } from '../../../core/io/read-glb.ts';
import { writeGlb } from '../../../core/io/write-glb.ts';
import { cylinder } from '../../help/shapes.ts';

const jsonOf = (bytes: Uint8Array): Record<string, unknown> => {
  const length = new DataView(bytes.buffer).getUint32(12, true);
  return JSON.parse(new TextDecoder().decode(bytes.subarray(20, 20 + length))) as Record<string, unknown>;
};

describe('writeGlb', () => {
  const mesh = cylinder(0.07, 0.2, 0.02, { jitter: 0.3, seed: 4 });
  const vertexCount = mesh.positions.length / 3;
  const bytes = writeGlb({
    ...mesh,
    attributes: {
      _PRESSURE_KPA: Float32Array.from({ length: vertexCount }, (_, v) => v / 10),
      _GAP_MM: new Float32Array(vertexCount),
    },
    extras: { study: 'Größe „M“, erfunden' },
  });

  it('satisfies the Khronos glTF validator without an error or a warning', async () => {
    const report = await validateBytes(bytes);
    expect(report.issues.messages.filter(({ severity }) => severity < 2)).toEqual([]);
    expect(report.issues.numErrors).toBe(0);
    expect(report.info.totalVertexCount).toBe(vertexCount);
    expect(report.info.totalTriangleCount).toBe(mesh.triangles.length / 3);
  });

  it('is in millimetres and says so, with the rest of what there is to say', () => {
    const said = { study: 'Größe „M“, erfunden', lengthUnit: 'millimetre' };
    const json = jsonOf(bytes);
    expect(json).toMatchObject({ asset: { version: '2.0', extras: said }, scenes: [{ extras: said }] });
    const accessors = json['accessors'] as { min: number[]; max: number[] }[];
    expect(accessors[0]!.min[1]).toBe(0);
    expect(accessors[0]!.max[1]).toBe(200);
  });

  it('comes back the same: places to single precision, triangles exactly', async () => {
    const back = await readGlb(bytes);
    expect(back.triangles).toEqual(mesh.triangles);
    back.positions.forEach((value, i) => expect(value).toBe(Math.fround(1000 * mesh.positions[i]!)));
  });
});
