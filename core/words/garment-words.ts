import type { GarmentFaults } from '../fault/garment-faults.ts';
import type { GarmentFindings } from '../fault/garment-findings.ts';
import type { FaultWords, FindingWords } from './word-tables.ts';

const mm = (value: number): string => `${value.toFixed(0)} mm`;

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
  'garment/too-fine': ({ edgeMm, vertexCount, mostVertices }) => ({
    what: `Edges of ${edgeMm} mm would need ${vertexCount} vertices; ${mostVertices} are the most.`,
    remedy: 'Ask for a larger edgeMm; 6 to 8 mm settles in seconds and differs little from finer meshes.',
  }),
};

/** What is said of a garment sheet that leaves something in doubt. */
export const garmentFindingWords: FindingWords<GarmentFindings> = {
  'garment/loose': ({ atMm, relaxedMm, bodyMm }) =>
    `At ${mm(atMm)} the relaxed girth (${mm(relaxedMm)}) is larger than the body (${mm(bodyMm)}): nothing holds there.`,
  'garment/length-far-from-body': ({ relaxedMm, bodyMm }) =>
    `The relaxed length is ${mm(relaxedMm)} on ${mm(bodyMm)} of body: check that both lengths are meant.`,
};
