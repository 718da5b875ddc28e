import { benchArithmeticChecks } from './bench-arithmetic.ts';
import { biaxialRubberChecks } from './biaxial-rubber.ts';
import { bentHingeChecks } from './bent-hinges.ts';
import { capstan } from './capstan.ts';
import type { Check } from './check.ts';
import { clothLayerChecks } from './cloth-layers.ts';
import { coneGrip } from './cone-grip.ts';
import { conversionChecks } from './conversions.ts';
import { creases } from './creases.ts';
import { cutAndWorn } from './cut-and-worn.ts';
import { fleshChecks } from './flesh-checks.ts';
import { hangingClothChecks } from './hanging-cloth.ts';
import { convergenceRates } from './convergence-rates.ts';
import { hourglassBridging } from './hourglass-bridging.ts';
import { knitChecks } from './knits.ts';
import { meshedStrips } from './meshed-strips.ts';
import { ovalSections } from './oval-sections.ts';
import { revolvedTubes } from './revolved-tubes.ts';
import { seamOfFabricsChecks } from './seam-of-fabrics.ts';
import { sensorPlate } from './sensor-plate.ts';
import { sewnElasticChecks } from './sewn-elastic.ts';
import { shearedPanels } from './sheared-panels.ts';
import { swatchBendingChecks } from './swatch-bending.ts';
import { tubeLaidAskew } from './tube-laid-askew.ts';
import { tubeOnCone } from './tube-on-cone.ts';
import { tubeOnCylinder } from './tube-on-cylinder.ts';
import { tubeOnEllipse } from './tube-on-ellipse.ts';
import { tubeOnMesh } from './tube-on-mesh.ts';
import { tubeSizes } from './tube-sizes.ts';
import { tubeOnYieldingCylinder } from './tube-on-yielding-cylinder.ts';
import { twistedMembranes } from './twisted-membranes.ts';
import { virtualStripChecks } from './virtual-strips.ts';
import { waistSaddle } from './waist-saddle.ts';
import { wrinkledStrip } from './wrinkled-strip.ts';

/** A group of checks on one subject. */
export interface ProofSubject {
  readonly subject: string;
  /** A long one pauses between its parts, so that it can be stopped there. */
  readonly run: () => readonly Check[] | Generator<void, readonly Check[]>;
}

/** Everything that is held against the outside world, the quick ones first. */
export const PROOF_SUBJECTS: readonly ProofSubject[] = [
  { subject: 'conversions', run: conversionChecks },
  { subject: 'bench arithmetic', run: benchArithmeticChecks },
  { subject: 'strips of the fitted law', run: virtualStripChecks },
  { subject: 'strips of meshed cloth', run: meshedStrips },
  { subject: 'knits', run: knitChecks },
  { subject: 'bent strip with a slack side', run: wrinkledStrip },
  { subject: 'sheared panels', run: shearedPanels },
  { subject: 'biaxial rubber', run: biaxialRubberChecks },
  { subject: 'swatch under its own weight', run: swatchBendingChecks },
  { subject: 'pressed flesh', run: fleshChecks },
  { subject: 'tube on a cylinder', run: tubeOnCylinder },
  { subject: 'tube laid wrong', run: tubeLaidAskew },
  { subject: 'cut and worn', run: cutAndWorn },
  { subject: 'tubes of several sizes', run: tubeSizes },
  { subject: 'tubes on meshed bars', run: tubeOnMesh },
  { subject: 'creases', run: creases },
  { subject: 'tube on a yielding cylinder', run: tubeOnYieldingCylinder },
  { subject: 'tube on an ellipse', run: tubeOnEllipse },
  { subject: 'oval sections', run: ovalSections },
  { subject: 'tube on a cone', run: tubeOnCone },
  { subject: 'grip on cones', run: coneGrip },
  { subject: 'saddle of a waist', run: waistSaddle },
  { subject: 'sensor under cloth', run: sensorPlate },
  { subject: 'sewn elastic', run: sewnElasticChecks },
  { subject: 'layers of cloth', run: clothLayerChecks },
  { subject: 'seams of fabrics', run: seamOfFabricsChecks },
  { subject: 'hanging cloth', run: hangingClothChecks },
  { subject: 'hinges of bent cloth', run: bentHingeChecks },
  { subject: 'twisted membranes', run: twistedMembranes },
  { subject: 'bridged hollow', run: hourglassBridging },
  { subject: 'cones and waists', run: revolvedTubes },
  { subject: 'rope round a bar', run: capstan },
  { subject: 'rates', run: convergenceRates },
];

/** How far a proof has come. */
export interface ProofProgress {
  /** What is being checked. */
  readonly subject: string;
  readonly done: number;
  readonly of: number;
}

/** The checks of one subject, computed. */
export interface ProvenSubject {
  readonly subject: string;
  readonly checks: readonly Check[];
}

/** Computes one subject, pausing where it pauses. */
export function* proveSubject({ run }: ProofSubject): Generator<void, readonly Check[]> {
  const running = run();
  return 'next' in running ? yield* running : running;
}

/**
 * Runs the outside checks, naming each subject before it begins and at every pause within it.
 *
 * @param subjects - Which; all if left out.
 */
export function* runProof(
  subjects: readonly ProofSubject[] = PROOF_SUBJECTS,
): Generator<ProofProgress, ProvenSubject[]> {
  const proven: ProvenSubject[] = [];
  for (const [done, subject] of subjects.entries()) {
    const progress = { subject: subject.subject, done, of: subjects.length };
    yield progress;
    const search = proveSubject(subject);
    let step = search.next();
    while (!step.done) {
      yield progress;
      step = search.next();
    }
    proven.push({ subject: subject.subject, checks: step.value });
  }
  return proven;
}
