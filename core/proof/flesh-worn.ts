import type { EquilibriumProblem } from '../equilibrium/equilibrium.ts';
import type { Flesh } from '../equilibrium/prepare-flesh.ts';
import { settleOnFlesh } from '../equilibrium/settle-on-flesh.ts';
import { tubeTriangles } from '../garment/tube-grid.ts';
import type { FleshCase } from '../io/flesh-cases.ts';
import { metresFromMm, pascalsFromKPa } from '../units/units.ts';
import type { Check } from './check.ts';
import { FLESH_CASES } from './data/flesh-reference.ts';
import { onRing, proofTube } from './proof-tube.ts';
import { linearLaw } from './settled-tube.ts';
import { cylinderBody } from './smooth-bodies.ts';

/** Bands of the flesh cases, and how many edges of cloth fit the thickness of the flesh. */
const WORN = ['B01', 'B02', 'B03', 'B06', 'B08'];
const EDGES_PER_DEPTH = 6;
/** Skin is meshed a little coarser than the cloth, so that no vertex lies on another. */
const SKIN_EDGE = 1.1;
/** Skin beyond the band, in thicknesses of flesh. */
const BEYOND = 5;
const SHARES = { indent: 0.03, bulge: 0.06 };

/** Bands of cloth that settle on a soft limb in three dimensions, as a garment does on a body. */
export const fleshWornChecks = (): Check[] =>
  FLESH_CASES.filter(({ id }) => WORN.includes(id)).flatMap((one) => {
    const { movementUnderCloth, skinMovement, residual, tolerance } = worn(one.inputs);
    const theirs = one.nlgeom!;
    const source =
      'CalculiX ccx 2.20, CAX8R, neo-Hooke, large displacements; p = k (r / r0 - 1) / r on the current radius';
    const check = (what: 'maxindent' | 'bulge', got: number, share: number): Check => ({
      id: `flesh.worn.${one.id}.${what}`,
      source,
      expected: theirs[what],
      got: 1e3 * got,
      unit: 'mm',
      tolerance: share * theirs[what],
    });
    return [
      check(
        'maxindent',
        movementUnderCloth.reduce((most, w) => Math.max(most, w), 0),
        SHARES.indent,
      ),
      check('bulge', -skinMovement.reduce((least, w) => Math.min(least, w), 0), SHARES.bulge),
      {
        id: `flesh.worn.${one.id}.residual`,
        source: 'forces of cloth and flesh balance',
        expected: 0,
        got: residual,
        unit: 'of the contact force',
        tolerance,
      },
    ];
  });

function worn(inputs: FleshCase['inputs']) {
  const search = settleOnFlesh(...bandOnLimb(inputs));
  let step = search.next();
  while (!step.done) step = search.next();
  return step.value;
}

function bandOnLimb({ R, H, E, nu, b, k, r0 }: FleshCase['inputs']): [EquilibriumProblem, Flesh] {
  const [radius, depth, width] = [metresFromMm(R), metresFromMm(H), metresFromMm(b)];
  const edge = Math.min(depth, 1.5 * width) / EDGES_PER_DEPTH;
  const foundation = (4 * pascalsFromKPa(E)) / depth;
  const levels = proofTube({
    rowCount: Math.max(1, Math.round(width / edge / 4)),
    columnCount: 2 * Math.round((Math.PI * radius) / edge / 4),
    halvings: 2,
    place: (around, along) => onRing(radius, width * (along - 0.5), around),
    relaxed: { girth: 2 * Math.PI * metresFromMm(r0!), length: width },
  });
  const skin = limbSkin(radius, width + 2 * BEYOND * depth, SKIN_EDGE * edge);
  const count = skin.positions.length / 3;
  return [
    {
      levels,
      laws: [linearLaw(k!)],
      body: cylinderBody(radius),
      foundation: levels.map(({ mesh }) => new Float64Array(mesh.positions.length / 3).fill(foundation)),
      friction: 0,
    },
    {
      body: {
        skin,
        tissueDepth: new Float64Array(count).fill(depth),
        foundation: new Float64Array(count).fill(foundation),
      },
      poisson: nu,
      skin: 'slides',
    },
  ];
}

/** The skin of a round limb about the y axis. */
function limbSkin(radius: number, length: number, edge: number) {
  const columnCount = Math.round((2 * Math.PI * radius) / edge);
  const rowCount = Math.round(length / edge);
  const positions = new Float64Array(3 * columnCount * (rowCount + 1));
  for (let v = 0; 3 * v < positions.length; v++) {
    const y = length * (Math.floor(v / columnCount) / rowCount - 0.5);
    positions.set(onRing(radius, y, (v % columnCount) / columnCount), 3 * v);
  }
  return { positions, triangles: tubeTriangles({ rowCount, columnCount, halvings: 0 }) };
}
