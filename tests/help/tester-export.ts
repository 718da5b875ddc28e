import * as fc from 'fast-check';

import type { Direction } from '../../core/fabric/fabric.ts';
import type { Separator } from '../../core/io/delimited-text.ts';

/** One strip as the tester saw it: numbers as they stand in the file. */
export interface TestedStrip {
  readonly direction: Direction;
  readonly specimen: number;
  /** Per cycle, out and back; the peak is the last way out and the first way back. */
  readonly cycles: readonly { readonly load: readonly Reading[]; readonly return: readonly Reading[] }[];
}

/** Extension, force, width (null: not read), in the file's units. */
export type Reading = readonly [number, number, number | null];

/** How a tester writes its table. */
export interface Dialect {
  readonly separator: Separator;
  readonly mark: ',' | '.';
  readonly bom: boolean;
  readonly lineEnd: '\n' | '\r\n' | '\r';
  readonly language: keyof typeof NAMES;
  readonly extensionUnit: '%' | 'ratio' | 'mm';
  readonly forceUnit: 'N' | 'cN' | 'gf' | 'kgf' | 'N/m' | 'N/5 cm' | 'gf/cm';
  readonly unitStyle: 'brackets' | 'parentheses' | 'row' | 'slash';
  readonly layout: 'long' | 'series' | 'side by side' | 'under one another';
  readonly withWidth: boolean;
  readonly emptyRows: boolean;
  readonly nonBreaking: boolean;
}

/** Column names and direction words in common use. */
const NAMES = {
  english: ['Extension', 'Force', 'Width', 'Specimen', 'Cycle', 'Direction', ['warp', 'weft', 'bias']],
  german: ['Dehnung', 'Zugkraft', 'Breite', 'Probe', 'Zyklus', 'Richtung', ['Kette', 'Schuss', 'schräg']],
  french: ['Allongement', 'Force', 'Largeur', 'Éprouvette', 'Cycle', 'Sens', ['chaîne', 'trame', 'biais']],
  spanish: [
    'Alargamiento',
    'Fuerza',
    'Anchura',
    'Probeta',
    'Ciclo',
    'Dirección',
    ['urdimbre', 'trama', 'bies'],
  ],
  italian: [
    'Allungamento',
    'Forza',
    'Larghezza',
    'Provino',
    'Ciclo',
    'Direzione',
    ['ordito', 'trama', 'sbieco'],
  ],
  portuguese: ['Alongamento', 'Força', 'Largura', 'Provete', 'Ciclo', 'Direção', ['urdume', 'trama', 'viés']],
} as const;

export const GAUGE_MM = 200;
export const WIDTH_MM = 75;
const SIGNS = { tab: '\t', semicolon: ';', comma: ',', spaces: '   ' } as const;

export const dialects: fc.Arbitrary<Dialect> = fc
  .record({
    separator: fc.constantFrom('tab', 'semicolon', 'comma', 'spaces'),
    mark: fc.constantFrom(',', '.'),
    bom: fc.boolean(),
    lineEnd: fc.constantFrom('\n', '\r\n', '\r'),
    language: fc.constantFrom('english', 'german', 'french', 'spanish', 'italian', 'portuguese'),
    extensionUnit: fc.constantFrom('%', 'ratio', 'mm'),
    forceUnit: fc.constantFrom('N', 'cN', 'gf', 'kgf', 'N/m', 'N/5 cm', 'gf/cm'),
    unitStyle: fc.constantFrom('brackets', 'parentheses', 'row', 'slash'),
    layout: fc.constantFrom('long', 'series', 'side by side', 'under one another'),
    withWidth: fc.boolean(),
    emptyRows: fc.boolean(),
    nonBreaking: fc.boolean(),
  } as const)
  // Cut at spaces, an empty cell cannot be told from none.
  .map((dialect): Dialect => {
    if (dialect.separator !== 'spaces') return dialect;
    const layout = dialect.layout === 'side by side' ? 'long' : dialect.layout;
    const unitStyle = dialect.unitStyle === 'row' ? 'brackets' : dialect.unitStyle;
    return { ...dialect, layout, unitStyle, withWidth: false };
  });

/** Rising tenths between two bounds, both among them. */
const rising = (least: number, most: number): fc.Arbitrary<number[]> =>
  fc
    .uniqueArray(fc.integer({ min: least * 10 + 1, max: most * 10 - 1 }), { minLength: 1, maxLength: 8 })
    .map((inside) => [least * 10, ...inside.sort((a, b) => a - b), most * 10].map((tenths) => tenths / 10));

const cycle = fc
  .record({ peak: fc.integer({ min: 40, max: 100 }), low: fc.integer({ min: 0, max: 4 }) })
  .chain(({ peak, low }) =>
    fc.record({
      // Above every low, so that a series has its turn where the strip has it.
      out: rising(4, peak).map(([, ...above]) => [0, ...above]),
      back: rising(low, peak),
      forces: fc.array(fc.integer({ min: 1, max: 99_999 }), { minLength: 20, maxLength: 20 }),
      widths: fc.array(fc.option(fc.integer({ min: 200, max: 749 })), { minLength: 10, maxLength: 10 }),
    }),
  )
  .map(({ out, back, forces, widths }) => {
    const load = out.map((e, i): Reading => [e, forces[i]! / 1000, (widths[i] ?? null) && widths[i]! / 10]);
    const home = back.toReversed().map((e, i): Reading => [e, forces[10 + i]! / 1000, null]);
    // One reading at the peak, which both ways share.
    return { load, return: [load.at(-1)!, ...home.slice(1)] };
  });

export const testedStrips: fc.Arbitrary<TestedStrip[]> = fc
  .record({
    directions: fc.uniqueArray(fc.constantFrom('warp', 'weft', 'bias'), { minLength: 1, maxLength: 2 }),
    cycles: fc.array(
      fc.array(fc.array(cycle, { minLength: 1, maxLength: 3 }), { minLength: 3, maxLength: 3 }),
      {
        minLength: 2,
        maxLength: 2,
      },
    ),
    counts: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 2, maxLength: 2 }),
  } as const)
  .map(({ directions, cycles, counts }) =>
    directions.flatMap((direction, d) =>
      cycles[d]!.slice(0, counts[d]).map((own, i) => ({ direction, specimen: i + 1, cycles: own })),
    ),
  );

/** The table that a tester of this dialect writes of these strips. */
export function exportTable(strips: readonly TestedStrip[], dialect: Dialect): string {
  const rows = ROWS_OF[dialect.layout](strips, dialect);
  const sign = SIGNS[dialect.separator];
  const quote = (cell: string): string =>
    dialect.separator === 'comma' && cell.includes(',') ? `"${cell}"` : cell;
  const lines = rows.map((row) => row.map(quote).join(sign));
  const text = `${lines.join(dialect.lineEnd)}${dialect.lineEnd}`;
  const spaced =
    dialect.nonBreaking && dialect.separator !== 'spaces' ? text.replaceAll(' ', '\u00a0') : text;
  return `${dialect.bom ? '\uFEFF' : ''}${spaced}`;
}

type Row = readonly string[];

const ROWS_OF: Record<Dialect['layout'], (strips: readonly TestedStrip[], dialect: Dialect) => Row[]> = {
  long: longRows,
  series: seriesRows,
  'side by side': sideRows,
  'under one another': underRows,
};

const number = (value: number, { mark }: Dialect): string => value.toFixed(3).replace('.', mark);

function unitNames(names: readonly string[], units: readonly string[], dialect: Dialect): Row[] {
  const { unitStyle } = dialect;
  if (unitStyle === 'row') return [names, units];
  const join = (name: string, unit: string): string => {
    if (unit === '') return name;
    if (unitStyle === 'brackets') return `${name} [${unit}]`;
    return unitStyle === 'parentheses' ? `${name} (${unit})` : `${name} / ${unit}`;
  };
  return [names.map((name, i) => join(name, units[i]!))];
}

function measured(dialect: Dialect): { names: string[]; units: string[] } {
  const [extension, force, width] = NAMES[dialect.language];
  const width1 = dialect.withWidth ? [width] : [];
  return {
    names: [extension, force, ...width1],
    units: [dialect.extensionUnit, dialect.forceUnit, ...(dialect.withWidth ? ['mm'] : [])],
  };
}

const cellsOf = ([extension, force, width]: Reading, dialect: Dialect): string[] => [
  number(extension, dialect),
  number(force, dialect),
  ...(dialect.withWidth ? [width === null ? '' : number(width, dialect)] : []),
];

const directionWord = (direction: Direction, dialect: Dialect): string =>
  NAMES[dialect.language][6][['warp', 'weft', 'bias'].indexOf(direction)]!;

const preamble = (dialect: Dialect): Row[] => [
  ['Invented readings'],
  ['Gauge length', number(GAUGE_MM, dialect), 'mm'],
  [`Strip width: ${number(WIDTH_MM, dialect)} mm`],
];

/** All of a cycle, the peak once. */
const once = ({ load, return: home }: TestedStrip['cycles'][number]): readonly Reading[] => [
  ...load,
  ...home.slice(1),
];

const gap = ({ emptyRows, separator }: Dialect): Row[] =>
  emptyRows ? [separator === 'spaces' ? [''] : ['', '']] : [];

function longRows(strips: readonly TestedStrip[], dialect: Dialect): Row[] {
  const [, , , specimen, cycle, direction] = NAMES[dialect.language];
  const { names, units } = measured(dialect);
  const header = unitNames([direction, specimen, cycle, ...names], ['', '', '', ...units], dialect);
  const body = strips.flatMap((strip) =>
    strip.cycles.flatMap((own, k) =>
      once(own).map((reading) => [
        directionWord(strip.direction, dialect),
        String(strip.specimen),
        String(k + 1),
        ...cellsOf(reading, dialect),
      ]),
    ),
  );
  return [...preamble(dialect), ...gap(dialect), ...header, ...body];
}

/** Without cycles: between two of them the strip goes from its lowest reading straight out again. */
function seriesRows(strips: readonly TestedStrip[], dialect: Dialect): Row[] {
  const [, , , specimen, , direction] = NAMES[dialect.language];
  const { names, units } = measured(dialect);
  const header = unitNames([specimen, direction, ...names], ['', '', ...units], dialect);
  const body = strips.flatMap((strip) =>
    strip.cycles.flatMap((own, k) =>
      once(k === 0 ? own : { ...own, load: own.load.slice(1) }).map((reading) => [
        String(strip.specimen),
        directionWord(strip.direction, dialect),
        ...cellsOf(reading, dialect),
      ]),
    ),
  );
  return [...preamble(dialect), ...gap(dialect), ...header, ...body];
}

function sideRows(strips: readonly TestedStrip[], dialect: Dialect): Row[] {
  const [, , , specimen] = NAMES[dialect.language];
  const { names, units } = measured(dialect);
  const title = strips.flatMap((strip) => [
    `${directionWord(strip.direction, dialect)}, ${specimen} ${strip.specimen}`,
    ...names.slice(1).map(() => ''),
  ]);
  const header = unitNames(
    strips.flatMap(() => names),
    strips.flatMap(() => units),
    dialect,
  );
  const columns = strips.map((strip) =>
    strip.cycles.flatMap((own, k) => once(k === 0 ? own : { ...own, load: own.load.slice(1) })),
  );
  const length = Math.max(...columns.map((column) => column.length));
  const body = Array.from({ length }, (_, r) =>
    columns.flatMap((column) =>
      column[r] === undefined ? names.map(() => '') : cellsOf(column[r], dialect),
    ),
  );
  // A single title is a line like any other.
  return [...preamble(dialect), ...gap(dialect), title, ...header, ...body];
}

function underRows(strips: readonly TestedStrip[], dialect: Dialect): Row[] {
  const [, , , specimen, cycle, direction] = NAMES[dialect.language];
  const { names, units } = measured(dialect);
  const blocks = strips.flatMap((strip) =>
    strip.cycles.flatMap((own, k): Row[] => [
      ...gap(dialect),
      ...(k === 0 ? [[direction, directionWord(strip.direction, dialect)]] : []),
      ...(k === 0 ? [[`${specimen}: ${strip.specimen}`]] : []),
      [`${cycle} ${k + 1}`],
      ...unitNames(names, units, dialect),
      ...once(own).map((reading) => cellsOf(reading, dialect)),
    ]),
  );
  return [...preamble(dialect), ...blocks];
}
