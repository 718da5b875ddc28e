import type { Body } from './body.ts';
import { BODY_REGIONS } from './body-regions.ts';
import { REGION_MODULI } from './tissue-moduli.ts';
import { TISSUE_SOURCES, type BrushStroke, type TissueCorrections } from './tissue-map.ts';

const REGION = TISSUE_SOURCES.indexOf('region');
const BRUSH = TISSUE_SOURCES.indexOf('brush');

/** A body whose flesh can be corrected. */
export type FleshedBody = Pick<Body, 'skin' | 'tissueDepth' | 'foundation' | 'tissueSource' | 'regions'>;

/** What a correction changes of a body. */
export type CorrectedFlesh = Pick<Body, 'tissueDepth' | 'foundation' | 'tissueSource'>;

/** Thinnest and thickest tissue that a hand may set, m. */
export const DEPTH_RANGE = [0.002, 0.2] as const;

/**
 * The flesh with what was corrected by hand: moduli by region where wished, then whole regions, then strokes in their
 * order. A region keeps its pattern of depths, scaled to the mean asked for.
 *
 * @returns New arrays; the body's own are not changed.
 */
export function correctedFlesh(body: FleshedBody, corrections: TissueCorrections): CorrectedFlesh {
  const depth = body.tissueDepth.slice();
  const modulus = body.foundation.map((stiffness, v) => stiffness * depth[v]!);
  const source = body.tissueSource.slice();
  const region = body.regions?.region;
  if (corrections.moduli === 'byRegion' && region !== undefined) {
    for (let v = 0; v < modulus.length; v++) {
      modulus[v] = REGION_MODULI[BODY_REGIONS[region[v]!]!];
      source[v] = REGION;
    }
  }
  for (const wish of corrections.regions) {
    if (region === undefined) continue;
    const index = BODY_REGIONS.indexOf(wish.region);
    const own = Array.from(region.keys()).filter((v) => region[v] === index);
    const mean = own.reduce((sum, v) => sum + depth[v]!, 0) / own.length;
    for (const v of own) {
      if (wish.depth !== undefined) depth[v] = within((depth[v]! * wish.depth) / mean);
      if (wish.modulus !== undefined) modulus[v] = wish.modulus;
      source[v] = REGION;
    }
  }
  for (const stroke of corrections.strokes) brush(body, stroke, { depth, modulus, source });
  return {
    tissueDepth: depth,
    foundation: modulus.map((value, v) => value / depth[v]!),
    tissueSource: source,
  };
}

const within = (depth: number): number => Math.min(Math.max(depth, DEPTH_RANGE[0]), DEPTH_RANGE[1]);

/** One stroke; it stays on the part of the body that it was begun on, so that it does not reach over to the other leg. */
function brush(
  { skin: { positions }, regions }: FleshedBody,
  stroke: BrushStroke,
  into: { readonly depth: Float64Array; readonly modulus: Float64Array; readonly source: Uint8Array },
): void {
  const [x, y, z] = stroke.center;
  // Plain arithmetic: a map may have thousands of strokes on a quarter of a million vertices.
  const distance = (v: number): number => {
    const [dx, dy, dz] = [positions[3 * v]! - x, positions[3 * v + 1]! - y, positions[3 * v + 2]! - z];
    return Math.sqrt(dx * dx + dy * dy + dz * dz);
  };
  let nearest = 0;
  let least = Infinity;
  for (let v = 0; v < into.depth.length; v++) {
    const away = distance(v);
    if (away < least) [least, nearest] = [away, v];
  }
  const part = regions?.part[nearest];
  for (let v = 0; v < into.depth.length; v++) {
    if (part !== undefined && regions!.part[v] !== part) continue;
    const weight = strokeWeight(distance(v) / stroke.radius, stroke.falloff);
    if (weight === 0) continue;
    if (stroke.depth !== undefined) {
      into.depth[v] = within(into.depth[v]! + weight * (stroke.depth - into.depth[v]!));
    }
    if (stroke.modulus !== undefined) into.modulus[v]! += weight * (stroke.modulus - into.modulus[v]!);
    into.source[v] = BRUSH;
  }
}

/** 1 inside, 0 from the radius on, eased over the last share of it; `at` is distance over radius. */
export function strokeWeight(at: number, falloff: number): number {
  if (at >= 1) return 0;
  const inner = 1 - falloff;
  if (at <= inner) return 1;
  const t = (1 - at) / falloff;
  return t * t * (3 - 2 * t);
}
