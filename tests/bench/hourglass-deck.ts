/**
 * Prints the bridged hollow of core/proof/hourglass-bridging.ts as an input deck of CalculiX ccx (mm, N, MPa), on the same
 * nodes and triangles: a membrane on a fixed body of bricks, divided twice as finely, that shrinks until it bridges.
 *
 * In node-to-surface contact the program counts 0.2265 of the true area behind a node (found by comparing mean pressures,
 * see core/proof/data/ccx-hourglass.ts): a slope of 0.01 MPa/mm makes the foundation of 2.265 kPa/mm.
 */
import { onRing, proofTube } from '../../core/proof/proof-tube.ts';
import { waistProfile } from '../../core/proof/smooth-bodies.ts';

const ROWS = 24;
const COLUMNS = 64;
const HEIGHT = 240;
/** Membrane: E t = 0.5 N/mm, no coupling; a Green strain of -0.2 as a temperature of -0.2 at an expansion of 1. */
const THICKNESS = 0.5;
const MODULUS = 1;
const STRAIN = -0.2;
const CONTACT_SLOPE = 0.01;
/** Laid just clear of the body, mm. */
const CLEAR = 0.01;
/** Body: its rings and columns, how far it goes on beyond the tube and how thick its bricks are, mm. */
const BODY = { rings: 52, columns: 128, beyond: 10, depth: 5 };
/** Numbers of the body's nodes and bricks begin here. */
const FIRST_OF_BODY = 100_000;

const profile = waistProfile(0.13, 0.025, 0.06);
const radiusAt = (z: number): number => 1000 * profile.radius(z / 1000);
const place = (x: number, y: number, z: number): string => [x, y, z].map((c) => c.toFixed(6)).join(', ');

/** Nodes and triangles of the tube, its axis along z. */
function tubeLines(): string[] {
  const levels = proofTube({
    rowCount: ROWS / 8,
    columnCount: COLUMNS / 8,
    halvings: 3,
    place: (around, along) => {
      const z = HEIGHT * (along - 0.5);
      return onRing((radiusAt(z) + CLEAR) / 1000, z / 1000, around);
    },
    relaxed: { around: 1, along: 1 },
  });
  const { mesh, edgeVertex } = levels.at(-1)!;
  const nodes: string[] = [];
  const hems: string[] = [];
  edgeVertex.forEach((onHem, v) => {
    const [x, up, depth] = mesh.positions.subarray(3 * v, 3 * v + 3);
    nodes.push(`${String(v + 1)}, ${place(1000 * depth!, 1000 * x!, 1000 * up!)}`);
    if (onHem) hems.push(`${String(v + 1)},`);
  });
  const triangles: string[] = [];
  for (let i = 0; i < mesh.triangles.length; i += 3) {
    const corners = Array.from(mesh.triangles.subarray(i, i + 3), (v) => v + 1);
    triangles.push([i / 3 + 1, ...corners].join(', '));
  }
  return [
    '*NODE, NSET=NTUBE',
    ...nodes,
    '*ELEMENT, TYPE=M3D3, ELSET=ETUBE',
    ...triangles,
    '*NSET, NSET=NHEM',
    ...hems,
  ];
}

/** The body as one coat of bricks; the second face of each looks outwards. */
function bodyLines(): string[] {
  const { rings, columns, beyond, depth } = BODY;
  const nodeAt = (ring: number, column: number, outer: number): number =>
    FIRST_OF_BODY + 2 * (ring * columns + (column % columns)) + outer;
  const nodes: string[] = [];
  const bricks: string[] = [];
  for (let ring = 0; ring <= rings; ring++) {
    const z = (HEIGHT + 2 * beyond) * (ring / rings - 0.5);
    for (let column = 0; column < columns; column++) {
      const angle = (2 * Math.PI * column) / columns;
      for (const outer of [0, 1]) {
        const r = radiusAt(z) - (outer === 1 ? 0 : depth);
        nodes.push(
          `${String(nodeAt(ring, column, outer))}, ${place(r * Math.cos(angle), r * Math.sin(angle), z)}`,
        );
      }
      if (ring === rings) continue;
      const coat = (outer: number): number[] => [
        nodeAt(ring, column, outer),
        nodeAt(ring, column + 1, outer),
        nodeAt(ring + 1, column + 1, outer),
        nodeAt(ring + 1, column, outer),
      ];
      bricks.push([FIRST_OF_BODY + ring * columns + column, ...coat(0), ...coat(1)].join(', '));
    }
  }
  return ['*NODE, NSET=NBODY', ...nodes, '*ELEMENT, TYPE=C3D8, ELSET=EBODY', ...bricks];
}

const stepLines = [
  '*MATERIAL, NAME=CLOTH',
  '*ELASTIC',
  `${MODULUS.toFixed(1)}, 0.`,
  '*EXPANSION, ZERO=0.',
  '1.',
  '*MATERIAL, NAME=FIXED',
  '*ELASTIC',
  '1000., 0.3',
  '*MEMBRANE SECTION, ELSET=ETUBE, MATERIAL=CLOTH',
  String(THICKNESS),
  '*SOLID SECTION, ELSET=EBODY, MATERIAL=FIXED',
  '*SURFACE, NAME=STUBE, TYPE=NODE',
  'NTUBE',
  '*SURFACE, NAME=SBODY, TYPE=ELEMENT',
  'EBODY, S2',
  '*SURFACE INTERACTION, NAME=TOUCH',
  '*SURFACE BEHAVIOR, PRESSURE-OVERCLOSURE=LINEAR',
  String(CONTACT_SLOPE),
  '*CONTACT PAIR, INTERACTION=TOUCH, TYPE=NODE TO SURFACE',
  'STUBE, SBODY',
  '*INITIAL CONDITIONS, TYPE=TEMPERATURE',
  'NTUBE, 0.',
  'NBODY, 0.',
  '*BOUNDARY',
  'NBODY, 1, 3',
  'NHEM, 3, 3',
  '*STEP, NLGEOM, INC=200',
  '*STATIC',
  '0.1, 1.',
  '*TEMPERATURE',
  `NTUBE, ${String(STRAIN)}`,
  '*NODE PRINT, NSET=NTUBE, FREQUENCY=999',
  'U',
  '*END STEP',
];

console.log([...tubeLines(), ...bodyLines(), ...stepLines].join('\n'));
