import { changedBlock } from '../block/changed-block.ts';
import { isBlock, type GarmentSheet } from '../block/garment-sheet.ts';
import type { TubeSheet } from '../garment/tube-sheet.ts';
import type { Study, StudyChange } from './study.ts';

/**
 * A study with some of its answers tried otherwise; what the change leaves out stays. Always change the study as it was
 * opened: a `girthScale` counts from the girths of the study given.
 */
export function changedStudy(study: Study, change: StudyChange): Study {
  const { friction, flesh, branch, girthScale = 1, measures, shape, tape, tissue } = change;
  return {
    ...study,
    ...(friction && { friction: friction.coefficient, frictionFrom: friction.from }),
    ...(flesh && { flesh }),
    ...(branch && { branch }),
    ...(tape && { tape }),
    ...(tissue && { tissue }),
    ...(study.body.kind === 'fitBody' && {
      body: { ...study.body, ...(measures && { measures }), ...(shape && { shape }) },
    }),
    garment: changedGarment(study.garment, { ...change, girthScale }),
  };
}

function changedGarment(
  opened: GarmentSheet,
  {
    girthScale,
    block = {},
    ...hems
  }: Pick<StudyChange, 'from' | 'to' | 'block'> & { readonly girthScale: number },
): GarmentSheet {
  const sheet = isBlock(opened) ? changedBlock(opened, block) : opened;
  if (!isBlock(sheet)) {
    const { from, to } = { ...sheet, ...hems };
    return scaled(laidElsewhere(sheet, from, to), girthScale);
  }
  if (girthScale === 1) return sheet;
  const girths = Object.entries(sheet.girths).map(([level, girth]) => [level, girth * girthScale] as const);
  return { ...sheet, girths: Object.fromEntries(girths) };
}

/** The same garment, cut larger or smaller all round; elastics sewn to it are cut along. */
function scaled(sheet: TubeSheet, scale: number): TubeSheet {
  if (scale === 1) return sheet;
  return {
    ...sheet,
    girths: sheet.girths.map(({ at, relaxed }) => ({ at, relaxed: relaxed * scale })),
    ...(sheet.bands && { bands: sheet.bands.map((band) => ({ ...band, relaxed: band.relaxed * scale })) }),
  };
}

/** The same piece of clothing with its hems elsewhere: what is measured or sewn at a height goes along in proportion. */
function laidElsewhere(sheet: TubeSheet, from: number, to: number): TubeSheet {
  if (from === sheet.from && to === sheet.to) return sheet;
  const moved = (at: number): number => {
    if (at === sheet.from) return from;
    if (at === sheet.to) return to;
    return from + ((at - sheet.from) * (to - from)) / (sheet.to - sheet.from);
  };
  return {
    ...sheet,
    from,
    to,
    girths: sheet.girths.map(({ at, relaxed }) => ({ at: moved(at), relaxed })),
    ...(sheet.bands && {
      bands: sheet.bands.map((band) => ({
        ...band,
        at: typeof band.at === 'number' ? moved(band.at) : band.at,
      })),
    }),
    ...(sheet.linings && {
      linings: sheet.linings.map((lining) => ({
        ...lining,
        ...(lining.from !== undefined && { from: moved(lining.from) }),
        ...(lining.to !== undefined && { to: moved(lining.to) }),
      })),
    }),
  };
}
