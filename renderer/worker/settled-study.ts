import { isBlock, warpOf } from '../../core/block/garment-sheet.ts';
import { compareWorn } from '../../core/judgement/compare.ts';
import { reviewOf } from '../../core/judgement/review.ts';
import { vertexAreas } from '../../core/mesh/vertex-areas.ts';
import { girthRows } from '../../core/sheet/body-sheet.ts';
import { fabricSheet } from '../../core/sheet/fabric-sheet.ts';
import { garmentRows } from '../../core/sheet/garment-sheet.ts';
import { levelRows } from '../../core/sheet/level-rows.ts';
import { edgeSegments, panelPicture } from '../../core/sheet/panel-picture.ts';
import type { StudyRun } from '../../core/study/standing-study.ts';
import type { Study, StudyResult, WornResult } from '../../core/study/study.ts';
import { carriedField } from './carried-field.ts';
import { givenSkin } from './given-skin.ts';
import type { CutGarment, KnownBody, SettledStudy, StudySheet, WornCloth } from './messages.ts';
import { vertexNormals } from './vertex-normals.ts';

/** What can be said of a study before it is run. */
export function studySheet(study: Study): StudySheet {
  const { name, friction, frictionFrom = 'typed', branch, edge, garment } = study;
  const flesh = study.flesh ?? { kind: 'foundation' };
  const fabrics = study.fabrics.map(({ id, fabric }) =>
    fabricSheet(fabric, { id, branch, warp: warpOf(garment) }),
  );
  return {
    name,
    fabrics,
    friction,
    frictionFrom,
    flesh,
    branch,
    edge,
    garment,
    bodyKind: study.body.kind,
    measures: study.body.kind === 'fitBody' ? study.body.measures : null,
    shape: (study.body.kind === 'fitBody' ? study.body.shape : undefined) ?? {},
    tape: study.tape ?? { placed: {}, lines: [] },
    tissue: study.tissue ?? { regions: [], strokes: [] },
  };
}

/** A result as the window needs it: read, judged, compared, and the skin drawn as it gives way. */
export function settledStudy(study: Study, result: StudyRun): SettledStudy {
  const { body, garment } = result;
  const finest = garment.levels.at(-1)!;
  const { triangles } = finest.mesh;
  const worn = result.worn.map((one) => wornCloth(study, result, one));
  const [first, second] = worn;
  const comparison =
    first === undefined || second === undefined
      ? null
      : compareWorn(
          { ...first, triangles, edgeVertex: finest.edgeVertex },
          body,
          first.fields,
          second.fields,
        );
  return {
    skin: body.skin,
    known: knownOf(result.standing.asMade),
    girths: girthRows(body),
    bodyFindings: body.findings,
    clothTriangles: triangles,
    edgeVertex: finest.edgeVertex,
    garmentRows: isBlock(study.garment)
      ? []
      : garmentRows(
          garment,
          study.garment,
          worn.map(({ positions }) => positions),
        ),
    cut: cutGarment(study, result),
    garmentFindings: garment.findings,
    worn,
    comparison,
  };
}

function cutGarment({ garment: sheet }: Study, { body, garment, worn }: StudyResult): CutGarment | null {
  if (!isBlock(sheet) || garment.pattern === undefined) return null;
  const positions = worn.map(({ equilibrium }) => equilibrium.positions);
  return {
    levels: levelRows(garment, sheet, body, positions),
    panels: panelPicture(garment.pattern),
    edges: edgeSegments(garment),
  };
}

/** Without the functions of a body, which cannot cross. */
const knownOf = (body: KnownBody): KnownBody => {
  const { landmarks, floor, forward, regions, tissueDepth, foundation, tissueSource } = body;
  return { landmarks, floor, forward, regions, tissueDepth, foundation, tissueSource };
};

function wornCloth(study: Study, { body, garment }: StudyResult, worn: WornResult): WornCloth {
  const { positions, distance, offset, residual, atRest } = worn.equilibrium;
  const { mesh, edgeVertex } = garment.levels.at(-1)!;
  const { triangles } = mesh;
  const vertexArea = vertexAreas({ positions, triangles });
  // Grip does not fade out at the border of touch as pressure does.
  const fields = worn.fields.map((field) =>
    field.id === 'gripUsed' ? carriedField(field, triangles) : field,
  );
  const fabric = study.fabrics.find(({ id }) => id === worn.fabricId)?.fabric;
  const given = givenSkin(body.skin, { positions, vertexArea, distance, movedSkin: worn.movedSkin });
  const isBanded = fields.some(({ band }) => band !== undefined);
  return {
    fabricId: worn.fabricId,
    positions,
    vertexArea,
    fields,
    bandFrom: isBanded ? (fabric?.band?.from ?? null) : null,
    distance: distance.map((value, v) => value + offset[v]!),
    givenSkin: given,
    givenNormals: vertexNormals({ positions: given, triangles: body.skin.triangles }),
    residual,
    atRest,
    findings: worn.findings,
    review: reviewOf({ positions, triangles, edgeVertex, vertexArea }, body, fields),
  };
}
