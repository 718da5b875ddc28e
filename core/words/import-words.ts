import type { ImportGuess } from '../body/import-choices.ts';
import type {
  DropReason,
  ImportProgress,
  ImportStep,
  ImportStepFacts,
  ImportStepKind,
} from '../body/import-report.ts';
import type { Axis, MeshUnit } from '../mesh/mesh-scene.ts';

const several = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;
const mm = (value: number): string => `${Math.abs(value) < 10 ? value.toFixed(1) : value.toFixed(0)} mm`;
const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;

/** What a unit is called. */
export const UNIT_WORDS: Readonly<Record<MeshUnit, string>> = {
  m: 'metres',
  cm: 'centimetres',
  mm: 'millimetres',
  inch: 'inches',
};

const DROP_WORDS: Readonly<Record<DropReason, string>> = {
  named: 'its name says that it is no skin',
  inside: 'it lies inside the skin',
  smaller: 'it is a smaller surface beside the skin',
  'not chosen': 'another part was chosen',
};

/** One sentence per step; a missing one does not compile. */
const stepWords: { readonly [K in ImportStepKind]: (facts: Readonly<ImportStepFacts[K]>) => string } = {
  read: ({ partCount, vertexCount, triangleCount, passedOver }) =>
    `Read ${several(partCount, 'part', 'parts')}, ${vertexCount} vertices, ${triangleCount} triangles${
      passedOver.length > 0 ? `; not used: ${passedOver.join(', ')}` : ''
    }.`,
  scaled: ({ unit, stated, heightMm }) =>
    `Took the numbers as ${UNIT_WORDS[unit]}: ${mm(heightMm)} high${
      stated !== null && stated !== unit ? ` (the file says ${UNIT_WORDS[stated]})` : ''
    }.`,
  turned: ({ up, front }) => `Turned so that the file’s ${up} points up and its ${front} to the front.`,
  moved: ({ xMm, yMm, zMm, floor }) =>
    `Moved by ${mm(xMm)} to the left, ${mm(yMm)} up, ${mm(zMm)} to the front: the middle over the origin${
      floor ? ', the lowest point on the floor' : ''
    }.`,
  welded: ({ equalCount, nearCount, toleranceMm }) =>
    `Joined ${several(equalCount + nearCount, 'vertex that lay', 'vertices that lay')} on top of another: ${equalCount} at the very same place${
      nearCount > 0 ? `, ${nearCount} within ${toleranceMm.toPrecision(2)} mm` : ''
    }.`,
  'faces-removed': ({ flatCount, doubledCount }) =>
    `Removed ${several(flatCount, 'face', 'faces')} without area and ${several(doubledCount, 'face that was', 'faces that were')} there twice.`,
  'sheets-parted': ({ edgeCount, twistedCount }) =>
    `At ${several(edgeCount, 'edge', 'edges')} more than two faces met: each was kept with the one that continues it, the rest cut loose.${
      twistedCount > 0
        ? ` ${several(twistedCount, 'edge was', 'edges were')} cut open because no side of its faces is out.`
        : ''
    }`,
  'skin-chosen': ({ names, triangleCount, pieceCount, areaShare }) =>
    `Took ${names.slice(0, 4).join(', ')}${names.length > 4 ? ` and ${names.length - 4} more` : ''} for the skin: ${triangleCount} triangles, ${percent(areaShare)} of the area, the largest of ${several(pieceCount, 'piece', 'pieces')}.`,
  'part-dropped': ({ name, why, triangleCount, pieceCount }) =>
    `Left out ${name} (${pieceCount > 1 ? `${pieceCount} pieces, ` : ''}${several(triangleCount, 'triangle', 'triangles')}): ${DROP_WORDS[why]}.`,
  'faces-turned': ({ triangleCount, whole }) =>
    whole
      ? `The faces pointed inwards; all ${triangleCount} were turned outwards.`
      : `Turned ${several(triangleCount, 'face', 'faces')} over, so that all point outwards.`,
  hole: ({ edgeCount, perimeterMm, heightMm, done, addedCount }) => {
    const hole = `hole of ${edgeCount} edges, ${mm(perimeterMm)} round, at height ${mm(heightMm)}`;
    if (done === 'closed') return `Closed a ${hole}, with ${several(addedCount, 'triangle', 'triangles')}.`;
    if (done === 'left') return `Left open a ${hole}.`;
    return `Left open a ${hole}: it is too wide to guess what is missing. Close it in a mesh program.`;
  },
  refined: ({ wishedMm, longestBeforeMm, longestAfterMm, triangleCount, addedCount, cutShort }) =>
    `Refined edges longer than ${mm(wishedMm)} along the curve of the skin: the longest was ${mm(longestBeforeMm)} and is ${mm(longestAfterMm)}; ${addedCount} triangles more, ${triangleCount} in all.${
      cutShort ? ' Stopped there: more triangles are not allowed.' : ''
    }`,
  'self-intersections': ({ pairCount, at, complete }) => {
    if (pairCount === 0)
      return complete
        ? 'The skin does not cut through itself.'
        : 'Whether the skin cuts through itself was not found out: too many faces lie in one place.';
    const place =
      at === null ? '' : `, one of them at x ${mm(at.xMm)}, height ${mm(at.yMm)}, z ${mm(at.zMm)}`;
    return `${complete ? '' : 'At least '}${several(pairCount, 'pair of faces cuts', 'pairs of faces cut')} through one another${place}; left as they are. Cloth there may rest on the wrong one.`;
  },
};

/** A step of an import in one sentence. */
export function sayImportStep<K extends ImportStepKind>(step: {
  readonly kind: K;
  readonly facts: Readonly<ImportStepFacts[K]>;
}): string {
  return stepWords[step.kind](step.facts);
}

/** All steps, a sentence each. */
export const sayImportSteps = (steps: readonly ImportStep[]): string[] =>
  steps.map((step) => sayImportStep(step));

/** What stands while an import goes on. */
export const IMPORT_DOING_WORDS: Readonly<Record<ImportProgress['doing'], string>> = {
  placing: 'Looking how it stands',
  welding: 'Joining seams',
  choosing: 'Looking for the skin',
  turning: 'Turning faces outwards',
  closing: 'Closing holes',
  refining: 'Refining coarse places',
  'looking for cuts': 'Looking for places where the skin cuts through itself',
};

const axisWords = (what: 'Up' | 'Front', axis: Axis, from: string, stated: Axis | null): string =>
  `${what} is the file’s ${axis}: ${from}${stated !== null && stated !== axis ? ` (the file says ${stated})` : ''}.`;

const FROM_WORDS: Readonly<Record<ImportGuess['up']['reason']['from'], string>> = {
  file: 'the file says so',
  extent: 'it is the longest way through the body',
  stance: 'two legs at one end, a neck or head at the other',
  toes: 'the toes point there',
  trunk: 'the chest lies before the seat',
  custom: 'the shape does not tell, and this is usual',
};

/** What was guessed and why, a sentence per question, in the order unit, up, front, part. */
export function sayImportGuess({ unit, up, front, part }: ImportGuess): {
  readonly [Question in 'unit' | 'up' | 'front' | 'part']: string;
} {
  const height = unit.reason.heightMm[unit.value];
  const others = (['m', 'cm', 'mm', 'inch'] as const)
    .filter(
      (other) =>
        other !== unit.value && unit.reason.heightMm[other] > 350 && unit.reason.heightMm[other] < 2200,
    )
    .map((other) => `${mm(unit.reason.heightMm[other])} in ${UNIT_WORDS[other]}`);
  return {
    unit: `The numbers are ${UNIT_WORDS[unit.value]}: the body is then ${mm(height)} high${
      others.length > 0 ? `, or ${others.join(', or ')}` : ''
    }${unit.certainty === 'stated' ? '; the file says so' : ''}.`,
    up: axisWords('Up', up.value, FROM_WORDS[up.reason.from], up.reason.stated),
    front: axisWords('Front', front.value, FROM_WORDS[front.reason.from], front.reason.stated),
    part: `The skin is ${part.reason.names.slice(0, 4).join(', ')}: ${percent(part.reason.areaShare)} of the area${
      part.reason.nextShare > 0 ? `; the next surface is ${percent(part.reason.nextShare)} as large` : ''
    }.`,
  };
}

/** Said beside a guess that a person should look at. */
export const DOUBTFUL_WORDS = 'Please look: this is a guess.';
