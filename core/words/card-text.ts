import type { CouplingBand, NextReading, RelativeBand } from '../fabric/coupling-band.ts';
import { STRUCTURAL_SHARE } from '../fabric/coupling-band.ts';
import type { Direction } from '../fabric/fabric.ts';
import type { DerivedNumber } from '../sheet/derived-number.ts';
import { extensionText, tensionRangeText, tensionText } from '../sheet/derived-tension.ts';
import type { CardMiss, CardMethods, FabricCard, ResidualRow } from '../sheet/fabric-card.ts';
import { signed } from '../sheet/number-format.ts';
import { percentFromRatio } from '../units/units.ts';
import { kindText } from './card-words.ts';
import { CAUTION_SHORT } from './judgement-words.ts';
import { sayFinding } from './say.ts';

const DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];

/** A small table: its heading, and its lines below, each beginning with what it is. */
export interface CardTable {
  readonly heading: readonly string[];
  readonly lines: readonly (readonly string[])[];
}

/** Every word and number that a fabric card prints, in its order. */
export interface CardText {
  readonly name: string;
  /** `Lot T-0417 · read on 2025-03-11` */
  readonly lot: string;
  /** Shown in a frame beside the name; null for measured fabrics. */
  readonly mark: string | null;
  readonly note: string | null;
  readonly methods: readonly { readonly title: string; readonly text: string }[];
  readonly single: readonly { readonly title: string; readonly value: string }[];
  readonly numbers: CardTable;
  /** What the star at a number means; null where none has one. */
  readonly star: string | null;
  readonly residuals: CardTable;
  readonly coupling: readonly string[];
  readonly remarks: readonly string[];
  readonly caution: string;
}

/** Titles of the card's parts. */
export const CARD_WORDS = {
  title: 'Fabric card',
  methods: 'How it was read',
  numbers: 'What came of it',
  curves: 'Strips: dots read, thick line fitted pulled out, thin line let back, dotted beyond the readings',
  residuals: 'How far the fitted curve misses the readings',
  coupling: 'How warp and weft pull together',
  remarks: 'Remarks of the bench',
  noRemarks: 'None.',
  moreRemarks: (count: number) =>
    `${count === 1 ? 'One more remark stands' : `${count} more remarks stand`} on the bench.`,
  printed: (date: string) => `printed ${date}`,
  savePicture: 'Save picture',
  print: 'Print or save as PDF',
} as const;

/** The card in words. */
export function cardText(card: FabricCard): CardText {
  const starred = card.numbers.some(({ beyondReadings }) => beyondReadings);
  return {
    name: cut(card.name, LONGEST.name),
    lot: `${card.lot === '' ? 'No lot given' : `Lot ${cut(card.lot, LONGEST.lot)}`} · read on ${card.date}`,
    mark: card.invented ? 'Invented readings' : null,
    note: card.note === null ? null : cut(card.note, LONGEST.note),
    methods: methodLines(card.methods),
    single: card.single
      .filter(({ label }) => label !== 'coupling')
      .map((number) => ({ title: kindText(number), value: cellText(number) })),
    numbers: {
      heading: ['', ...DIRECTIONS],
      lines: card.rows.map((row) => [
        kindText(row),
        ...DIRECTIONS.map((direction) => cellText(row.cells[direction])),
      ]),
    },
    star: starred ? '* beyond the last reading: the curve goes on there by itself' : null,
    residuals: {
      heading: ['', 'out: mean, worst', 'back: mean, worst', 'width'],
      lines: card.residuals.map(residualLine),
    },
    coupling: [...couplingSentences(card), ...greatestSentences(card)],
    remarks: card.findings.map(sayFinding),
    caution: CAUTION_SHORT,
  };
}

/** What one line, or for the note two lines, of the card holds, characters. */
const LONGEST = { name: 60, lot: 60, note: 220 } as const;

/** Words longer than their place end in an ellipsis: the card stays one page. */
const cut = (text: string, most: number): string =>
  text.length <= most ? text : `${text.slice(0, most - 1).trimEnd()}…`;

/** Lines that the page has for remarks, and what one holds, characters. */
const REMARK_ROOM = { lines: 6, perLine: 112 } as const;

/** As many remarks as the page holds; the last line says how many are left out, and where they stand. */
export function remarksOnPage(remarks: readonly string[]): readonly string[] {
  if (remarks.length === 0) return [CARD_WORDS.noRemarks];
  const linesOf = (remark: string) => Math.ceil(remark.length / REMARK_ROOM.perLine);
  let room = REMARK_ROOM.lines;
  const shown = remarks.filter((remark, index) => {
    room -= linesOf(remark);
    // The last line is kept for what is left out.
    return room >= (index === remarks.length - 1 ? 0 : 1);
  });
  const left = remarks.length - shown.length;
  return left === 0 ? shown : [...shown, CARD_WORDS.moreRemarks(left)];
}

/** A number as it stands in a table, with a star beyond the last reading; a dash where there is none. */
export const cellText = (number: DerivedNumber | null): string =>
  number === null ? '–' : `${number.value}${number.beyondReadings ? '*' : ''}`;

const missText = (miss: CardMiss | null): string =>
  miss === null ? '–' : `${miss.rms}, ${miss.worst} at ${miss.worstAt}`;

const residualLine = ({ direction, load, return: back, width }: ResidualRow): readonly string[] => [
  direction,
  missText(load),
  missText(back),
  width ?? 'not read',
];

/** How the readings were taken, one line per instrument. */
function methodLines({ weighed, thickness, stretched, bent }: CardMethods): CardText['methods'] {
  const standard = thickness.standard === null ? 'no standard named' : thickness.standard;
  return [
    {
      title: 'Mass',
      text: `strips of ${weighed.lengthMm} × ${weighed.widthMm} mm, ${
        typeof weighed.counts === 'number'
          ? `one of each direction on the pan together, weighed ${times(weighed.counts)}`
          : `weighed apart: ${countsText(weighed.counts)}`
      }`,
    },
    {
      title: 'Thickness',
      text: `${thickness.count === 1 ? 'one place' : `mean of ${thickness.count} places`} under ${thickness.pressureKPa} kPa (${standard})`,
    },
    { title: 'Stretch', text: stretchLine(stretched) },
    {
      title: 'Bending',
      text: `${
        bent.kind === 'cantilever'
          ? `cantilever at ${bent.angleDeg}°`
          : `heart loop of a ${bent.stripMm} mm strip`
      }: ${countsText(bent.counts)}`,
    },
  ];
}

function stretchLine(stretched: CardMethods['stretched']): string {
  const { test, cycle, gaugeMm, widthMm, circumferenceMm, specimens, letBack, widthRead, heldWidth } =
    stretched;
  const loop = circumferenceMm === null ? '' : `, circumference ${circumferenceMm} mm`;
  return [
    test === 'strip'
      ? `strip test, ${widthMm} mm wide, marks ${gaugeMm} mm apart`
      : `loop test, ${widthMm} mm wide${loop}, marks ${gaugeMm} mm apart`,
    cycle === null ? 'cycle not said' : `cycle ${cycle}`,
    `specimens: ${countsText(specimens)}`,
    `let back: ${directionsText(letBack)}`,
    `width under load: ${directionsText(widthRead)}`,
    ...(heldWidth === null ? [] : [`width held: ${heldWidth}`]),
  ].join('; ');
}

/** `all`, `none`, or `warp, weft`. */
function directionsText(directions: readonly Direction[]): string {
  if (directions.length === 0) return 'none';
  return directions.length === DIRECTIONS.length ? 'all' : directions.join(', ');
}

/** `3 in each direction`, or `warp 3, weft 3, bias 1`. */
function countsText(counts: Readonly<Record<Direction, number>>): string {
  const { warp } = counts;
  return DIRECTIONS.every((direction) => counts[direction] === warp)
    ? `${warp} in each direction`
    : DIRECTIONS.map((direction) => `${direction}\u00a0${counts[direction]}`).join(', ');
}

const times = (count: number): string => (count === 1 ? 'once' : `${count} times`);

const FROM_WORDS: Readonly<Record<CouplingBand['from'], string>> = {
  'held width': 'a strip pulled with its width held',
  reciprocity: 'how both strips narrow under load',
  'assumed width': 'a usual narrowing, because the width was not read',
};

const READING_WORDS: Readonly<Record<NextReading['reading'], string>> = {
  'warp width': 'the width of the warp strip under load',
  'weft width': 'the width of the weft strip under load',
  'both widths': 'the widths of the warp and weft strips under load',
  'held-width warp': 'the force of a warp strip whose width is held',
  'held-width weft': 'the force of a weft strip whose width is held',
};

/** `−41 % to +42 %` */
export const bandText = ({ low, high }: RelativeBand): string =>
  `${signed(percentFromRatio(low), 0)}\u00a0% to ${signed(percentFromRatio(high), 0)}\u00a0%`;

/** What is known of the coupling, and the one reading that would tell most. */
function couplingSentences({ coupling }: FabricCard): readonly string[] {
  if (coupling === null) return [];
  const { band, next } = coupling;
  const known = `Strips alone do not settle how much warp and weft pull on each other. The coupling is taken as ${tensionText(band.shown)} and lies somewhere from ${tensionRangeText(band.low, band.high)}; it rests on ${FROM_WORDS[band.from]}. Beside that, the form of the law may miss a tension by ${extensionText(STRUCTURAL_SHARE)}.`;
  return [known, nextReadingText(next)];
}

/** The one more reading that would narrow the band most, and by how much. */
export function nextReadingText(next: NextReading | null): string {
  if (next === null) return 'No further reading would narrow this.';
  return `Read next: ${READING_WORDS[next.reading]}. In a panel held to its width at ${extensionText(next.extension)} stretch, the crosswise tension is known to ${bandText(next.now)} of the tension along; that reading would bring it to ${bandText(next.after)}.`;
}

function greatestSentences({ greatest }: FabricCard): readonly string[] {
  if (greatest === null) return [];
  const { said, found } = greatest;
  const stretches = `Under one load the ${found.join(' and the ')} ${found.length === 1 ? 'stretches' : 'stretch'} most`;
  if (said === null) return [`${stretches}.`];
  return [
    found.includes(said)
      ? `${stretches}, as the sheet says (${said}).`
      : `${stretches}; the sheet says ${said}.`,
  ];
}
