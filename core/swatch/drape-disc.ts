import { bendingTensor } from '../equilibrium/bending-force.ts';
import { factoriseFronts, frontFactorOf, solveFronts } from '../equilibrium/front-cholesky.ts';
import { planeStiffness, type PlaneStiffness } from '../equilibrium/plane-force.ts';
import { sheetNewton, type SheetSolver } from '../equilibrium/sheet-newton.ts';
import { sheetSystem, type SheetSystem } from '../equilibrium/sheet-system.ts';
import { STANDARD_GRAVITY } from '../units/units.ts';
import { discLevels, type DiscLevel } from './disc-mesh.ts';
import { refineShape } from './refine-shape.ts';
import { roundTable } from './round-table.ts';
import { countFolds, polarArea, shadowOf } from './shadow.ts';
import type { DrapeRest, SwatchFabric, SwatchProgress } from './swatch.ts';

/** A disc of fabric over a round table. */
export interface DrapeWish {
  /** Wanted number of vertices of the finest mesh. */
  readonly vertexCount: number;
  /** Radius of the specimen, m; {@link SPECIMEN_RADIUS} if left out. */
  readonly specimenRadius?: number;
  /** False leaves off the disc that is laid on top, as the test does; then the cloth may lift off the table. */
  readonly covered?: boolean;
}

/**
 * Radii of the supporting disc and of the specimen, m. The standard also knows specimens of 240 mm for fabrics whose
 * drape coefficient comes out below 30 %, and of 360 mm above 85 %. The specimen is held between two discs of 180 mm.
 *
 * @see ISO 9073-9 and BS 5058; Cusick, J. Text. Inst. 56 (1965) T596 (all from memory).
 */
export const SUPPORT_RADIUS = 0.09;
export const SPECIMEN_RADIUS = 0.15;

/** Rounding of the table's rim, m. */
const RIM = 0.002;
/** Pressure per depth of the table over the fabric's weight per area, 1/m: its rim gives way by some 0.05 mm. */
const HARDNESS = 2e5;
/** The coarsest mesh must still show a fold. */
const FEWEST_VERTICES = 650;
/**
 * Unbalanced force over weight at which the search ends: the drape coefficient then stands to 0.1 of a point. The steps
 * bound the time, for 3,000 vertices to some 170 yardsticks of `npm run bench`; drapes came to rest in 12 to 64 of them.
 */
const FINEST = { tolerance: 1e-2, mostSteps: 90 };
/** A coarse mesh need only come near: settled further, it saves the finest one no steps. */
const COARSE = { tolerance: 0.1, mostSteps: 100 };
const LONGEST_STEP = 0.03;
/**
 * On coarser meshes the cloth stretches this much more easily. Flat triangles cannot bend two ways without stretching, so
 * a coarse mesh of cloth that hardly stretches is too stiff to find its folds; on this one it finds shapes of lower energy,
 * from which the finest mesh is near.
 */
const SOFTER = 10;
/** Height of the ripple that breaks the symmetry of the start, over the specimen's radius. */
const RIPPLE = 1e-3;

/**
 * Drapes a disc over a round table and measures its shadow.
 *
 * It starts flat, with a ripple of all wave numbers too small to see, falls on a coarse mesh and is settled on each finer
 * one. Which of several folded shapes it falls into depends on the ripple, as on the table it depends on how the cloth
 * was laid down; coefficients of such shapes lie within a few points. Folds may pass through each other.
 */
export function* drapeDisc(fabric: SwatchFabric, wish: DrapeWish): Generator<SwatchProgress, DrapeRest> {
  const specimenRadius = wish.specimenRadius ?? SPECIMEN_RADIUS;
  const covered = wish.covered ?? true;
  const shape = { radius: specimenRadius, rim: SUPPORT_RADIUS };
  const levels = discLevels(shape, wish.vertexCount, FEWEST_VERTICES);
  let positions = rippled(levels[0]!);
  for (let l = 0; ; l++) {
    const disc = levels[l]!;
    const finest = l === levels.length - 1;
    const plane = planeStiffness(fabric.law, finest ? 1 : SOFTER);
    const system = layDisc(fabric, disc, { positions, covered, plane });
    const goal = { ...(finest ? FINEST : COARSE), longestStep: LONGEST_STEP };
    const search = sheetNewton(system, frontSolver(system, disc), goal);
    let iteration = 0;
    let step = search.next();
    for (; !step.done; step = search.next()) {
      yield { level: l, levelCount: levels.length, iteration: iteration++, residual: step.value };
    }
    if (finest) return measure(disc, system, { specimenRadius, atRest: step.value });
    positions = refineShape(disc, levels[l + 1]!, system.bending.curvature, system.positions);
  }
}

/** Flat, warp along x, the ripple growing from the middle to the edge. */
function rippled({ flat }: DiscLevel): Float64Array {
  const positions = new Float64Array((3 * flat.length) / 2);
  let radius = 0;
  for (let i = 0; i < flat.length; i += 2) radius = Math.max(radius, Math.hypot(flat[i]!, flat[i + 1]!));
  for (let v = 0; 2 * v < flat.length; v++) {
    const u = flat[2 * v]!;
    const w = flat[2 * v + 1]!;
    const angle = Math.atan2(w, u);
    let ripple = 0;
    // Phases k^2 * 2.4 fall anywhere on the circle: no direction and no wave number is favoured.
    for (let k = 2; k <= 14; k++) ripple += Math.cos(k * angle + 2.4 * k * k);
    positions.set([u, (RIPPLE * ripple * (u * u + w * w)) / radius, -w], 3 * v);
  }
  return positions;
}

/** Sets the system up; what lies between the discs is held flat, or nothing but the middle, which a pin holds. */
function layDisc(
  fabric: SwatchFabric,
  disc: DiscLevel,
  { positions, covered, plane }: { positions: Float64Array; covered: boolean; plane: PlaneStiffness },
): SheetSystem {
  const { flat } = disc;
  const held = new Uint8Array(positions.length);
  held[0] = 1;
  held[2] = 1;
  const coveredRadius = covered ? SUPPORT_RADIUS * (1 + 1e-9) : -1;
  for (let v = 0; 2 * v < flat.length; v++) {
    if (Math.hypot(flat[2 * v]!, flat[2 * v + 1]!) > coveredRadius) continue;
    held.fill(1, 3 * v, 3 * v + 3);
    positions.set([flat[2 * v]!, 0, -flat[2 * v + 1]!], 3 * v);
  }
  return sheetSystem(
    {
      sheet: disc,
      plane,
      bending: bendingTensor(fabric.bendingRigidity),
      arealDensity: fabric.arealDensity,
      support: {
        body: roundTable(SUPPORT_RADIUS, RIM),
        foundation: HARDNESS * fabric.arealDensity * STANDARD_GRAVITY,
      },
      held,
    },
    positions,
  );
}

function frontSolver({ bending, held }: SheetSystem, { flat }: DiscLevel): SheetSolver {
  const leftOut = Uint8Array.from({ length: flat.length / 2 }, (_, v) =>
    held[3 * v] && held[3 * v + 1] && held[3 * v + 2] ? 1 : 0,
  );
  const factor = frontFactorOf(bending.pattern, leftOut[0] ? unrolled(flat) : flat, leftOut);
  return {
    factorise: (matrix) => factoriseFronts(factor, matrix),
    solve: (b, into) => solveFronts(factor, b, into),
  };
}

/** The ring round the table as a band: cut across, it falls apart along shorter lines. */
function unrolled(flat: Float64Array): Float64Array {
  const places = new Float64Array(flat.length);
  for (let i = 0; i < flat.length; i += 2) {
    places[i] = SUPPORT_RADIUS * Math.atan2(flat[i + 1]!, flat[i]!);
    places[i + 1] = Math.hypot(flat[i]!, flat[i + 1]!);
  }
  return places;
}

function measure(
  { flat, triangles }: DiscLevel,
  { positions, sum }: SheetSystem,
  { specimenRadius, atRest }: { specimenRadius: number; atRest: boolean },
): DrapeRest {
  const shadow = shadowOf(positions, triangles, SUPPORT_RADIUS);
  const ring = Math.PI * (specimenRadius ** 2 - SUPPORT_RADIUS ** 2);
  return {
    positions,
    triangles,
    flat,
    residual: sum.residual,
    atRest,
    supportRadius: SUPPORT_RADIUS,
    specimenRadius,
    drapeCoefficient: (polarArea(shadow) - Math.PI * SUPPORT_RADIUS ** 2) / ring,
    shadow,
    foldCount: countFolds(shadow, 0.05 * (specimenRadius - SUPPORT_RADIUS)),
  };
}
