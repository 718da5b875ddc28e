import type { DistanceField } from '../body/distance-field.ts';
import { settle } from '../equilibrium/settle.ts';
import { createTensionResponse, evaluateTension } from '../fabric/evaluate-tension.ts';
import { lawFromStrips, type IdealStrip } from '../fabric/law-from-strips.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import { STRIP_ANGLE } from '../fabric/virtual-strip.ts';
import { deformationOf } from '../garment/deformation.ts';
import type { ClothLevel } from '../garment/garment.ts';
import { evenColumns, stripMesh } from '../swatch/strip-mesh.ts';
import type { Check } from './check.ts';
import { flatCloth } from './flat-cloth.ts';

/** Shear modulus times thickness of the ideal rubber sheet, N/m. */
const RUBBER = 100;
const LENGTH = 0.1;
const WIDTH = 0.04;
const ROWS = 20;

const tensionOf = (l: number): number => RUBBER * (l - l ** -2);

/** Strips of meshed cloth, cut along warp, weft and bias and pulled with their ends free to narrow. */
export function* meshedStrips(): Generator<void, Check[]> {
  const stretches = Array.from({ length: 30 }, (_, i) => 1 + (i + 1) / 50);
  const strip: IdealStrip = {
    load: stretches.map((l) => [l, tensionOf(l)] as const),
    width: stretches.map((l) => [l, l ** -0.5] as const),
  };
  const law = lawFromStrips({ warp: strip, weft: strip, shear: { bias: strip } });
  const checks: Check[] = [];
  for (const direction of ['warp', 'weft', 'bias'] as const) {
    for (const stretch of [1.1, 1.25, 1.4]) checks.push(...pulled(law, direction, stretch));
    yield;
  }
  return checks;
}

function pulled(law: TensionLaw, direction: keyof typeof STRIP_ANGLE, stretch: number): Check[] {
  const angle = STRIP_ANGLE[direction];
  const columns = evenColumns(LENGTH, WIDTH, ROWS);
  const size = { overhang: LENGTH, width: WIDTH, angle, hangingRows: ROWS, lyingRows: 0, columns };
  const sheet = stripMesh(size);
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const level = flatCloth(sheet, (u, v) => [v * cos - u * sin, stretch * (u * cos + v * sin), 0]);
  const last = (v: number) => sheet.along[2 * v]! < 1e-9 || sheet.along[2 * v]! > LENGTH - 1e-9;
  const held = Uint8Array.from(level.mesh.positions, (_, i) =>
    i % 3 === 2 || (i % 3 === 1 && last(Math.floor(i / 3))) || i === 0 ? 1 : 0,
  );
  const positions = pull(level, law, held);
  const share = direction === 'bias' ? 0.01 : 0.001;
  const text = `a meshed ${direction} strip of ideal rubber at stretch ratio ${String(stretch)}`;
  const common = {
    source:
      'Neo-Hookean sheet, Treloar, The Physics of Rubber Elasticity, 1975, ch. 4: T = G (l - l^-2), width l^(-1/2)',
  };
  return [
    {
      id: `mesh-strip.${direction}.force-${String(stretch)}`,
      what: `force of ${text}`,
      ...common,
      expected: tensionOf(stretch),
      got: meanForce(level, law, positions, angle),
      unit: 'N/m',
      tolerance: share * tensionOf(stretch),
    },
    {
      id: `mesh-strip.${direction}.width-${String(stretch)}`,
      what: `width of ${text}`,
      ...common,
      expected: stretch ** -0.5,
      got: widthOf(positions) / WIDTH,
      unit: '1',
      tolerance: direction === 'bias' ? 0.01 : 0.001,
    },
  ];
}

const NOTHING: DistanceField = {
  sample: (_x, _y, _z, into) => {
    into.fill(0);
    into[0] = 1;
    into[3] = 1;
  },
};

function pull(level: ClothLevel, law: TensionLaw, held: Uint8Array): Float64Array {
  const foundation = [new Float64Array(level.mesh.positions.length / 3)];
  const search = settle({
    levels: [level],
    laws: [law],
    body: NOTHING,
    foundation,
    friction: 0,
    held: [held],
    tolerance: 1e-8,
  });
  let step = search.next();
  while (!step.done) step = search.next();
  return step.value.positions;
}

/** Force along the strip per natural width, from the mean of the first Piola-Kirchhoff tension: F L = integral of P. */
function meanForce(level: ClothLevel, law: TensionLaw, positions: Float64Array, angle: number): number {
  const deformation = new Float64Array(6);
  const response = createTensionResponse();
  let sum = 0;
  let area = 0;
  for (let t = 0; t < level.restArea.length; t++) {
    deformationOf(level, positions, t, deformation);
    evaluateTension(law, deformation, false, response);
    const along = response.stress[1]! * Math.cos(angle) + response.stress[4]! * Math.sin(angle);
    sum += along * level.restArea[t]!;
    area += level.restArea[t]!;
  }
  return sum / area;
}

function widthOf(positions: Float64Array): number {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < positions.length; i += 3) {
    low = Math.min(low, positions[i]!);
    high = Math.max(high, positions[i]!);
  }
  return high - low;
}
