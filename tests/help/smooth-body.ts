import type { Body } from '../../core/body/body.ts';
import type { DistanceField } from '../../core/body/distance-field.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';

/** A body whose contact field is given in closed form. */
export function smoothBody(skin: TriangleMesh, field: DistanceField, foundation: number): Body {
  const vertexCount = skin.positions.length / 3;
  return {
    skin,
    sourceUp: 'y',
    tissueDepth: new Float64Array(vertexCount).fill(0.02),
    foundation: new Float64Array(vertexCount).fill(foundation),
    tissueSource: new Uint8Array(vertexCount),
    girths: [],
    landmarks: {},
    floor: 0,
    forward: [0, 0, 1],
    regions: null,
    findings: [],
    contactField: () => field,
  };
}

/** Distance from a cylinder about the y axis; radius in m. */
export function cylinderField(radius: number): DistanceField {
  return {
    sample: (x, _y, z, into) => {
      const distance = Math.hypot(x, z) || 1e-12;
      const nx = x / distance;
      const nz = z / distance;
      into.set([distance - radius, nx, 0, nz]);
      into.set([(nz * nz) / distance, 0, (-nx * nz) / distance, 0, 0, (nx * nx) / distance], 4);
    },
  };
}
