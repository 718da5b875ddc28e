import { fleshLayer, spreadMovement, type FleshLayer } from '../equilibrium/flesh-layer.ts';
import { stiffened } from '../equilibrium/flesh-kernel.ts';
import { tubeTriangles } from '../garment/tube-grid.ts';
import type { FleshCase } from '../io/flesh-cases.ts';
import { metresFromMm, pascalsFromKPa } from '../units/units.ts';

/** Vertices round the ring: what is pressed evenly round needs few. */
const COLUMNS = 24;

/** As many halvings as make every diagonal rise the same way. */
const ONE_WAY = 20;

/** A soft ring meshed for a check; rows at the heights z (m). */
export interface FleshRing {
  readonly layer: FleshLayer;
  readonly z: Float64Array;
  readonly columns: number;
  readonly depth: number;
}

/** What a ring was pressed to. mm, kPa. */
export interface RingOutcome {
  readonly centre: number;
  readonly maxindent: number;
  readonly bulge: number;
  /** From the band's edge. */
  readonly bulgePlace: number;
  readonly meanPressure: number;
  readonly centreRadius: number;
}

/**
 * The tube of a round limb with flesh of one thickness over a firm core. R, H in m, E in Pa.
 *
 * @param options.heldTo - Skin up to this height does not slide, m.
 */
export function fleshRing(
  { R, H, E, nu }: { R: number; H: number; E: number; nu: number },
  z: Float64Array,
  { columns = COLUMNS, heldTo }: { columns?: number; heldTo?: number } = {},
): FleshRing {
  const rowCount = z.length - 1;
  const positions = new Float64Array(3 * z.length * columns);
  for (let v = 0; 3 * v < positions.length; v++) {
    const angle = (2 * Math.PI * (v % columns)) / columns;
    positions.set([R * Math.sin(angle), z[Math.floor(v / columns)]!, R * Math.cos(angle)], 3 * v);
  }
  const triangles = tubeTriangles({ rowCount, columnCount: columns, halvings: ONE_WAY });
  const count = positions.length / 3;
  const skin = {
    mesh: { positions, triangles },
    depth: new Float64Array(count).fill(H),
    give: new Float64Array(count).fill(H / E),
  };
  const held =
    heldTo === undefined
      ? undefined
      : skin.depth.map((_, v) => (positions[3 * v + 1]! <= heldTo + 1e-9 ? 1 : 0));
  return { layer: fleshLayer(skin, nu, held && { held: Uint8Array.from(held) }), z, columns, depth: H };
}

/**
 * Presses the ring of a case, on the mesh and by the code that a body's skin uses: rows H/16 apart at the band's edge,
 * growing by 1.15 a row to H/5 both ways, from the middle (a mirror) to 8 H beyond the edge.
 *
 * A band gives in with the skin: p = k (r / r0 - 1) / r, taken anew at r = R - w until it stays.
 *
 * @param how.large - With the stiffening of deep indents; else small displacements.
 * @param how.held - The skin under the band does not slide along the limb.
 */
export function pressRing(
  { inputs }: Pick<FleshCase, 'inputs'>,
  how: { large: boolean; held?: boolean },
): RingOutcome {
  const { R, H, E, nu, b } = inputs;
  const size = { R: metresFromMm(R), H: metresFromMm(H), E: pascalsFromKPa(E), nu };
  const [half, soft] = [metresFromMm(b) / 2, softness(inputs)];
  const rows = gradedRows(half, size.H, soft);
  const ring = fleshRing(size, rows, { ...(how.held && { heldTo: half + soft / 2 }) });
  const shares = pressedShares(rows, half, soft);
  let movement = new Float64Array(ring.z.length);
  let pressure = pressureOf(inputs, movement);
  const rounds = inputs.kind === 'band' ? BAND_ROUNDS : 1;
  for (let round = 0; round < rounds; round++) {
    const next = press(
      ring,
      pressure.map((p, row) => p * shares[row]!),
      how.large,
    );
    const change = next.reduce((most, w, row) => Math.max(most, Math.abs(w - movement[row]!)), 0);
    movement = next;
    pressure = pressureOf(inputs, movement);
    if (change < 1e-6 * size.H) break;
  }
  return outcomeOf(inputs, ring.z, movement, pressure);
}

const BAND_ROUNDS = 60;

/** Movement of every row, m, by a pressure per row, Pa. */
export function press(ring: FleshRing, pressure: Float64Array, large: boolean): Float64Array<ArrayBuffer> {
  const { layer, z, columns, depth } = ring;
  const all = new Float64Array(z.length * columns);
  for (let v = 0; v < all.length; v++) all[v] = pressure[Math.floor(v / columns)]!;
  const spread = new Float64Array(all.length);
  spreadMovement(layer, all, spread);
  return Float64Array.from(pressure, (p, row) => {
    const w = spread[row * columns]! + layer.local[row * columns]! * p;
    return large ? stiffened(w, depth) : w;
  });
}

type Inputs = FleshCase['inputs'];

const softness = ({ edge, soft }: Inputs): number => (edge === 'soft' ? metresFromMm(soft!) : 0);

/** Pressure under the band on each row, were it wholly under it; Pa. */
function pressureOf({ kind, p, k, r0, R }: Inputs, movement: Float64Array): Float64Array {
  if (kind === 'pressure') return movement.map(() => pascalsFromKPa(p!));
  return movement.map((w) => {
    const r = metresFromMm(R) - w;
    return (k! * (r / metresFromMm(r0!) - 1)) / r;
  });
}

/** Rows fine where the pressure ends, over the whole of a soft end; m. */
function gradedRows(half: number, depth: number, soft: number): Float64Array {
  const finest = Math.min(depth, 2 * half) / 16;
  const [inner, outer] = [half - soft / 2, half + soft / 2];
  const rampRows = soft > 0 ? Math.ceil(soft / finest) : 0;
  const ramp = Array.from({ length: rampRows }, (_, i) => inner + (soft * (i + 1)) / rampRows);
  const inwards = growing(inner, finest, depth / 5).map((way) => inner - way);
  const outwards = growing(half + 8 * depth - outer, finest, depth / 5).map((way) => outer + way);
  return Float64Array.from([...inwards.toReversed(), inner, ...ramp, ...outwards]);
}

/** Distances from 0 to exactly `length`, the first `finest` long, each step 1.15 times the last up to `most`. */
function growing(length: number, finest: number, most: number): number[] {
  const ways: number[] = [];
  let way = 0;
  for (let step = finest; way < length; step = Math.min(1.15 * step, most)) ways.push((way += step));
  return ways.map((one) => (one * length) / way);
}

/** How much of each row's strip of skin is pressed: all, none, half at a sharp end, a cosine over a soft one. */
function pressedShares(z: Float64Array, half: number, soft: number): Float64Array {
  return z.map((at, row) => {
    if (soft > 0) {
      const part = Math.min(Math.max((at - (half - soft / 2)) / soft, 0), 1);
      return 0.5 * (1 + Math.cos(Math.PI * part));
    }
    if (Math.abs(at - half) > 1e-9) return at < half ? 1 : 0;
    const [before, after] = [at - z[row - 1]!, z[row + 1]! - at];
    return before / (before + after);
  });
}

function outcomeOf(
  inputs: Inputs,
  z: Float64Array,
  movement: Float64Array,
  pressure: Float64Array,
): RingOutcome {
  const { R, b } = inputs;
  const half = metresFromMm(b) / 2;
  const deepest = turningPoint(z, movement, 1);
  const bulge = turningPoint(z, movement, -1);
  let [sum, length] = [0, 0];
  for (let row = 0; row + 1 < z.length && z[row + 1]! <= half + 1e-9; row++) {
    const step = z[row + 1]! - z[row]!;
    sum += (step * (pressure[row]! + pressure[row + 1]!)) / 2;
    length += step;
  }
  return {
    centre: 1e3 * movement[0]!,
    maxindent: 1e3 * deepest.value,
    bulge: -1e3 * bulge.value,
    bulgePlace: 1e3 * (bulge.at - half),
    meanPressure: sum / length / 1e3,
    centreRadius: R - 1e3 * movement[0]!,
  };
}

/** Largest (sign 1) or smallest value, by the parabola through the row and its neighbours. */
function turningPoint(z: Float64Array, values: Float64Array, sign: 1 | -1): { at: number; value: number } {
  let row = 0;
  for (let i = 1; i < values.length; i++) if (sign * values[i]! > sign * values[row]!) row = i;
  if (row === 0 || row === values.length - 1) return { at: z[row]!, value: values[row]! };
  const [x, y] = [z[row - 1]! - z[row]!, z[row + 1]! - z[row]!];
  const [f, g] = [values[row - 1]! - values[row]!, values[row + 1]! - values[row]!];
  const bend = (f / x - g / y) / (x - y);
  const slope = f / x - bend * x;
  return { at: z[row]! - slope / (2 * bend), value: values[row]! - (slope * slope) / (4 * bend) };
}
