import type { FleshCase, FleshOutcome } from '../io/flesh-cases.ts';
import type { Check } from './check.ts';
import { FLESH_CASES } from './data/flesh-reference.ts';
import { pressRing, type RingOutcome } from './flesh-ring.ts';

const SOURCE = 'CalculiX ccx 2.20, CAX8R, neo-Hooke, large displacements';

/** What flesh has to meet: shares of the other program's figure, or lengths. */
const INDENT_SHARE = 0.03;
const BULGE_SHARE = 0.06;
/** Bulges this small are compared in mm. */
const LEAST_BULGE_MM = 0.03;
const PLACE_SHARE_OF_DEPTH = 0.1;
const PRESSURE_SHARE = 0.015;
const RADIUS_MM = 0.15;

/** Bands on 23 soft rings against another program. */
export const fleshBandChecks = (): Check[] =>
  FLESH_CASES.flatMap((one) => caseChecks(one, `flesh.${one.id}`, SOURCE));

/**
 * The same table for cases that somebody brings; the large displacements where they are given, else the small ones.
 *
 * @param cases - As read by `readFleshCases`.
 */
export const fleshCaseChecks = (cases: readonly FleshCase[]): Check[] =>
  cases.flatMap((one) =>
    caseChecks(one, `flesh.${one.id}`, `case ${one.id}, ${one.nlgeom ? 'large' : 'small'} displacements`),
  );

function caseChecks(one: FleshCase, id: string, source: string): Check[] {
  const large = one.nlgeom !== undefined;
  const theirs = (one.nlgeom ?? one.linear)!;
  const ours = pressRing(one, { large });
  const mm = (what: string, expected: number, got: number, tolerance: number): Check => ({
    id: `${id}.${what}`,
    source,
    expected,
    got,
    unit: 'mm',
    tolerance,
  });
  const bulge = Math.abs(theirs.bulge);
  return [
    mm('indent', theirs.maxindent, ours.maxindent, INDENT_SHARE * theirs.maxindent),
    mm('centre', theirs.centre, ours.centre, CENTRE_SHARE * Math.abs(theirs.maxindent)),
    mm('bulge', theirs.bulge, ours.bulge, Math.max(BULGE_SHARE * bulge, LEAST_BULGE_MM)),
    ...(theirs.bulge_dist === undefined
      ? []
      : [mm('bulge-place', theirs.bulge_dist, ours.bulgePlace, PLACE_SHARE_OF_DEPTH * one.inputs.H)]),
    ...bandChecks(theirs, ours, { id, source }),
  ];
}

/** Of the deepest indent: a share of the centre of a long band, which hardly moves, would say nothing. */
const CENTRE_SHARE = 0.03;

function bandChecks(
  theirs: FleshOutcome,
  ours: RingOutcome,
  { id, source }: { id: string; source: string },
): Check[] {
  const checks: Check[] = [];
  if (theirs.p_mean_kPa !== undefined) {
    checks.push({
      id: `${id}.mean-pressure`,
      source,
      expected: theirs.p_mean_kPa,
      got: ours.meanPressure,
      unit: 'kPa',
      tolerance: PRESSURE_SHARE * theirs.p_mean_kPa,
    });
  }
  if (theirs.r_centre !== undefined) {
    checks.push({
      id: `${id}.centre-radius`,
      source,
      expected: theirs.r_centre,
      got: ours.centreRadius,
      unit: 'mm',
      tolerance: RADIUS_MM,
    });
  }
  return checks;
}
