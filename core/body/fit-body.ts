import { Fault } from '../fault/fault.ts';
import type { Finding } from '../fault/finding.ts';
import { sectionAt } from '../mesh/section.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { metresFromMm, mmFromMetres } from '../units/units.ts';
import type { Body, Girth } from './body.ts';
import { areClose, LEAST_HALF_GAP } from './fit-thighs.ts';
import { contactFieldOf } from './fit-contact.ts';
import type { FitFigure } from './fit-figure.ts';
import { shapeOrderOf, type FitShape } from './fit-shape.ts';
import { SHAPE } from './fit-forms.ts';
import type { HalfBox } from './fit-grid.ts';
import { recipeLandmarks } from './fit-landmarks.ts';
import type { FitMeasures } from './fit-measures.ts';
import { neighboursOf, relaxed } from './fit-relax.ts';
import { mirrored, netHalf } from './fit-skin.ts';
import {
  estimatedGirths,
  LEG_LEVELS,
  LEG_STATIONS,
  orderOf,
  TRUNK_LEVELS,
  type Station,
} from './fit-stations.ts';
import { evened, tissueDepthAt } from './fit-tissue.ts';
import { checkMeasures, checkShape } from './fit-range.ts';
import { fitToMeasures, misses, type FittedFigure } from './fit-to-measures.ts';
import { regionsOf } from './region-map.ts';
import { tapeGirth } from './tape-girth.ts';
import { sourceFilled } from './tissue-map.ts';

/**
 * Four times an assumed soft-tissue modulus of 10 kPa (recalled), Pa.
 *
 * An elastic foundation of 4 E / H gives the band pressure of a nearly incompressible layer on a limb within 6 %:
 * computed with CalculiX 2.20, 23 axisymmetric cases.
 */
export const FOUNDATION_MODULUS = 40e3;

/** How far a girth of the finished figure may be off before it is refused, mm. */
const WORST_MISS = 2;

export interface FitBodyOptions extends FitShape {
  /** Of the grid that the skin is netted on, m; about the length of its edges. */
  readonly spacing?: number;
}

/**
 * A standing body made to measure: every asked girth is met within 2 mm on the skin, usually within 0.5 mm. Girths are
 * those of the body with its arms away; on short heavy figures the root of the arm swells the skin at the bust.
 *
 * Outlines set by hand are lofted, joined smoothly into one field and scaled until the girths fit; the zero level is
 * netted on the left half and mirrored, so the body is watertight and symmetric to the bit. It ends at the neck, the
 * wrists and the ankles. The contact field leaves the arms out: they hang away from what is worn on the trunk.
 *
 * @param measures - m. Girths that are left out are estimated, which a finding says.
 * @returns Girths as a tape lies, read on the field (arms away), each at its level; landmarks by name.
 * @throws {Fault} `fit/measure-out-of-range`, `fit/shape-out-of-range`, `fit/bust-against-underbust`,
 *   `fit/girth-not-met`.
 */
export function makeFitBody(measures: FitMeasures, options: FitBodyOptions = {}): Body {
  checkMeasures(measures);
  checkShape(measures, options);
  const order = orderOf(measures);
  const fitted = fitToMeasures(order, shapeOrderOf(options, order));
  const missed = misses(fitted, order).find(
    ({ asked, reached }) => !(Math.abs(reached - asked) <= WORST_MISS),
  );
  if (missed !== undefined) {
    throw new Fault('fit/girth-not-met', {
      measure: missed.measure,
      askedMm: missed.asked,
      reachedMm: missed.reached,
    });
  }
  const { figure, field } = fitted;
  const net = netHalf(field.withArms, boxAround(figure), {
    spacing: mmFromMetres(options.spacing ?? 0.008),
    ...(areClose(figure.shape.thighGap) && { nearMidline: LEAST_HALF_GAP / 2 }),
  });
  const neighbours = neighboursOf(net);
  const half = relaxed(net, field.withArms, neighbours);
  const skin = mirrored(half);
  const depths = evened(depthsOf(half.positions, fitted), neighbours);
  const tissueDepth = Float64Array.from(skin.halfVertex, (v) => metresFromMm(depths[v]!));
  const mesh: TriangleMesh = { positions: skin.positions.map(metresFromMm), triangles: skin.triangles };
  const girths = girthsOf(fitted);
  const standing = { landmarks: recipeLandmarks(fitted), floor: 0, forward: [0, 0, 1] } as const;
  return {
    skin: mesh,
    sourceUp: 'y',
    tissueDepth,
    foundation: tissueDepth.map((depth) => FOUNDATION_MODULUS / depth),
    tissueSource: sourceFilled('recipe', tissueDepth.length),
    girths,
    ...standing,
    regions: regionsOf(mesh, standing),
    findings: [...findingsOf(measures), ...tapeFindings(mesh, girths)],
    contactField: contactFieldOf(fitted.field, figure),
  };
}

/** Room for the left half, mm, from the reach of the arm. */
function boxAround({ heightScale, armJoint, armAbduction }: FitFigure): HalfBox {
  return {
    width: Math.max(armJoint[0] + Math.sin(armAbduction) * 590 * heightScale + 70, SHAPE.trunkReach),
    bottom: 60 * heightScale,
    top: 1525 * heightScale,
    back: -320,
    front: 320,
  };
}

function depthsOf(positions: Float64Array, { figure, field }: FittedFigure): Float64Array {
  const depthAt = tissueDepthAt(figure, field);
  return Float64Array.from({ length: positions.length / 3 }, (_, v) =>
    depthAt(positions[3 * v]!, positions[3 * v + 1]!, positions[3 * v + 2]!),
  );
}

const girthAt = (name: string, level: number, girth: number): Girth => ({
  name,
  level: metresFromMm(level),
  girth: metresFromMm(girth),
});

/** Trunk and legs from the neck down; the arms' girths lie across the arms and are no level of the body. */
function girthsOf({ girths, bust, bustLevel, size, figure }: FittedFigure): Girth[] {
  const station = (name: Station, base: number, shown: string = name): Girth =>
    girthAt(shown, base * figure.heightScale, girths[name]);
  const chest =
    size.form.breast === null
      ? [girthAt('chest', bustLevel, bust)]
      : [girthAt('bust', bustLevel, bust), station('ribs', size.form.ribsLevel, 'underbust')];
  return [
    station('neck', TRUNK_LEVELS.neck),
    ...chest,
    ...(['waist', 'topHip', 'hip'] as const).map((name) => station(name, TRUNK_LEVELS[name])),
    ...LEG_STATIONS.map((name) => station(name, LEG_LEVELS[name])),
  ];
}

/** What the finished skin is held to, round the trunk; m. */
const TAPE_TOLERANCE = 0.002;
const TAPED = ['bust', 'chest', 'underbust', 'waist', 'hip'];

/** Girths that a tape round the finished skin does not confirm. */
function tapeFindings(skin: TriangleMesh, girths: readonly Girth[]): Finding[] {
  return girths
    .filter(({ name }) => TAPED.includes(name))
    .flatMap(({ name, level, girth }): Finding[] => {
      const tape = tapeGirth(sectionAt(skin, level)[0]!);
      if (Math.abs(tape - girth) <= TAPE_TOLERANCE) return [];
      const facts = { measure: name, askedMm: mmFromMetres(girth), tapeMm: mmFromMetres(tape) };
      return [{ code: 'fit/tape-differs', facts }];
    });
}

function findingsOf(measures: FitMeasures): Finding[] {
  const estimated = estimatedGirths(measures);
  return [
    { code: 'body/tissue-estimated', facts: { modulusKPa: 10 } },
    ...(estimated.length > 0
      ? [{ code: 'fit/girths-estimated' as const, facts: { girths: estimated.join(', ') } }]
      : []),
  ];
}
