import type { Body, Box } from '../body/body.ts';
import { foundationAt } from '../body/foundation-at.ts';
import { skinNear } from '../body/skin-patch.ts';
import { prepareCloth } from '../equilibrium/prepare-cloth.ts';
import { draftBlock } from '../block/draft-block.ts';
import { isBlock } from '../block/garment-sheet.ts';
import { layBlock } from '../block/lay-block.ts';
import { soundDraft } from '../block/sound-draft.ts';
import { clearOfBody } from '../garment/clear-of-body.ts';
import type { ClothLevel, Garment } from '../garment/garment.ts';
import { makeTube, type LaidTube } from '../garment/make-tube.ts';
import { triple } from '../mesh/triple.ts';
import { alike } from './alike.ts';
import type { LaidCloth, SkinAround, StandingStudy } from './standing-study.ts';
import type { Study } from './study.ts';

/**
 * Lays the garment on the body. Of what stands from an earlier run on the same body it takes over all that would come
 * out the same: the skin as contact sees it, where the garment still lies within its box; what lies under the cloth,
 * where the cloth lies as before; the layout of the search, where the mesh hangs together as before.
 *
 * Pauses where a block is laid, which takes a second or two.
 *
 * @throws {Fault} `garment/...`, `block/...` where the sheet and the body do not go together.
 */
export function* layCloth(study: Study, body: Body, before?: StandingStudy): Generator<void, LaidCloth> {
  const kept = before?.body === body ? before : undefined;
  if (kept && cutOf(kept.study).every((part, i) => alike(part, cutOf(study)[i]))) return kept.cloth;
  let around = kept?.cloth.around;
  const contactField = (box: Box) => (around = skinAround(box, body, around)).skin;
  const isLaid = kept !== undefined && alike(hemsOf(study), hemsOf(kept.study));
  const ready = { ...body, contactField };
  const {
    garment: laid,
    skin,
    laidRings,
  } = yield* layGarment(study, ready, isLaid ? kept.cloth.laidRings : undefined);
  const clear = clearOfBody(laid.levels, skin);
  const garment = { ...laid, levels: clear.levels, findings: [...laid.findings, ...clear.findings] };
  const isKnit =
    kept !== undefined && isBent(study) === isBent(kept.study) && isKnitAlike(garment, kept.cloth.garment);
  return {
    garment,
    skin,
    around: around!,
    laidRings,
    foundation: isLaid ? kept.cloth.foundation : foundationUnder(body, garment.levels),
    prepared: isKnit ? kept.cloth.prepared : prepareCloth(garment.levels, { hinges: isBent(study) }),
  };
}

function* layGarment(
  { garment, edge }: Study,
  body: Body,
  laidBefore: LaidTube['laidRings'] | undefined,
): Generator<void, LaidTube> {
  if (!isBlock(garment)) return makeTube(garment, body, edge, laidBefore);
  return { ...(yield* layBlock(soundDraft(draftBlock(body, garment)), body, edge)), laidRings: [] };
}

/** All that decides where each vertex is laid on a body: of a tube its hems, of a block whatever its sheet says. */
const hemsOf = ({ garment, edge }: Study) =>
  isBlock(garment) ? [garment, edge] : [garment.region, garment.from, garment.to, edge];

const isBent = ({ bending }: Study): boolean => bending ?? false;

/** All that laid cloth depends on but the body. */
const cutOf = (study: Study) => [study.garment, study.edge, isBent(study)];

/** Boxes end on multiples of this, m: the nodes of a form's field then lie alike wherever its box ends. */
const BOX_STEP = 0.03;
/** A field reaches 60 mm beyond its box; cloth that hangs over by this leaves the other half to be pulled about in, m. */
const OVERHANG = 0.03;

function skinAround(box: Box, body: Body, kept: SkinAround | undefined): SkinAround {
  const holds = (k: 0 | 1 | 2): boolean =>
    box.low[k] >= kept!.box.low[k] - OVERHANG && box.high[k] <= kept!.box.high[k] + OVERHANG;
  if (kept && holds(0) && holds(1) && holds(2)) return kept;
  const roomy = {
    low: triple((k) => BOX_STEP * Math.floor(box.low[k]! / BOX_STEP)),
    high: triple((k) => BOX_STEP * Math.ceil(box.high[k]! / BOX_STEP)),
  };
  return { box: roomy, skin: body.contactField(roomy) };
}

/** The skin under laid cloth has its corners within this way of it, m. */
const NEAR = 0.1;

/** All levels at one asking: looking up places on the skin is quick, making it ready to be looked up is not. */
function foundationUnder(body: Body, levels: readonly ClothLevel[]): Float64Array[] {
  const points = new Float64Array(levels.reduce((sum, { mesh }) => sum + mesh.positions.length, 0));
  let from = 0;
  for (const { mesh } of levels) {
    points.set(mesh.positions, from);
    from += mesh.positions.length;
  }
  const near = skinNear(body.skin, levels.at(-1)!.mesh.positions, NEAR);
  const foundation = Float64Array.from(near.bodyVertex, (v) => body.foundation[v]!);
  const all = foundationAt({ skin: near.mesh, foundation }, points);
  from = 0;
  return levels.map(({ mesh }) => all.slice(from, (from += mesh.positions.length / 3)));
}

/**
 * Whether two garments have the same triangles on every level. Both grids of tubes and all they are halved from follow from
 * how many rings and columns they have.
 */
const isKnitAlike = (one: Garment, other: Garment): boolean =>
  one.levels.length === other.levels.length &&
  one.columnCount === other.columnCount &&
  one.rings.length === other.rings.length &&
  (one.rings.length > 0 ||
    one.levels.every(({ mesh }, l) => alike(mesh.triangles, other.levels[l]!.mesh.triangles)));
