import type { GarmentSheet } from '../core/block/garment-sheet.ts';
import type { TubeSheet } from '../core/garment/tube-sheet.ts';
import type { StudyChange } from '../core/study/study.ts';
import { bodyAsFile, millimetres } from './body-as-file.ts';
import type { StudySheet } from './store/study-store.ts';

/**
 * The text of a study file with what was tried written into it; everything else stays as it was.
 *
 * @param text - A study that has been read before, so that it is a study's.
 * @param tried - What of it is tried.
 * @param sheet - The study as it is worn with that.
 */
export function withTries(text: string, tried: StudyChange, sheet: StudySheet): string {
  const file: unknown = JSON.parse(text.replace(/^\uFEFF/, ''));
  if (!isRecord(file) || !isRecord(file['garment'])) throw new Error('the study on the stage has no garment');
  const { garment } = file;
  const { friction, flesh, branch } = tried;
  const isCut = (['girthScale', 'from', 'to', 'block'] as const).some((part) => tried[part] !== undefined);
  const changed = {
    ...file,
    name: `${sheet.name}, as tried`,
    ...(isCut && { garment: garmentWith(garment, sheet.garment) }),
    ...(friction && { friction: friction.from === 'typed' ? friction.coefficient : friction.from }),
    ...(flesh && { flesh: flesh.kind === 'layer' ? layerOf(flesh) : flesh.kind }),
    ...(branch && { branch }),
    ...bodyAsFile(tried, sheet),
  };
  return `${JSON.stringify(changed, null, 2)}\n`;
}

const layerOf = ({ poisson, skin }: { readonly poisson: number; readonly skin: 'slides' | 'held' }) => ({
  layer: { poisson, skin },
});

/** The garment with the measures of `cut`. */
function garmentWith(garment: Record<string, unknown>, cut: GarmentSheet): Record<string, unknown> {
  if ('block' in cut) {
    const { laidMm: _before, ...kept } = garment;
    return {
      ...kept,
      ...(('construction' in garment || cut.construction !== 'cut') && { construction: cut.construction }),
      girthsMm: inMillimetres(cut.girths),
      lengthsMm: inMillimetres(cut.lengths),
      ...(cut.laid && { laidMm: inMillimetres(cut.laid) }),
    };
  }
  const { tube } = garment;
  if (!isRecord(tube)) throw new Error('the study on the stage has no tube');
  return { ...garment, tube: tubeWith(tube, cut) };
}

const inMillimetres = (measures: Readonly<Record<string, number>>): Record<string, number> =>
  Object.fromEntries(Object.entries(measures).map(([name, value]) => [name, millimetres(value)]));

/** The tube with the measures of `cut`, its parts told by their order. mm, to a tenth. */
function tubeWith(tube: Record<string, unknown>, cut: TubeSheet): Record<string, unknown> {
  const { bands, linings } = tube;
  return {
    ...tube,
    fromMm: millimetres(cut.from),
    toMm: millimetres(cut.to),
    girths: cut.girths.map(({ at, relaxed }) => ({ atMm: millimetres(at), relaxedMm: millimetres(relaxed) })),
    ...(Array.isArray(bands) && {
      bands: bands.filter(isRecord).map((band, i) => {
        const { at, relaxed } = cut.bands![i]!;
        return {
          ...band,
          at: typeof at === 'number' ? millimetres(at) : at,
          relaxedMm: millimetres(relaxed),
        };
      }),
    }),
    ...(Array.isArray(linings) && {
      linings: linings.filter(isRecord).map((lining, i) => {
        const { from, to } = cut.linings![i]!;
        return {
          ...lining,
          ...(from !== undefined && { fromMm: millimetres(from) }),
          ...(to !== undefined && { toMm: millimetres(to) }),
        };
      }),
    }),
  };
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
