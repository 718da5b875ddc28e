import { extentOf } from '../mesh/extent.ts';
import { METRES_PER_MESH_UNIT, type Axis, type MeshScene, type MeshUnit } from '../mesh/mesh-scene.ts';
import type { TriangleMesh } from '../mesh/triangle-mesh.ts';
import { triple } from '../mesh/triple.ts';
import { mmFromMetres } from '../units/units.ts';
import {
  bodyProfile,
  isPair,
  levelsBetween,
  levelsFrom,
  stanceScore,
  type BodyProfile,
} from './body-profile.ts';
import { guessFront } from './guess-front.ts';
import { axisNumber, axisOf } from './import-axes.ts';
import {
  REFINE_EDGE_MM,
  type AxisReason,
  type Guess,
  type ImportGuess,
  type PartReason,
  type UnitReason,
} from './import-choices.ts';
import { findSkin, type FoundSkin } from './import-skin.ts';
import type { ImportProgress } from './import-report.ts';

/**
 * A first answer to everything an import has to know, each with what speaks for it.
 *
 * The unit is that in which the body is as tall as people are; up is where the head is, with two legs at the other end;
 * front is where the toes point. Where the shape does not tell, what the file states or what is usual is taken and
 * called doubtful.
 *
 * @param known - The largest surface, if `findSkin` has found it already.
 * @yields where it stands.
 */
export function* guessImport(scene: MeshScene, known?: FoundSkin): Generator<ImportProgress, ImportGuess> {
  const skin = known ?? (yield* findSkin(scene, 'largest'));
  yield { doing: 'placing', share: 0 };
  const part = guessPart(scene, skin);
  const { up, profile } = guessUp(scene, skin.mesh);
  yield { doing: 'placing', share: 0.6 };
  const front = guessFront(scene, profile);
  const unit = guessUnit(scene, profile);
  return {
    choices: {
      unit: unit.value,
      up: up.value,
      front: front.value,
      part: part.value,
      closeHoles: true,
      refineEdgeMm: REFINE_EDGE_MM,
    },
    unit,
    up,
    front,
    part,
  };
}

/** Beside a surface half as large as itself, a skin is in doubt. */
const RIVAL = 0.5;

function guessPart(scene: MeshScene, skin: FoundSkin): Guess<number | 'largest', PartReason> {
  const reason = { names: skin.names, areaShare: skin.areaShare, nextShare: skin.nextShare };
  return {
    value: 'largest',
    certainty: scene.parts.length > 0 && skin.nextShare > RIVAL ? 'doubtful' : 'clear',
    reason,
  };
}

/** A person's arms do not reach so much farther than the height that up could be along a shorter axis than this. */
const LEAST_EXTENT = 0.6;
const CLEAR_SCORE = 1;
const CLEAR_LEAD = 0.4;

function guessUp(
  { up: stated }: MeshScene,
  mesh: TriangleMesh,
): { up: Guess<Axis, AxisReason>; profile: BodyProfile } {
  const { low, high } = extentOf(mesh);
  const widths = triple((k) => high[k]! - low[k]!);
  const longest = Math.max(...widths);
  const profiles = [0, 1, 2]
    .filter((k) => widths[k]! >= LEAST_EXTENT * longest)
    .map((k) => bodyProfile(mesh, axisOf(k, 1)));
  const scored = profiles
    .flatMap((profile) => [
      { axis: profile.up, score: stanceScore(levelsFrom(profile, 'low')) },
      { axis: axisOf(axisNumber(profile.up), -1), score: stanceScore(levelsFrom(profile, 'high')) },
    ])
    .sort((a, b) => b.score - a.score);
  const [best, second] = [scored[0]!, scored[1]!];
  const isClear = best.score >= CLEAR_SCORE && best.score - second.score >= CLEAR_LEAD;
  const guess = (
    value: Axis,
    certainty: Guess<Axis, AxisReason>['certainty'],
    from: AxisReason['from'],
  ): Guess<Axis, AxisReason> => ({
    value,
    certainty,
    reason: {
      stated,
      from,
      strength: Math.min(1, (scored.find(({ axis }) => axis === value)?.score ?? 0) / 2),
    },
  });
  let up: Guess<Axis, AxisReason>;
  if (isClear) {
    const agrees = stated === best.axis;
    up = guess(best.axis, agrees ? 'stated' : stated === null ? 'clear' : 'doubtful', 'stance');
  } else if (stated !== null) up = guess(stated, 'stated', 'file');
  else up = guess(axisOf(widths.indexOf(longest), 1), 'doubtful', 'extent');
  return { up, profile: bodyProfile(mesh, up.value) };
}

/** How tall whole people are, and forms of a part of one, m. */
const WHOLE = [1.2, 2.2] as const;
const PART = [0.35, 1.2] as const;

const UNITS: readonly MeshUnit[] = ['m', 'cm', 'mm', 'inch'];

function guessUnit({ unit: stated }: MeshScene, profile: BodyProfile): Guess<MeshUnit, UnitReason> {
  const metres = (unit: MeshUnit): number => profile.height * METRES_PER_MESH_UNIT[unit];
  const isWithin = (unit: MeshUnit, [least, most]: readonly [number, number]): boolean =>
    metres(unit) >= least && metres(unit) <= most;
  const reason = {
    stated,
    heightMm: {
      m: mmFromMetres(metres('m')),
      cm: mmFromMetres(metres('cm')),
      mm: mmFromMetres(metres('mm')),
      inch: mmFromMetres(metres('inch')),
    },
  };
  if (stated !== null && isWithin(stated, [PART[0], WHOLE[1]]))
    return { value: stated, certainty: 'stated', reason };
  const hasLegs = levelsBetween(profile.levels, 0.05, 0.4).filter(isPair).length >= 3;
  const whole = UNITS.find((unit) => isWithin(unit, WHOLE));
  const part = UNITS.find((unit) => isWithin(unit, PART));
  if (whole !== undefined) {
    // 60 units high are a person in inches, or half a one in centimetres.
    const isClear = hasLegs || part === undefined;
    return { value: whole, certainty: isClear ? 'clear' : 'doubtful', reason };
  }
  if (part !== undefined) return { value: part, certainty: 'doubtful', reason };
  const distance = (unit: MeshUnit): number => Math.abs(Math.log(metres(unit) / 1.7));
  const nearest = UNITS.reduce((best, unit) => (distance(unit) < distance(best) ? unit : best));
  return { value: stated ?? nearest, certainty: 'doubtful', reason };
}
