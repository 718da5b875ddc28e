import type { DistanceField } from '../body/distance-field.ts';
import { makeMeshBody } from '../body/mesh-body.ts';
import { triple, type Triple } from '../mesh/triple.ts';
import type { Check } from './check.ts';
import { capsuleMesh, grooveMesh, grooveShape, onGroove, type Groove } from './crease-bodies.ts';
import { proofTube } from './proof-tube.ts';
import { innerRows, linearLaw, settleTube, spread } from './settled-tube.ts';
import { pressureOnHardBar, settledBar } from './tube-sizes.ts';

/** A toe or a finger, and the edges of its mesh; mm. The last is meshed as coarsely as can be: edges of two thirds of its radius. */
const TOES = [
  { radiusMm: 6, edgeMm: 2, zeroMm: 0.2, percent: 3 },
  { radiusMm: 6, edgeMm: 3, zeroMm: 0.2, percent: 3 },
  { radiusMm: 8, edgeMm: 2, zeroMm: 0.2, percent: 3 },
  { radiusMm: 8, edgeMm: 4, zeroMm: 0.2, percent: 3 },
  { radiusMm: 6, edgeMm: 4, zeroMm: 0.35, percent: 6 },
] as const;

/** Two bars of 40 mm and a fold of 5 mm between them: a triangle of 27, 36 and 45 mm. */
const GROOVE: Groove = { radius: 0.04, fillet: 0.005, apart: 0.036 };
const GROOVE_EDGES_MM = [2, 3] as const;
/** Height of the cloth over the groove, m. */
const HEIGHT = 0.048;
const COLUMNS = 128;
const STIFFNESS = 250;
const STRETCH = 1.25;
/** 50 kPa/mm, Pa/m. */
const HARD = 50e6;

/**
 * Skin sharper than the grid of the contact field: toes known only as meshes, against the true capsule and Laplace; a
 * fold between two bars, against the true section and the common tangent that taut cloth spans.
 */
export function* creases(): Generator<void, Check[]> {
  const checks: Check[] = [];
  for (const toe of TOES) {
    checks.push(...toeChecks(toe));
    yield;
  }
  for (const edgeMm of GROOVE_EDGES_MM) {
    checks.push(...grooveChecks(edgeMm));
    yield;
  }
  return checks;
}

const fieldOf = (skin: ReturnType<typeof capsuleMesh>, reach: Triple, height: number): DistanceField =>
  makeMeshBody({ skin, sourceUp: 'y', tissue: 'rigid' }).contactField({
    low: [-reach[0], -reach[1], -reach[2]],
    high: [reach[0], height + reach[1], reach[2]],
  });

/** How far beyond the cloth the toe goes on before it is rounded off, m. */
const BEYOND = 0.015;

function toeChecks({ radiusMm, edgeMm, zeroMm, percent }: (typeof TOES)[number]): Check[] {
  const radius = radiusMm / 1000;
  let field: DistanceField | undefined;
  let top = 0;
  const tube = settledBar(radius, 32, {
    friction: 0.01,
    bodyOf: (height) => {
      const skin = capsuleMesh(radius, -BEYOND, (top = height + BEYOND), edgeMm / 1000);
      field = fieldOf(skin, [radius, BEYOND + radius, radius], height);
      return field;
    },
  });
  const expected = pressureOnHardBar(radius);
  const id = `creases.toe.${String(radiusMm)}-mm.skin-${String(edgeMm)}`;
  const where = `toe of R ${String(radiusMm)} mm, skin of ${String(edgeMm)} mm edges`;
  return [
    {
      id: `${id}.skin`,
      what: `farthest the contact lies from the true skin, ${where}`,
      source: 'a round bar with a half ball on its end, met along its normals from 1000 places',
      expected: 0,
      got: 1000 * worstOf(capsulePlaces(radius, top), field!),
      unit: 'mm',
      tolerance: zeroMm,
    },
    {
      id: `${id}.pressure`,
      what: `departure of single vertices under a sleeve, ${where}`,
      source:
        'Laplace, P = T / R, on a bar of 50 kPa/mm given as an irregular triangle mesh; K 250 N/m, cut to R/1.25; root-mean-square over all vertices, hem rows left out',
      expected: 0,
      got: (100 * spread(innerRows(tube, tube.pressure), expected)) / expected,
      unit: '% rms',
      tolerance: percent,
    },
  ];
}

/** A place on the true skin, and its normal. */
interface Place {
  readonly at: Triple;
  readonly normal: Triple;
}

/** Half of them on the bar below `top`, half on the ball on it. */
function capsulePlaces(radius: number, top: number): Place[] {
  return Array.from({ length: 1000 }, (_, i) => {
    const angle = 0.7391 * i;
    const up = i % 2 === 0 ? (i + 0.5) / 1000 : 0;
    const side = Math.sqrt(1 - up * up);
    const normal: Triple = [side * Math.sin(angle), up, side * Math.cos(angle)];
    const centre = i % 2 === 0 ? top : top * ((0.618 * i) % 1);
    return { at: [radius * normal[0], centre + radius * up, radius * normal[2]], normal };
  });
}

/** The fillet from side to side, at several heights. */
function filletPlaces(): Place[] {
  const { fillet } = GROOVE;
  const { filletCentre } = grooveShape(GROOVE);
  const reach = Math.asin(GROOVE.apart / (GROOVE.radius + fillet));
  return Array.from({ length: 500 }, (_, i) => {
    const angle = reach * (((2 * 0.618 * i) % 2) - 1);
    const normal: Triple = [-Math.sin(angle), 0, Math.cos(angle)];
    return {
      at: [fillet * Math.sin(angle), (HEIGHT * i) / 500, filletCentre - fillet * Math.cos(angle)],
      normal,
    };
  });
}

/** The farthest, along their normals, that the zero of the field lies from these places; m, at most 4 mm. */
function worstOf(places: readonly Place[], { sample }: DistanceField): number {
  const into = new Float64Array(10);
  let worst = 0;
  for (const { at, normal } of places) {
    let low = -0.004;
    let high = 0.004;
    for (let i = 0; i < 40; i++) {
      const middle = (low + high) / 2;
      const [x, y, z] = triple((k) => at[k]! + middle * normal[k]!);
      sample(x, y, z, into);
      if (into[0]! < 0) low = middle;
      else high = middle;
    }
    worst = Math.max(worst, Math.abs(low));
  }
  return worst;
}

function grooveChecks(edgeMm: number): Check[] {
  const { radius, apart } = GROOVE;
  const skin = grooveMesh(GROOVE, -0.04, HEIGHT + 0.04, edgeMm / 1000);
  const field = fieldOf(skin, [apart + radius, 0, radius], HEIGHT);
  const { positions, offPressure } = clothOverGroove(field);
  const middle = middleOf(positions);
  const sample = new Float64Array(10);
  // Half way between the bars, where both are equally near and a spline is hardest put to it; the vertex lies beside it.
  field.sample(0, middle[1], middle[2], sample);
  const id = `creases.fold.skin-${String(edgeMm)}`;
  const where = `fold of 5 mm between bars of R 40 mm, skin of ${String(edgeMm)} mm edges`;
  const tangent = 'taut cloth spans the common tangent of the two bars, 40 mm over their axes';
  return [
    {
      id: `${id}.skin`,
      what: `farthest the contact lies from the true skin, ${where}`,
      source: 'a fillet that touches both bars, met along its normals from 500 places',
      expected: 0,
      got: 1000 * worstOf(filletPlaces(), field),
      unit: 'mm',
      tolerance: 0.2,
    },
    {
      id: `${id}.height`,
      what: `height of the cloth over the bottom of the fold, ${where}`,
      source: `${tangent}; the bottom lies 22 mm over them`,
      expected: 1000 * (radius - grooveShape(GROOVE).bottom),
      got: 1000 * (middle[2] - grooveShape(GROOVE).bottom),
      unit: 'mm',
      tolerance: 0.3,
    },
    {
      id: `${id}.gap`,
      what: `gap in the middle of the bridge, ${where}`,
      source: `${tangent}; the nearest skin is that of either bar, sqrt(36^2 + 40^2) - 40 mm away`,
      expected: 1000 * (Math.hypot(apart, radius) - radius),
      got: 1000 * sample[0]!,
      unit: 'mm',
      tolerance: 0.3,
    },
    {
      id: `${id}.bridge`,
      what: `pressure in the bridge, ${where}`,
      source: `${tangent}: nothing presses between the lines where it leaves them`,
      expected: 0,
      got: offPressure,
      unit: 'Pa',
      tolerance: 0,
    },
  ];
}

/** A tube round the grooved bar at rest; the largest pressure well within the bridges. */
function clothOverGroove(body: DistanceField) {
  const on = onGroove(GROOVE);
  // Laid on the hull, so that no cloth begins within the fold.
  const place = (around: number, along: number): Triple => {
    const [x, z] = on(around);
    return [x, HEIGHT * along, Math.abs(x) < GROOVE.apart ? Math.sign(z) * GROOVE.radius : z];
  };
  const levels = proofTube({
    rowCount: 2,
    columnCount: COLUMNS / 8,
    halvings: 3,
    place,
    relaxed: { around: 1 / STRETCH, along: 1 },
  });
  const tube = settleTube(
    { levels, laws: [linearLaw(STIFFNESS)], body, foundation: HARD, friction: 0.01 },
    COLUMNS,
  );
  const { positions } = tube.equilibrium;
  const offPressure = tube.pressure.reduce(
    (most, pressure, v) =>
      Math.abs(positions[3 * v]!) < 0.9 * GROOVE.apart ? Math.max(most, pressure) : most,
    0,
  );
  return { positions, offPressure };
}

/** The vertex in the middle of the front bridge, half way up. */
function middleOf(positions: Float64Array): Triple {
  let best = 0;
  let least = Infinity;
  for (let v = 0; 3 * v < positions.length; v++) {
    if (positions[3 * v + 2]! < 0) continue;
    const away = Math.hypot(positions[3 * v]!, positions[3 * v + 1]! - HEIGHT / 2);
    if (away < least) [least, best] = [away, v];
  }
  return triple((k) => positions[3 * best + k]!);
}
