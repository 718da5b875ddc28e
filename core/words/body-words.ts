import type { BodyFaults, PlaceMm } from '../fault/body-faults.ts';
import type { BodyFindings } from '../fault/body-findings.ts';
import type { FaultWords, FindingWords } from './word-tables.ts';

const at = ({ xMm, yMm, zMm }: PlaceMm): string =>
  `at x ${xMm.toFixed(0)}, y ${yMm.toFixed(0)}, z ${zMm.toFixed(0)} mm (x to the left, y up, z to the front)`;

const several = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

const REPAIR = 'In a mesh program';

/** What is said of a body that cannot be read or used. */
export const bodyFaultWords: FaultWords<BodyFaults> = {
  'mesh/not-finite': ({ vertex, line, value }) => ({
    what: `Vertex ${vertex}${line === null ? '' : ` (line ${line})`} has the coordinate ${value}, which is no number.`,
    remedy: 'Export the body again; if the value is in the source, delete that vertex there.',
  }),
  'mesh/decimal-comma': ({ line, value }) => ({
    what: `Line ${line} writes ${value} with a decimal comma.`,
    remedy: 'Mesh files use decimal points: export again with an English number format.',
  }),
  'mesh/unreadable-line': ({ line, text, expected }) => ({
    what: `Line ${line} reads "${text}", where ${expected} should stand.`,
    remedy: 'Export the body again as OBJ text; if the line was edited by hand, correct it.',
  }),
  'mesh/bad-index': ({ line, triangle, value, vertexCount }) => ({
    what: `${line === null ? `Triangle ${triangle}` : `Line ${line}`} names vertex ${value}, but there are ${vertexCount}.`,
    remedy: 'The file is cut short or put together wrongly: export the whole body again.',
  }),
  'mesh/no-triangles': ({ vertexCount }) => ({
    what: `The file holds ${several(vertexCount, 'vertex', 'vertices')} but no surface.`,
    remedy: 'Export the body as a mesh with faces, not as points, lines or curves.',
  }),
  'mesh/too-large': ({ what, found, limit }) => ({
    what: `The file has ${found} ${what}; ${limit} are the most.`,
    remedy: `${REPAIR}, reduce the body to about 100 000 triangles: finer detail does not change a fit.`,
  }),
  'mesh/not-glb': ({ problem }) => ({
    what: `This is no GLB file: ${problem}.`,
    remedy: 'Export the body as binary glTF 2.0 (.glb), in one file.',
  }),
  'mesh/not-its-kind': ({ kind, problem }) => ({
    what: `This is no ${kind} file: ${problem}.`,
    remedy: `Export the body again as ${kind}; if the file is of another kind, give it the ending of that kind.`,
  }),
  'mesh/ends-early': ({ what, promised, byteCount }) => ({
    what: `The file promises ${promised} ${what} but ends before the last, after ${byteCount} bytes.`,
    remedy: 'The file is cut short: copy or export it again.',
  }),
  'mesh/glb-feature': ({ feature, name }) => ({
    what: `The file needs ${{ extension: 'the extension', 'outside file': 'another file,' }[feature]} ${name}, which is not read here.`,
    remedy: {
      extension: 'Export again without compression or extensions.',
      'outside file': 'Export as one .glb with everything embedded.',
    }[feature],
  }),
  'mesh/glb-broken': ({ place, problem }) => ({
    what: `The file contradicts itself in ${place}: ${problem}.`,
    remedy: 'The file is damaged or cut short: export it again.',
  }),
  'mesh/repeated-corner': ({ triangle, vertex, count }) => ({
    what: `${several(count, 'triangle has', 'triangles have')} the same vertex twice, the first is triangle ${triangle} (vertex ${vertex}).`,
    remedy: `${REPAIR}, dissolve degenerate faces.`,
  }),
  'mesh/open': (facts) => ({
    what: `The surface has a hole: ${several(facts.edgeCount, 'free edge', 'free edges')}, one of them ${at(facts)}.`,
    remedy: `${REPAIR}, fill the holes (also the cuts at neck, wrists and ankles), so that inside and outside are known.`,
  }),
  'mesh/sheets-meet': (facts) => ({
    what: `At ${several(facts.edgeCount, 'edge', 'edges')} more than two faces meet (${facts.sheetCount} at the first, ${at(facts)}).`,
    remedy: `${REPAIR}, remove faces inside the body and doubled faces ("select non-manifold").`,
  }),
  'mesh/turned-triangle': (facts) => ({
    what: `Along ${several(facts.edgeCount, 'edge', 'edges')} neighbouring faces point to opposite sides, first at triangle ${facts.triangle}, ${at(facts)}.`,
    remedy: `${REPAIR}, recalculate the normals so that all faces point outwards.`,
  }),
  'mesh/no-volume': ({ volumeCm3 }) => ({
    what: `The surface encloses ${volumeCm3.toPrecision(2)} cm³: it is flat, not a body.`,
    remedy: 'Export the skin as a closed surface, not a flat pattern or a doubled sheet.',
  }),
  'body/wrong-size': ({ heightMm, lowestMm, highestMm }) => ({
    what: `The body is ${heightMm < 10 ? heightMm.toPrecision(2) : heightMm.toFixed(0)} mm high; from ${lowestMm} to ${highestMm} mm is possible.`,
    remedy: 'Check the unit (mm, cm or m) and the up axis given for this file.',
  }),
  'body/axes-not-square': ({ up, front }) => ({
    what: `Up (${up}) and front (${front}) lie along the same axis of the file.`,
    remedy: 'Choose a front square to the up axis, for instance up +y and front +z.',
  }),
  'body/no-such-part': ({ wanted, known }) => ({
    what: `The file has no part called ${wanted}.`,
    remedy: `It has ${known.join(', ')}: choose one of these, or leave the choice to the largest surface.`,
  }),
  'body/too-wide': ({ widthMm, mostMm }) => ({
    what: `The surface taken for the skin is ${widthMm.toPrecision(3)} mm wide; ${mostMm} mm are the most.`,
    remedy: 'Check the unit and the part chosen: a floor or a room in the file is no skin.',
  }),
  'body/bad-tissue': ({ depthMm, modulusKPa }) => ({
    what: `A tissue depth of ${depthMm} mm with a modulus of ${modulusKPa} kPa is not possible.`,
    remedy: 'Give a depth from 1 to 200 mm and a modulus from 0.5 to 1000 kPa, or "rigid".',
  }),
};

/** What is said of a body that leaves something in doubt. */
export const bodyFindingWords: FindingWords<BodyFindings> = {
  'body/tissue-estimated': ({ modulusKPa }) =>
    `How far the flesh gives is an estimate (${modulusKPa.toFixed(0)} kPa over the tissue depth), not measured on this body.`,
  'body/tissue-even': ({ depthMm, modulusKPa }) =>
    `The flesh is taken as ${depthMm.toFixed(0)} mm of ${modulusKPa.toFixed(1)} kPa all over; bony places are harder, soft places softer.`,
  'body/tissue-transferred': ({ modulusKPa, isToMeasure }) =>
    `How deep the flesh is was carried over from ${isToMeasure ? 'a fit form of the same measures' : 'a usual fit form, scaled by girth'} (foundation modulus ${modulusKPa.toFixed(0)} kPa): estimates, not measured on this body.`,
  'body/taken-as-rigid': ({ stiffnessKPaPerMm }) =>
    `The body hardly gives (${stiffnessKPaPerMm.toFixed(0)} kPa per mm): on real flesh the highest pressures are lower.`,
  'body/turned-outward': ({ triangleCount }) =>
    `The file’s faces point inwards; all ${triangleCount} were turned outwards.`,
  'body/joined-vertices': ({ vertexCount }) =>
    `${several(vertexCount, 'vertex lies', 'vertices lie')} on top of another and ${vertexCount === 1 ? 'was' : 'were'} joined to close the surface.`,
  'body/several-pieces': ({ pieceCount }) =>
    `The body consists of ${pieceCount} separate closed pieces; cloth rests on whichever is nearest.`,
  'body/pinched': ({ vertexCount }) =>
    `At ${several(vertexCount, 'vertex', 'vertices')} the surface touches itself in a point; just there the side of the skin may be mistaken.`,
  'body/no-area': ({ triangleCount }) =>
    `${several(triangleCount, 'triangle has', 'triangles have')} no area; harmless, but the file could be cleaned.`,
  'body/crease-rounded': ({ edgeCount, radiusMm, xMm, yMm, zMm }) =>
    `The skin has ${several(edgeCount, 'edge', 'edges')} sharper than the mesh can draw, the sharpest at x ${xMm.toFixed(0)}, y ${yMm.toFixed(0)}, z ${zMm.toFixed(0)} mm: cloth feels them rounded to about ${radiusMm.toFixed(0)} mm.`,
  'body/coarse-skin': ({ edgeMm, finestMm }) =>
    `The body’s edges are ${edgeMm.toFixed(0)} mm long on average: hollows and ridges narrower than ${finestMm.toFixed(0)} mm are not seen.`,
};
