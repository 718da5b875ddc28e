import { NEAR_RIGID } from '../body/body.ts';
import type { Check } from './check.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { linearLaw, settleTube, type SettledTube } from './settled-tube.ts';
import { cylinderBody } from './smooth-bodies.ts';

const STIFFNESS = 250;
const RADIUS = 0.1;
const STRETCH = 1.25;
const HEIGHT = 0.03;
const ROWS = 4;
const COLUMNS = 144;
const FRICTION = 0.3;
/** How far the held line is carried round the bar, rad: enough for the whole tube to slip. */
const PULLED = 0.45;

/**
 * A tube on a hard bar, carried round by one line of it until all of it slips: from the pulled line to the one opposite
 * the tension falls to 1 / e^(mu pi) on the taut side, and rises by as much on the other.
 */
export function capstan(): Check[] {
  const levels = proofTube({
    rowCount: ROWS / 4,
    columnCount: COLUMNS / 4,
    halvings: 2,
    place: (around, along) => onRing(RADIUS, HEIGHT * along, around),
    relaxed: { girth: (2 * Math.PI * RADIUS) / STRETCH, length: HEIGHT },
  });
  const laid = levels.at(-1)!.mesh.positions;
  const start = new Float64Array(laid.length);
  for (let i = 0; i < laid.length; i += 3) {
    start[i] = laid[i]! * Math.cos(PULLED) + laid[i + 2]! * Math.sin(PULLED);
    start[i + 1] = laid[i + 1]!;
    start[i + 2] = laid[i + 2]! * Math.cos(PULLED) - laid[i]! * Math.sin(PULLED);
  }
  const held = levels.map(({ mesh }, level) => {
    const columns = (COLUMNS / 4) * 2 ** level;
    return Uint8Array.from(mesh.positions, (_, i) => (Math.floor(i / 3) % columns === 0 ? 1 : 0));
  });
  const tube = settleTube(
    {
      levels,
      laws: [linearLaw(STIFFNESS)],
      body: cylinderBody(RADIUS),
      foundation: NEAR_RIGID,
      friction: FRICTION,
      held,
      start,
    },
    COLUMNS,
  );
  const source = 'Euler-Eytelwein: T2 = T1 e^(mu theta); mu 0.3, R 100 mm; theta as found, about 120 deg';
  const check = (id: string, from: number, to: number): Check => {
    const angle = Math.abs(angleAt(tube, from) - angleAt(tube, to));
    const expected = Math.exp(FRICTION * angle);
    const got = tensionAt(tube, from) / tensionAt(tube, to);
    return { id: `capstan.${id}`, source, expected, got, unit: 'ratio', tolerance: 0.01 * expected };
  };
  const near = COLUMNS / 12;
  const far = (5 * COLUMNS) / 12;
  return [check('taut-side', COLUMNS - near, COLUMNS - far), check('other-side', far, near)];
}

/** How far round the bar a column of the middle ring lies from the pulled line, rad; 0 to 2 pi. */
function angleAt({ equilibrium: { positions } }: SettledTube, column: number): number {
  const at = 3 * ((ROWS / 2) * COLUMNS + column);
  const angle = Math.atan2(positions[at]!, positions[at + 2]!) - PULLED;
  return angle < 0 ? angle + 2 * Math.PI : angle;
}

/** Tension around at a column, from the length between its neighbours on the middle ring, N/m. */
function tensionAt({ equilibrium: { positions } }: SettledTube, column: number): number {
  const b = 3 * ((ROWS / 2) * COLUMNS + column);
  const a = b - 3;
  const c = b + 3;
  const length = (p: number, q: number) =>
    Math.hypot(
      positions[p]! - positions[q]!,
      positions[p + 1]! - positions[q + 1]!,
      positions[p + 2]! - positions[q + 2]!,
    );
  const relaxed = (4 * Math.PI * RADIUS) / STRETCH / COLUMNS;
  return STIFFNESS * ((length(a, b) + length(b, c)) / relaxed - 1);
}
