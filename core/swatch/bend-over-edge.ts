import { bendingTensor } from '../equilibrium/bending-force.ts';
import { envelopeOf, factorise, solveFactor } from '../equilibrium/envelope-cholesky.ts';
import { planeStiffness } from '../equilibrium/plane-force.ts';
import { sheetNewton, type SheetSolver } from '../equilibrium/sheet-newton.ts';
import { sheetSystem, type SheetSystem } from '../equilibrium/sheet-system.ts';
import { elasticaAtChord } from '../fabric/heavy-elastica.ts';
import type { Direction } from '../fabric/fabric.ts';
import { STRIP_ANGLE } from '../fabric/virtual-strip.ts';
import { STANDARD_GRAVITY } from '../units/units.ts';
import { evenColumns, stripMesh, type StripMesh, type StripSize } from './strip-mesh.ts';
import type { CantileverRest, SwatchFabric, SwatchProgress } from './swatch.ts';

/** A strip of the cantilever test, as it is looked for. */
export interface CantileverWish {
  readonly direction: Direction;
  /** Of the slope below the horizontal, rad; above 0, below pi/2. */
  readonly slope: number;
}

/** Width of the strip, m. @see ASTM D1388 and BS 3356, 25 mm (from memory). */
const WIDTH = 0.025;
const HANGING_ROWS = 20;
/** Rows that lie while the search goes on; odd, so that more can be laid before them at the end. */
const LYING_ROWS = 3;
const TOLERANCE = 1e-6;
const MOST_STEPS = 80;
/** The overhang is found to this share of itself. */
const OVERHANG_ACCURACY = 1e-4;
const MOST_OVERHANGS = 8;

/**
 * Pushes a strip over an edge until its end touches the slope: overhangs are tried until the line from the edge to the
 * middle of the end hangs at the slope's angle, each strip starting from the last one's shape.
 *
 * The strip lies clamped before the edge, as under the tester's ruler; its end is free, and may twist.
 */
export function* bendOverEdge(
  fabric: SwatchFabric,
  { direction, slope }: CantileverWish,
): Generator<SwatchProgress, CantileverRest> {
  const angle = STRIP_ANGLE[direction];
  const { load } = elasticaAtChord(slope);
  // The slender strip's overhang: a first try near the end.
  const rigidity = fabric.bendingRigidity[direction];
  let overhang = Math.cbrt((load * rigidity) / (fabric.arealDensity * STANDARD_GRAVITY));
  const columns = evenColumns(overhang, WIDTH, HANGING_ROWS);
  let start: Float64Array | null = null;
  let last: { overhang: number; chord: number } | null = null;
  for (let trial = 0; ; trial++) {
    const size: StripSize = {
      overhang,
      width: WIDTH,
      angle,
      columns,
      hangingRows: HANGING_ROWS,
      lyingRows: LYING_ROWS,
    };
    const strip: SettledStrip = yield* settleStrip(fabric, size, { start, trial });
    const chord = Math.atan2(strip.tip[1], strip.tip[0]);
    // The chord's angle grows about as the overhang's square where nothing better is known yet.
    const rate: number = last ? (chord - last.chord) / (overhang - last.overhang) : (2 * slope) / overhang;
    const next: number = overhang + (slope - chord) / rate;
    const found = Math.abs(next - overhang) <= OVERHANG_ACCURACY * overhang;
    if (found || trial === MOST_OVERHANGS) {
      return { ...layBefore(strip, size), overhang, atRest: found && strip.system.sum.residual <= TOLERANCE };
    }
    last = { overhang, chord };
    start = strip.system.positions.map((x) => (x * next) / overhang);
    overhang = next;
  }
}

/** A strip at rest at one overhang. */
export interface SettledStrip {
  readonly mesh: StripMesh;
  readonly system: SheetSystem;
  /** The middle of its end from the edge: outward and down, m. */
  readonly tip: readonly [number, number];
}

/**
 * A strip that hangs over by a given length, at rest.
 *
 * @param from - `start`: positions of the same mesh, flat if null.
 */
export function* settleStrip(
  fabric: SwatchFabric,
  size: StripSize,
  { start, trial }: { start: Float64Array | null; trial: number },
): Generator<SwatchProgress, SettledStrip> {
  const mesh = stripMesh(size);
  const positions = flatPositions(mesh);
  const held = Uint8Array.from(positions, (_, i) => mesh.lies[Math.floor(i / 3)]!);
  if (start) for (let i = 0; i < held.length; i++) if (!held[i]) positions[i] = start[i]!;
  const system = sheetSystem(
    {
      sheet: mesh,
      plane: planeStiffness(fabric.law),
      bending: bendingTensor(fabric.bendingRigidity),
      arealDensity: fabric.arealDensity,
      support: null,
      held,
    },
    positions,
  );
  const envelope = envelopeOf(system.matrix.pattern);
  const solver: SheetSolver = {
    factorise: (matrix) => factorise(matrix, envelope),
    solve: (b, into) => solveFactor(envelope, b, into),
  };
  const goal = { tolerance: TOLERANCE, mostSteps: MOST_STEPS, longestStep: size.overhang / 4 };
  let iteration = 0;
  for (const residual of sheetNewton(system, solver, goal)) {
    yield { level: trial, levelCount: MOST_OVERHANGS + 1, iteration: iteration++, residual };
  }
  return { mesh, system, tip: tipOf(mesh, positions) };
}

function flatPositions({ along }: StripMesh): Float64Array {
  const positions = new Float64Array((3 * along.length) / 2);
  for (let v = 0; 3 * v < positions.length; v++) positions.set([along[2 * v]!, 0, -along[2 * v + 1]!], 3 * v);
  return positions;
}

function tipOf({ along }: StripMesh, positions: Float64Array): [number, number] {
  const end = along.at(-2)!;
  let forward = 0;
  let down = 0;
  let count = 0;
  for (let v = 0; 2 * v < along.length; v++) {
    if (along[2 * v]! < end) continue;
    forward += positions[3 * v]!;
    down -= positions[3 * v + 1]!;
    count++;
  }
  return [forward / count, down / count];
}

/** The strip with more of it lying before the edge: rows that lie flat change nothing of what hangs. */
function layBefore({ system, tip }: SettledStrip, size: StripSize) {
  const mesh = stripMesh({ ...size, lyingRows: size.hangingRows + 1 });
  const positions = flatPositions(mesh);
  positions.set(system.positions, positions.length - system.positions.length);
  return { positions, triangles: mesh.triangles, flat: mesh.flat, residual: system.sum.residual, tip };
}
