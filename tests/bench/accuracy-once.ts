/**
 * How far pressures and flesh are from what is known of them, as the worst of each family of outside checks; prints JSON.
 * The checks are those of `prove`, each with its source there.
 */
import type { Check } from '../../core/proof/check.ts';
import { PROOF_SUBJECTS, proveSubject } from '../../core/proof/run-proof.ts';

const SUBJECTS = [
  'pressed flesh',
  'tubes of several sizes',
  'tubes on meshed bars',
  'oval sections',
  'cones and waists',
];

function checksOf(subject: string): readonly Check[] {
  const found = PROOF_SUBJECTS.find((one) => one.subject === subject);
  if (!found) throw new Error(`No outside checks are named ${subject}.`);
  const search = proveSubject(found);
  let step = search.next();
  while (!step.done) step = search.next();
  return step.value;
}

const checks = SUBJECTS.flatMap(checksOf);

/** The worst of the checks whose id is like this. */
function worst(like: RegExp, of: (check: Check) => number): number {
  const found = checks.filter(({ id }) => like.test(id));
  if (found.length === 0) throw new Error(`No outside check is like ${String(like)}.`);
  return Math.max(...found.map(of));
}

const departure = ({ got }: Check): number => got;
const miss = ({ got, expected }: Check): number => 100 * Math.abs(got / expected - 1);

console.log(
  JSON.stringify({
    // Edges of a tenth of the radius or less: round bars, an oval bar, cones.
    closedForms: worst(
      /^tube\.sizes\.\d+-mm\.coarse$|^oval\.150-100\.edge-fine$|^revolved\.cone\.\w+\.pressure$/u,
      departure,
    ),
    unevenCloth: worst(/^tube\.sizes\.\d+-mm\.uneven\.discs$/u, departure),
    meshedEight: worst(/^tube\.mesh\.\d+-mm\.skin-8\./u, departure),
    meshedTwelve: worst(/^tube\.mesh\.\d+-mm\.skin-12\./u, departure),
    indent: worst(/^flesh\.[BP]\d+\.indent$/u, miss),
    bulge: worst(/^flesh\.[BP]\d+\.bulge$/u, miss),
    hoopWaves: worst(/^flesh\.hoop\.\d+$/u, miss),
  }),
);
