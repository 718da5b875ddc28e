import type { ImportGuess } from '../body/import-choices.ts';
import type { DropReason } from '../body/import-report.ts';
import type { Axis, MeshUnit } from '../mesh/mesh-scene.ts';
import { fixed } from '../sheet/number-format.ts';

/** What has to be known before a mesh is a body. */
export type ImportQuestion = Exclude<keyof ImportGuess, 'choices'>;

/** The step that brings a body in: what is written on its leaves. */
export const IMPORT_STEP_WORDS = {
  title: 'Bring in a body',
  entry: 'Bring in your own',
  other: 'Another file',
  leave: 'Leave',
  stop: 'Stop',
  goOn: 'Go on',
  size: 'How tall',
  stand: 'How it stands',
  skin: 'Which part is the skin',
  ready: 'How it is made ready',
  quarter: 'Turn a quarter',
  tipForward: 'Tip forward',
  tipSideways: 'Tip sideways',
  largest: 'The largest surface',
  asks: 'What is asked',
  holes: 'Holes',
  close: 'close',
  leaveOpen: 'leave open',
  coarse: 'Coarse',
  refine: (edgeMm: number) => `refine to ${edgeMm} mm`,
  leaveCoarse: 'leave',
  fleshName: 'Flesh',
  isSkin: 'the skin',
  done: 'What was done',
  soFar: 'Choose on the left; what is done to the mesh is told here.',
  wear: 'Wear the garment on it',
  save: 'Save the study',
  right: 'Right so',
  front: 'front',
  preview: 'The body as it will stand',
  reading: (name: string) => `Reading ${name}`,
  measuring: 'Laying a tape round it',
  tape: (girths: readonly (readonly [level: string, girthMm: number])[]) =>
    `By the tape: ${girths.map(([level, girthMm]) => `${level} ${grouped(girthMm)}`).join(', ')} mm.`,
  noPerson: 'No standing person is seen in it: levels have no names on it.',
  tooFine: 'Too fine to be measured here: the tape is laid when it is worn.',
  garment: 'Garment',
  laidAt: { places: 'same places', heights: 'same heights' },
  laidMeaning: (level: string, [fromMm, toMm]: readonly [fromMm: number, toMm: number]) =>
    `The ${level} is ${grouped(toMm)}\u00a0mm up, now ${grouped(fromMm)}.`,
  ifIn: (sign: string) => `if in ${sign}`,
  tallIn: (height: string, unit: string) => `${height} tall if the numbers are ${unit}`,
  stated: (unit: string) => `The file says ${unit}.`,
  onePart: (name: string, triangleCount: number) =>
    `The file has one part: ${name}, ${grouped(triangleCount)} triangles.`,
  moreParts: (count: number) => `${grouped(count)} further parts are not listed.`,
  stopped: 'Stopped. Nothing was changed.',
  severalBodies: (names: readonly string[]) => ({
    what: `More than one body: ${names.slice(0, 4).join(', ')}${names.length > 4 ? ', …' : ''}.`,
    remedy: 'Bring in one body at a time.',
  }),
  summary: (partCount: number, triangleCount: number) =>
    `${partCount === 1 ? 'one part' : `${grouped(partCount)} parts`}, ${grouped(triangleCount)} triangles`,
  made: (heightMm: number, triangleCount: number) =>
    `${tallWords(heightMm)} tall, ${grouped(triangleCount)} triangles`,
  axes: (up: Axis, front: Axis) =>
    `The file’s ${axisText(up)} points up, its ${axisText(front)} to the front.`,
  saved: (study: string, mesh: string) => `Saved ${study}. Keep it beside ${mesh}, which it names.`,
  kept: (mesh: string) =>
    `The study keeps the name ${mesh} and these answers; read again, the same body comes out.`,
  noStudy: 'There is no study on the stage that could wear it: open one first.',
  notClosed: 'A hole is left, so that inside and outside are not known: let holes be closed.',
  leftOpen: 'A hole is too wide to be closed here. Close it in a mesh program.',
  askedFirst: (questions: readonly ImportQuestion[]) =>
    `First say ${listed(questions.map((question) => ASKED_WORDS[question]))}.`,
} as const;

const ASKED_WORDS: Readonly<Record<ImportQuestion, string>> = {
  unit: 'how tall it is',
  up: 'what is up',
  front: 'what is front',
  part: 'which part is the skin',
};

const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** Unit signs as on a tape. */
export const UNIT_SIGNS: Readonly<Record<MeshUnit, string>> = { mm: 'mm', cm: 'cm', m: 'm', inch: 'inch' };

/** The smallest unit first. */
export const UNIT_ORDER: readonly MeshUnit[] = ['mm', 'cm', 'inch', 'm'];

/** Why a part stands on the list of what is left out, in two or three words. */
export const DROPPED_WORDS: Readonly<Record<DropReason, string>> = {
  named: 'no skin by its name',
  inside: 'inside the skin',
  smaller: 'beside the skin',
  'not chosen': 'not chosen',
};

/** What may be taken to lie under the skin of a body from a file. */
export type FleshUnder = 'transferred' | 'even' | 'rigid';

export const FLESH_WORDS: Readonly<Record<FleshUnder, { readonly name: string; readonly meaning: string }>> =
  {
    transferred: {
      name: 'as our form',
      meaning: 'Depths of our own form, by landmarks: an estimate, to be corrected in the leaf Body.',
    },
    even: {
      name: 'even',
      meaning: 'As deep and as soft all over: an estimate.',
    },
    rigid: {
      name: 'none',
      meaning: 'Hard as a shop form: the highest pressures come out higher than on flesh.',
    },
  };

/** Depth and stiffness of even flesh. */
export const EVEN_FLESH_WORDS = {
  depth: 'Depth in mm',
  modulus: 'Foundation modulus in kPa',
  mm: 'mm deep,',
  kPa: 'kPa',
} as const;

/** `−y`, with a true minus. */
export const axisText = (axis: Axis): string => axis.replace('-', '−');

/** 61 204: thousands set apart, so that they can be counted at a glance. */
export const grouped = (count: number): string =>
  String(Math.round(count)).replaceAll(/\B(?=(\d{3})+$)/g, '\u202f');

/** A height as one would say it, from crumbs to towers: 0.17 mm, 1 732 mm, 44 m, 1.7 km. */
export function tallWords(mm: number): string {
  if (mm < 10) return `${mm < 1 ? mm.toPrecision(2) : fixed(mm, 1)}\u00a0mm`;
  if (mm < 10_000) return `${grouped(mm)}\u00a0mm`;
  if (mm < 1e6) return `${fixed(mm / 1000, mm < 1e5 ? 1 : 0)}\u00a0m`;
  return `${fixed(mm / 1e6, mm < 1e7 ? 1 : 0)}\u00a0km`;
}
