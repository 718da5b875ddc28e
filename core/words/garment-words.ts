import type { GarmentFaults } from '../fault/garment-faults.ts';
import type { GarmentFindings } from '../fault/garment-findings.ts';
import type { FaultWords, FindingWords } from './word-tables.ts';

const mm = (value: number): string => `${value.toFixed(0)} mm`;

const share = (percent: number): string => `${percent < 10 ? percent.toFixed(1) : percent.toFixed(0)} %`;

const regionNames: Record<string, string> = {
  trunk: 'the trunk',
  leftLeg: 'the left leg',
  rightLeg: 'the right leg',
  whole: 'one single piece',
};

/** What is said of a garment that cannot be laid on the body. */
export const garmentFaultWords: FaultWords<GarmentFaults> = {
  'garment/level-off-body': ({ levelMm, lowestMm, highestMm }) => ({
    what: `The garment reaches the height ${mm(levelMm)}, but the body stands between ${mm(lowestMm)} and ${mm(highestMm)}.`,
    remedy:
      'Give heights in mm along the body’s up axis, measured from the same zero as the body (the fit body stands on 0).',
  }),
  'garment/region-not-here': ({ region, levelMm, pieceCount }) => ({
    what: `At ${mm(levelMm)} the body has ${pieceCount} separate ${pieceCount === 1 ? 'piece' : 'pieces'}, none of which is ${regionNames[region] ?? region}.`,
    remedy:
      'Choose another region (trunk, leftLeg, rightLeg, whole) or other heights: a trunk ends at the crotch, legs begin below it.',
  }),
  'garment/limbs-joined': ({ region, levelMm }) => ({
    what: `At ${mm(levelMm)} other limbs have joined ${regionNames[region] ?? region}: a plain tube cannot go round it there.`,
    remedy: 'End a tube round the trunk below the armpit, and a tube round a leg below the crotch.',
  }),
  'garment/levels-swapped': ({ fromMm, toMm }) => ({
    what: `fromMm (${mm(fromMm)}) is not below toMm (${mm(toMm)}).`,
    remedy: 'fromMm is the height of the lower hem, toMm that of the upper one.',
  }),
  'garment/too-short': ({ fromMm, toMm, leastMm }) => ({
    what: `From ${mm(fromMm)} to ${mm(toMm)} there is no room for a mesh.`,
    remedy: `Make the tube at least ${mm(leastMm)} long, or ask for a finer edgeMm.`,
  }),
  'garment/girth-off-garment': ({ index, atMm, fromMm, toMm }) => ({
    what: `girths[${index}] is given at ${mm(atMm)}, outside the garment (${mm(fromMm)} to ${mm(toMm)}).`,
    remedy: 'Give each relaxed girth at a height between the two hems, hems included.',
  }),
  'garment/girths-not-rising': ({ index, atMm, previousMm }) => ({
    what: `girths[${index}] at ${mm(atMm)} does not lie above the one before it at ${mm(previousMm)}.`,
    remedy: 'List the girths from the lower hem upwards, each height once.',
  }),
  'garment/girth-too-small': ({ index, relaxedMm, bodyMm, stretchPercent }) => ({
    what: `girths[${index}] is ${mm(relaxedMm)} relaxed on a body of ${mm(bodyMm)}: a stretch of ${stretchPercent.toFixed(0)} %.`,
    remedy: 'Check the unit and whether half girths were given; a relaxed girth is the whole way round.',
  }),
  'garment/band-curve-empty': ({ index }) => ({
    what: `bands[${index}] has no force at any length beyond its relaxed one.`,
    remedy: 'Give its curve as pairs of extension in percent and force in N, e.g. [[20, 1.5], [40, 2.6]].',
  }),
  'garment/band-curve-not-rising': ({ index, row, percent, forceN }) => ({
    what: `The curve of bands[${index}] does not rise at its reading ${row + 1} (${percent.toFixed(0)} %, ${forceN.toFixed(2)} N).`,
    remedy: 'Both extension and force must grow from each reading to the next, starting from 0.',
  }),
  'garment/band-off-garment': ({ index, fromMm, toMm, lengthMm }) => ({
    what: `bands[${index}] would lie from ${mm(fromMm)} to ${mm(toMm)} above the lower hem, along the skin; the garment is ${mm(lengthMm)} long there.`,
    remedy:
      'Give the height of the middle of the band, on the garment by half its width, or a narrower band.',
  }),
  'garment/band-too-small': ({ index, relaxedMm, bodyMm, stretchPercent }) => ({
    what: `bands[${index}] is ${mm(relaxedMm)} relaxed on a body of ${mm(bodyMm)}: a stretch of ${stretchPercent.toFixed(0)} %.`,
    remedy:
      'Check the unit and whether the half length was given; the relaxed length is the whole way round.',
  }),
  'garment/lining-off-garment': ({ index, liningFromMm, liningToMm, fromMm, toMm }) => ({
    what: `linings[${index}] is given from ${mm(liningFromMm)} to ${mm(liningToMm)}; the garment reaches from ${mm(fromMm)} to ${mm(toMm)}.`,
    remedy: 'Let the lining begin below its end, and both lie between the hems.',
  }),
  'garment/lies-nowhere': ({ vertex, xMm, yMm, zMm }) => ({
    what: `Vertex ${vertex} of the garment lies at (${xMm.toFixed(0)}, ${yMm.toFixed(0)}, ${zMm.toFixed(0)}) mm, which is no place on a body.`,
    remedy: 'Write the garment’s mesh anew, with a number for every position, and check its unit.',
  }),
  'garment/inside-body': ({ sharePercent, depthMm }) => ({
    what: `${sharePercent.toFixed(0)} % of the garment lies inside the body, up to ${mm(depthMm)} deep, and cannot be brought out of it.`,
    remedy: 'Lay the garment round the body, or check the unit and the origin of both.',
  }),
  'garment/too-fine': ({ edgeMm, vertexCount, mostVertices }) => ({
    what: `Edges of ${edgeMm} mm would need ${vertexCount} vertices; ${mostVertices} are the most.`,
    remedy: 'Ask for a larger edgeMm; 6 to 8 mm settles in seconds and differs little from finer meshes.',
  }),
};

/** What is said of a garment sheet that leaves something in doubt. */
export const garmentFindingWords: FindingWords<GarmentFindings> = {
  'garment/loose': ({ atMm, relaxedMm, bodyMm }) =>
    `At ${mm(atMm)} the relaxed girth (${mm(relaxedMm)}) is larger than the body (${mm(bodyMm)}): nothing holds there.`,
  'garment/band-loose': ({ index, relaxedMm, clothMm, bodyMm }) =>
    relaxedMm >= bodyMm
      ? `bands[${index}] is ${mm(relaxedMm)} relaxed, longer than the body under it (${mm(bodyMm)}): it holds nothing.`
      : `bands[${index}] is ${mm(relaxedMm)} relaxed, no shorter than the cloth under it (${mm(clothMm)}): it gathers nothing and holds less than the cloth does by itself.`,
  'garment/band-beyond-readings': ({ index, stretchPercent, lastPercent }) =>
    `bands[${index}] is stretched by ${stretchPercent.toFixed(0)} % on the body, beyond its last reading (${lastPercent.toFixed(0)} %): its force is extrapolated.`,
  'garment/pushed-out': ({ sharePercent, depthMm }) =>
    `${share(sharePercent)} of the garment began inside the body (${mm(depthMm)} at most): pushed out to the skin.`,
  'garment/turned': ({ sharePercent }) =>
    `${share(sharePercent)} of the garment lay inside out: its triangles have been turned to face outwards.`,
  'garment/length-far-from-body': ({ relaxedMm, bodyMm }) =>
    `The relaxed length is ${mm(relaxedMm)} on ${mm(bodyMm)} of body: check that both lengths are meant.`,
};
