import type { ProofPageWords } from '../sheet/proof-picture.ts';
import { proofTable, type ProofResult, type ProofTable } from '../sheet/proof-table.ts';
import { proofWhat } from './proof-row-words.ts';

/** Proof subjects as they are spoken of. */
const SUBJECT_TITLES: Readonly<Record<string, string>> = {
  conversions: 'Units and the trade’s constants',
  'bench arithmetic': 'Bench arithmetic: weight, bending, loops, recovery',
  'strips of the fitted law': 'Strips pulled by computation',
  'strips of meshed cloth': 'Strips of meshed cloth, pulled',
  knits: 'Twelve knits, along and across',
  'bent strip with a slack side': 'A stretched strip bent until one side is slack',
  'sheared panels': 'Sheared cloth in wrinkles',
  'biaxial rubber': 'Rubber pulled both ways',
  'swatch under its own weight': 'Swatches bending under their own weight',
  'pressed flesh': 'Flesh pressed by bands',
  'tube on a cylinder': 'A tube on a round bar',
  'tube laid wrong': 'A tube laid beside its bar, into it or inside out',
  'cut and worn': 'Cut smaller, worn stretched; the trade’s bandage formula',
  'tubes of several sizes': 'Tubes on round bars from limb to trunk',
  'tubes on meshed bars': 'Tubes on bars known only as triangle meshes',
  creases: 'Toes and folds sharper than the contact grid',
  'tube on a yielding cylinder': 'A tube on a bar that gives way',
  'tube on an ellipse': 'A tube on an oval bar',
  'oval sections': 'Oval sections: an ankle, flatter bars, a trunk',
  'tube on a cone': 'A tube on a cone',
  'flesh cases': 'Flesh pressed by bands: cases brought along',
  'grip on cones': 'Friction a sloping limb asks for',
  'saddle of a waist': 'Two curvatures: waist and bulge',
  'sensor under cloth': 'What a sensor under the cloth reads',
  'sewn elastic': 'Elastic sewn to a hem',
  'layers of cloth': 'Cloth in layers',
  'seams of fabrics': 'Two fabrics joined at a seam',
  'hanging cloth': 'Cloth hanging by its own weight',
  'hinges of bent cloth': 'Cloth bending round a bar and over a ridge',
  'twisted membranes': 'Twisted rings and tubes, wrinkled all over',
  'bridged hollow': 'Cloth bridging a waist',
  'cones and waists': 'Cones and waists beside an independent solver',
  'rope round a bar': 'Friction: cloth drawn round a bar',
  rates: 'How fast errors fall with finer meshes',
};

/** How a subject of `runProof` is spoken of. */
export const proofTitle = (subject: string): string => SUBJECT_TITLES[subject] ?? subject;

/** The table of outside checks, subjects and rows in plain words. */
export const sayProof = (results: readonly ProofResult[]): ProofTable =>
  proofTable(results, { title: proofTitle, what: proofWhat });

const tally = ({ passed, failed }: { readonly passed: number; readonly failed: number }): string =>
  `${passed} passed, ${failed} failed`;

/** What stands on the proof's pages, in the window and in its picture. */
export const PROOF_WORDS: ProofPageWords = {
  title: 'Snugfield held against the outside world',
  headings: {
    what: 'What is looked at',
    expected: 'expected',
    got: 'got',
    within: 'within',
    used: 'of that used',
  },
  fail: 'FAIL',
  tally,
  pageOf: (page, count) => `${page} / ${count}`,
};
