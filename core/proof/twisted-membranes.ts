import type { DistanceField } from '../body/distance-field.ts';
import type { Equilibrium } from '../equilibrium/equilibrium.ts';
import { addMembraneGradient, membraneRoom } from '../equilibrium/membrane-force.ts';
import { settle } from '../equilibrium/settle.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import type { ClothLevel } from '../garment/garment.ts';
import type { Check } from './check.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { isotropicLaw } from './sheared-panels.ts';

const RING =
  'Reissner 1938 and Mansfield, Proc. R. Soc. A 316 (1970) 269 (from memory), derived here for small strains of an ' +
  'isotropic sheet: in a ring wrinkled all over the tension runs along straight lines that pass the middle at one ' +
  'distance d, s = q / sqrt(r^2 - d^2); M(d) = 4 pi E turn d^2 / ln((b^2 - d^2) / (a^2 - d^2)), d where that is greatest';
const TUBE =
  'derived here for small strains of an isotropic sheet that does not narrow: in a tube wrinkled all over the tension ' +
  'runs along straight lines from ring to ring, parallel in the unrolled cloth; of all such families the one that is ' +
  'stretched most carries, and the tube is a hyperboloid';

const STIFFNESS = 300;

/** A skin that is nowhere near. */
const nowhere: DistanceField = {
  sample: (_x, _y, _z, into) => {
    into.fill(0);
    into[0] = 1;
    into[1] = 1;
  },
};

/** Cloth between two rings, the outer or upper one turned, with nothing inside. */
interface Twisted {
  readonly levels: readonly ClothLevel[];
  readonly columnCount: number;
  readonly law: TensionLaw;
  /** rad. */
  readonly turn: number;
}

/** Lets it settle from having been turned evenly; the moment it takes, N m. */
function settleTwisted({ levels, law, columnCount, turn }: Twisted): { rest: Equilibrium; moment: number } {
  const finest = levels.at(-1)!;
  const rows = finest.mesh.positions.length / 3 / columnCount - 1;
  const start = finest.mesh.positions.slice();
  for (let v = 0; 3 * v < start.length; v++) {
    const by = (turn * Math.floor(v / columnCount)) / rows;
    const x = start[3 * v]!;
    const z = start[3 * v + 2]!;
    start[3 * v] = x * Math.cos(by) + z * Math.sin(by);
    start[3 * v + 2] = z * Math.cos(by) - x * Math.sin(by);
  }
  const search = settle({
    levels,
    laws: [law],
    body: nowhere,
    foundation: levels.map(({ edgeVertex }) => new Float64Array(edgeVertex.length)),
    friction: 0,
    held: levels.map(({ mesh, edgeVertex }) =>
      Uint8Array.from(mesh.positions, (_, i) => edgeVertex[Math.floor(i / 3)]!),
    ),
    start,
    tolerance: 1e-6,
  });
  let step = search.next();
  while (!step.done) step = search.next();
  return { rest: step.value, moment: momentOf(finest, law, step.value.positions) };
}

/** Moment of the cloth about the y axis on its last ring. */
function momentOf(level: ClothLevel, law: TensionLaw, positions: Float64Array): number {
  const gradient = new Float64Array(positions.length);
  const pull = { energy: 0, cornerForceSquared: 0 };
  addMembraneGradient({ level, laws: [law], room: membraneRoom() }, positions, { gradient, pull });
  let moment = 0;
  for (let i = 0; i < positions.length; i += 3) {
    const isLast = i >= positions.length / 2 && level.edgeVertex[i / 3] === 1;
    if (isLast) moment += positions[i + 2]! * gradient[i]! - positions[i]! * gradient[i + 2]!;
  }
  return moment;
}

/** The greatest value of a function with one hill between two places, and where. @see golden-section search. */
function summit(of: (x: number) => number, low: number, high: number): { at: number; value: number } {
  const share = (Math.sqrt(5) - 1) / 2;
  let a = low;
  let b = high;
  while (b - a > 1e-10 * (high - low)) {
    const left = b - share * (b - a);
    const right = a + share * (b - a);
    if (of(left) < of(right)) a = left;
    else b = right;
  }
  return { at: (a + b) / 2, value: of((a + b) / 2) };
}

const INNER = 0.05;
const OUTER = 0.15;

/** A flat ring whose outer edge is turned a little against its inner edge. */
function twistedRing(nu: number): Check[] {
  const turn = 0.01;
  const columnCount = 96;
  const levels = proofTube({
    rowCount: 5,
    columnCount: columnCount / 4,
    halvings: 2,
    place: (around, along) => onRing(INNER + (OUTER - INNER) * along, 0, around),
    relaxed: { around: 1, along: 1 },
  });
  const { rest, moment } = settleTwisted({ levels, columnCount, turn, law: isotropicLaw(STIFFNESS, nu) });
  const most = summit((d) => d ** 2 / Math.log((OUTER ** 2 - d ** 2) / (INNER ** 2 - d ** 2)), 1e-6, INNER);
  const expected = 4 * Math.PI * STIFFNESS * turn * most.value;
  return [
    {
      id: `twisted.ring.nu-${nu}.moment`,
      source: RING,
      expected: 1000 * expected,
      got: 1000 * moment,
      unit: 'mN m',
      tolerance: 0.03 * 1000 * expected,
    },
    atRest(`twisted.ring.nu-${nu}.residual`, rest),
  ];
}

const atRest = (id: string, { residual, tolerance }: Equilibrium): Check => ({
  id,
  source: 'balance of forces',
  expected: 0,
  got: residual,
  unit: '1',
  tolerance,
});

const RADIUS = 0.1;
const LENGTH = 0.3;

/** A tube between two rings, one turned. */
function twistedTube(degrees: number): Check[] {
  const turn = (degrees * Math.PI) / 180;
  const columnCount = 96;
  const levels = proofTube({
    rowCount: 6,
    columnCount: columnCount / 8,
    halvings: 3,
    place: (around, along) => onRing(RADIUS, LENGTH * along, around),
    relaxed: { girth: 2 * Math.PI * RADIUS, length: LENGTH },
  });
  const { rest, moment } = settleTwisted({ levels, columnCount, turn, law: isotropicLaw(STIFFNESS, 0) });
  // A line of the cloth that winds by w from ring to ring, and the straight one it becomes.
  const unstretched = (w: number) => Math.hypot(LENGTH, RADIUS * w);
  const straight = (w: number) => Math.hypot(LENGTH, 2 * RADIUS * Math.sin((w + turn) / 2));
  const { at, value } = summit((w) => straight(w) / unstretched(w) - 1, 0, Math.PI / 2);
  const slope = (RADIUS ** 2 * Math.sin(at + turn)) / (straight(at) * unstretched(at));
  const expected = 2 * Math.PI * RADIUS * LENGTH * STIFFNESS * value * slope;
  let waist = Infinity;
  for (let i = 0; i < rest.positions.length; i += 3) {
    waist = Math.min(waist, Math.hypot(rest.positions[i]!, rest.positions[i + 2]!));
  }
  const narrowing = 1000 * RADIUS * (1 - Math.cos((at + turn) / 2));
  return [
    {
      id: `twisted.tube.${degrees}.moment`,
      source: TUBE,
      expected: 1000 * expected,
      got: 1000 * moment,
      unit: 'mN m',
      tolerance: 0.02 * 1000 * expected,
    },
    {
      id: `twisted.tube.${degrees}.waist`,
      source: TUBE,
      expected: narrowing,
      got: 1000 * (RADIUS - waist),
      unit: 'mm',
      tolerance: 0.02 * narrowing,
    },
    atRest(`twisted.tube.${degrees}.residual`, rest),
  ];
}

/** Membranes that carry a twist by wrinkling all over. */
export function* twistedMembranes(): Generator<void, Check[]> {
  const checks = [...twistedRing(0), ...twistedRing(0.3)];
  for (const degrees of [5, 10, 20]) {
    yield;
    checks.push(...twistedTube(degrees));
  }
  return checks;
}
