import type { Body } from '../body/body.ts';
import { skinNear, skinPatch, type SkinPatch } from '../body/skin-patch.ts';
import type { ClothLevel } from '../garment/garment.ts';
import { nearestPointOf, type NearestPoint } from '../mesh/nearest-point.ts';
import { fleshLayer, type FleshLayer } from './flesh-layer.ts';

/** The flesh a garment is worn on. */
export interface Flesh {
  /** Modulus: E = foundation * depth / 4, since the foundation of a body is 4 E / H. */
  readonly body: Pick<Body, 'skin' | 'tissueDepth' | 'foundation'>;
  /** Poisson's ratio; see POISSON_RANGE. */
  readonly poisson: number;
  /**
   * Whether the skin slides under the cloth or is held by it: ends of a bracket. A slippery lining lets it slide, a silicone
   * band or a dry one of high friction holds it.
   */
  readonly skin: 'slides' | 'held';
}

/** The skin round a garment and what lies under it, laid out before any pressure is known. */
export interface PreparedFlesh {
  readonly patch: SkinPatch;
  /** Of the patch. */
  readonly nearest: NearestPoint;
  /** As if the skin slid everywhere. */
  readonly layer: FleshLayer;
}

/** Skin this many thicknesses of its flesh away from the cloth is taken not to move: by a tenth of the bulge at most. */
const REACH = 4;
/** Thin flesh is taken along this far too, m: the cloth may slide. */
const LEAST_REACH = 0.03;
/** The skin of a garment lies at most this far off its box, m. */
const NEAREST_SKIN = 0.1;
/** Cloth with fewer vertices than this is too coarse to tell which skin it lies on. */
const FEWEST_SEEDS = 200;

/**
 * Lays out the flesh that a garment can move. Settling in another fabric, or cut otherwise, may use it again as long as the
 * garment lies within a few centimetres of where it was laid.
 */
export function prepareFlesh({ body, poisson }: Flesh, levels: readonly ClothLevel[]): PreparedFlesh {
  const coarse = levels.find(({ mesh }) => mesh.positions.length / 3 >= FEWEST_SEEDS) ?? levels.at(-1)!;
  const { positions } = coarse.mesh;
  const near = skinNear(body.skin, positions, NEAREST_SKIN);
  const nearestSkin = nearestPointOf(near.mesh);
  const found = new Float64Array(4);
  const seeds = Uint32Array.from({ length: positions.length / 3 }, (_, v) => {
    const [x, y, z] = positions.subarray(3 * v, 3 * v + 3);
    return near.bodyTriangle[nearestSkin(x!, y!, z!, found)]!;
  });
  const spacing = Math.sqrt(coarse.restArea.reduce((sum, area) => sum + area, 0) / seeds.length);
  const reach = body.tissueDepth.map((depth) => spacing + Math.max(REACH * depth, LEAST_REACH));
  const patch = skinPatch(body.skin, seeds, reach);
  const skin = {
    mesh: patch.mesh,
    depth: Float64Array.from(patch.bodyVertex, (v) => body.tissueDepth[v]!),
    give: Float64Array.from(patch.bodyVertex, (v) => 4 / body.foundation[v]!),
  };
  return { patch, nearest: nearestPointOf(patch.mesh), layer: fleshLayer(skin, poisson, { cutOut: true }) };
}
