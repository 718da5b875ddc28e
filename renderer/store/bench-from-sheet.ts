import type { BenchSheet } from '../../core/io/bench-sheet.ts';
import type { Direction } from '../../core/fabric/fabric.ts';
import {
  CURVES,
  EMPTY_DRAFT,
  EMPTY_SPECIMEN,
  type BenchDraft,
  type CurveName,
  type PairRow,
  type Repeats,
  type SpecimenDraft,
} from './bench-draft.ts';

type Pairs = BenchSheet['stretch']['warp']['load'];

/** A sheet as somebody would have typed it. */
export function draftFromSheet(sheet: BenchSheet): BenchDraft {
  const { strip, thickness } = sheet;
  return {
    name: sheet.name,
    lot: sheet.lot,
    date: sheet.date,
    note: sheet.note ?? '',
    invented: sheet.invented,
    greatestStretch: sheet.greatestStretch ?? null,
    weigh: {
      length: String(strip.lengthMm),
      width: String(strip.widthMm),
      weighed: strip.massTogetherG === undefined ? 'apart' : 'together',
      unit: 'g',
      apart: eachRepeats(strip.massG),
      together: repeats(strip.massTogetherG),
    },
    thickness: {
      values: repeats(thickness.mm),
      pressure: String(thickness.pressureKPa),
      standard: thickness.standard ?? null,
    },
    stretch: stretchDraft(sheet.stretch),
    bend: bendDraft(sheet.bending),
  };
}

function stretchDraft(stretch: BenchSheet['stretch']): BenchDraft['stretch'] {
  const { heldWidth, units } = stretch;
  const usual = EMPTY_DRAFT.stretch.units;
  return {
    test: stretch.test ?? 'strip',
    cycle: text(stretch.cycle),
    gauge: String(stretch.gaugeMm),
    width: String(stretch.widthMm),
    circumference: text(stretch.circumferenceMm),
    units: {
      extension: units?.extension ?? usual.extension,
      force: units?.force ?? usual.force,
      width: units?.width ?? usual.width,
    },
    strips: {
      warp: specimens(stretch.warp),
      weft: specimens(stretch.weft),
      bias: specimens(stretch.bias),
      held: heldWidth === undefined ? [EMPTY_SPECIMEN] : specimens({ load: heldWidth.load }),
    },
    heldDirection: heldWidth?.direction ?? 'warp',
  };
}

const bendDraft = ({ angleDeg, overhangMm, heartLoop }: BenchSheet['bending']): BenchDraft['bend'] => ({
  kind: heartLoop === undefined ? 'cantilever' : 'heartLoop',
  angle: angleDeg === undefined ? EMPTY_DRAFT.bend.angle : String(angleDeg),
  stripLength: text(heartLoop?.stripLengthMm),
  overhang: eachRepeats(overhangMm),
  loopHeight: eachRepeats(heartLoop?.loopHeightMm),
});

const text = (value: number | undefined): string => (value === undefined ? '' : String(value));

const repeats = (value: number | readonly number[] | undefined): Repeats =>
  value === undefined ? [] : [value].flat().map(String);

function eachRepeats(
  values: Readonly<Record<Direction, number | readonly number[]>> | undefined,
): Record<Direction, Repeats> {
  return { warp: repeats(values?.warp), weft: repeats(values?.weft), bias: repeats(values?.bias) };
}

/** One table of three per strip that was pulled; the lists of the sheet need not be equally many. */
function specimens(readings: { readonly [C in CurveName]?: Pairs | undefined }): SpecimenDraft[] {
  const lists = {
    load: rowLists(readings.load),
    return: rowLists(readings.return),
    width: rowLists(readings.width),
  };
  const count = Math.max(1, ...CURVES.map((curve) => lists[curve].length));
  return Array.from({ length: count }, (_, index) => ({
    load: lists.load[index] ?? [],
    return: lists.return[index] ?? [],
    width: lists.width[index] ?? [],
  }));
}

function rowLists(pairs: Pairs | undefined): PairRow[][] {
  if (pairs === undefined) return [];
  const lists = isRepeated(pairs) ? pairs : [pairs];
  return lists.map((list) => list.map(([extension, reading]) => [String(extension), String(reading)]));
}

type Lists = Extract<Pairs, readonly unknown[][][]>;
const isRepeated = (pairs: Pairs): pairs is Lists => Array.isArray(pairs[0]?.[0]);
