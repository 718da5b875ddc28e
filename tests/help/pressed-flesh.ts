import type { ClothLevel } from '../../core/garment/garment.ts';
import { tubeTriangles } from '../../core/garment/tube-grid.ts';
import type { EquilibriumProblem } from '../../core/equilibrium/equilibrium.ts';
import type { Flesh } from '../../core/equilibrium/prepare-flesh.ts';
import type { TriangleMesh } from '../../core/mesh/triangle-mesh.ts';
import { onRing, proofTube } from '../../core/proof/proof-tube.ts';
import { linearLaw } from '../../core/proof/settled-tube.ts';
import { cylinderBody } from '../../core/proof/smooth-bodies.ts';

/** A round limb with flesh over a core, and a band on it. m, Pa, N/m. */
export interface BandOnLimb {
  readonly R: number;
  readonly H: number;
  readonly E: number;
  readonly poisson: number;
  readonly width: number;
  readonly stiffness: number;
  readonly relaxedRadius: number;
  readonly clothEdge: number;
  readonly skinEdge: number;
  readonly skin?: 'slides' | 'held';
  readonly friction?: number;
}

/** The skin of a limb, from -length/2 to length/2 along y. */
export function limbSkin(R: number, length: number, edge: number): TriangleMesh {
  const columnCount = Math.round((2 * Math.PI * R) / edge);
  const rowCount = Math.round(length / edge);
  const positions = new Float64Array(3 * columnCount * (rowCount + 1));
  for (let v = 0; 3 * v < positions.length; v++) {
    const y = (length * Math.floor(v / columnCount)) / rowCount - length / 2;
    positions.set(onRing(R, y, (v % columnCount) / columnCount), 3 * v);
  }
  return { positions, triangles: tubeTriangles({ rowCount, columnCount, halvings: 0 }) };
}

export function bandOnLimb(band: BandOnLimb): {
  problem: EquilibriumProblem;
  flesh: Flesh;
  levels: ClothLevel[];
  columns: number;
} {
  const { R, H, E, width, clothEdge } = band;
  const skin = limbSkin(R, width + 10 * H, band.skinEdge);
  const skinCount = skin.positions.length / 3;
  const coarseColumns = 2 * Math.round((Math.PI * R) / clothEdge / 4);
  const levels = proofTube({
    rowCount: Math.max(1, Math.round(width / clothEdge / 4)),
    columnCount: coarseColumns,
    halvings: 2,
    place: (around, along) => onRing(R, width * (along - 0.5), around),
    relaxed: { girth: 2 * Math.PI * band.relaxedRadius, length: width },
  });
  const stiffness = (4 * E) / H;
  return {
    levels,
    columns: 4 * coarseColumns,
    problem: {
      levels,
      laws: [linearLaw(band.stiffness)],
      body: cylinderBody(R),
      foundation: levels.map(({ mesh }) => new Float64Array(mesh.positions.length / 3).fill(stiffness)),
      friction: band.friction ?? 0,
    },
    flesh: {
      body: {
        skin,
        tissueDepth: new Float64Array(skinCount).fill(H),
        foundation: new Float64Array(skinCount).fill(stiffness),
      },
      poisson: band.poisson,
      skin: band.skin ?? 'slides',
    },
  };
}
